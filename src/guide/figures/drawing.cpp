#include <algorithm>
#include <cmath>

#include "guide/figures/figures.h"
#include "pack/net_lines.h"

namespace quoin::guide {

Item label(const std::string& words, Point middle, Mm width, Colour colour) {
  pack::WordsLook look;
  look.layer = Layer::art;
  look.type_size = Mm{2.9};
  look.ink = colour;
  return pack::words_item(words, middle, {width, Mm{5}}, look);
}

std::vector<Item> arrow(Path way, Point tip, Vec direction, Colour colour) {
  constexpr Mm head_length{3.4}, head_width{1.5};
  const Vec along = direction * (1 / length(direction).value);
  const Vec square{-along.y, along.x};
  Path head;
  head.move_to(tip)
      .line_to(tip - along * head_length.value + square * head_width.value)
      .line_to(tip - along * head_length.value - square * head_width.value)
      .close();
  return {line(std::move(way), colour, Mm{0.7}), shape(std::move(head), colour)};
}

Item hatched(Rect area, Colour colour) {
  constexpr Mm apart{2};
  Path path;
  for (Mm x = area.left() - area.size.height; x < area.right(); x = x + apart) {
    path.move_to({x, area.bottom()}).line_to({x + area.size.height, area.top()});
  }
  Item lines = line(std::move(path), colour, Mm{0.16});
  lines.clip = Path::rectangle(area);
  return lines;
}

}  // namespace quoin::guide
