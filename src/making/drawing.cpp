#include "making/drawing.h"

#include <cmath>
#include <numbers>

namespace quoin::making {

Item filled(Path path, Colour colour) {
  Item item;
  ShapeItem shape;
  shape.path = std::move(path);
  shape.fill = colour;
  item.what = std::move(shape);
  return item;
}

Item stroked(Path path, Colour colour, Mm width) {
  Item item;
  ShapeItem shape;
  shape.path = std::move(path);
  shape.stroke.paint = colour;
  shape.stroke.width = width;
  item.what = std::move(shape);
  return item;
}

Path line(Point from, Point to) { return Path().move_to(from).line_to(to); }

Path hatch(Rect box, Mm apart) {
  Path path;
  for (Mm x = box.left() - box.size.height; x < box.right(); x += apart) {
    path.move_to({x, box.bottom()}).line_to({x + box.size.height, box.top()});
  }
  return path;
}

Path arrow(Point from, Point to, Mm head) {
  Path path = line(from, to);
  const Mm size = length(to - from);
  if (size < head) return path;
  const Vec back = (from - to) * (head / size);
  for (const double side : {-0.5, 0.5}) {
    const Vec wing{back.x - back.y * side, back.y + back.x * side};
    path.move_to(to + wing).line_to(to);
  }
  return path;
}

Path turn_arrow(Point centre, Mm radius, double degrees) {
  constexpr int steps = 24;
  const auto at = [&](double part) {
    const double angle = degrees * part * std::numbers::pi / 180;
    return centre + Vec{radius * std::sin(angle), radius * -std::cos(angle)};
  };
  Path path;
  path.move_to(at(0));
  for (int i = 1; i <= steps; ++i) path.line_to(at(static_cast<double>(i) / steps));
  const Vec along = at(1) - at(0.97);
  const Mm size = length(along);
  if (size <= Mm{0}) return path;
  const Vec back = along * (-(radius * 0.4) / size);
  for (const double side : {-0.6, 0.6}) {
    path.move_to(at(1) + Vec{back.x - back.y * side, back.y + back.x * side}).line_to(at(1));
  }
  return path;
}

Item words(const std::string& text, Point middle, const WordsLook& look) {
  TextItem item;
  item.block.runs = {{text, false, false, nullptr}};
  item.block.style.type_size = look.type;
  item.block.style.smallest_size = look.type;
  item.block.style.fill = look.ink;
  item.block.style.align = TextAlign::centre;
  item.block.style.vertical = VerticalAlign::middle;
  item.block.style.family = "Noto Sans";
  // A letter of the house face takes 0.46 of the type size on the average, a wide word 0.6.
  item.block.box = {look.type * (0.65 * static_cast<double>(text.size()) + 2), look.type * 1.6};
  item.at = {item.block.box.width / -2, item.block.box.height / -2};
  Item whole;
  whole.map = then(Affine::turn(Angle::degrees(look.turn)), Affine::move({middle.x, middle.y}));
  whole.what = std::move(item);
  return whole;
}

}  // namespace quoin::making
