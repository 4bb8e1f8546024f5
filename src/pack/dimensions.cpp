#include "pack/dimensions.h"

#include <algorithm>

#include "sheets/wording.h"

namespace quoin::pack {
namespace {

constexpr Colour dimension_ink{0.15, 0.15, 0.15, 1};
constexpr Mm dimension_line{0.12}, number_type{2.2}, small_number{1.6};

enum class Way { across, upright };

Item filled(Path path) {
  ShapeItem shape;
  shape.path = std::move(path);
  shape.fill = dimension_ink;
  Item item;
  item.layer = Layer::dimension;
  item.what = std::move(shape);
  return item;
}

/// An arrow head whose tip is at `tip` and points along `way` (length 1).
void add_head(Path& path, Point tip, Vec way, Mm size) {
  const Vec side{-way.y, way.x};
  const Point foot = tip - Vec{} + way * -size.value;
  path.append(
      Path::polygon({tip, foot + side * (size.value * 0.22), foot + side * (size.value * -0.22)}));
}

/// A line with heads from one point to the other and its length beside it, above a line across,
/// left of an upright one.
void add_dimension(std::vector<Item>& items, Point from, Point to, Way way, Mm letters) {
  const Mm size = length(to - from);
  const Vec along = (to - from) * (1 / size.value);
  const Mm head = std::min(Mm{1.6}, size / 3);
  items.push_back(
      line_item(between(from, to), {Layer::dimension, dimension_ink, dimension_line, {}}));
  Path heads;
  add_head(heads, from, along * -1.0, head);
  add_head(heads, to, along, head);
  items.push_back(filled(std::move(heads)));
  const Mm beside = letters * 0.62;
  const Point middle{(from.x + to.x) / 2, (from.y + to.y) / 2};
  WordsLook look{Layer::dimension, letters, dimension_ink, {}, TextAlign::centre};
  if (way == Way::upright) look.turn = Angle::degrees(-90);
  const Vec off = way == Way::upright ? Vec{-beside, Mm{}} : Vec{Mm{}, -beside};
  items.push_back(words_item(sheets::number(size), middle + off, {Mm{20}, letters}, look));
}

void add_panel(std::vector<Item>& items, const fold::Panel& panel) {
  constexpr Mm least{4}, roomy{16};
  const Rect box = bounds(panel.outline);
  const Size size = box.size;
  const Mm across = std::min(size.width, size.height);
  const Mm letters = across < Mm{8} ? small_number : number_type;
  // The two lines cross away from the panel's middle, where their numbers are.
  const Mm x = box.left() + (size.width < roomy ? size.width * 0.86 : size.width * 0.22);
  const Mm y = box.top() + (size.height < roomy ? size.height * 0.86 : size.height * 0.78);
  const bool wide = size.width >= size.height;
  if (across >= least || wide) {
    add_dimension(items, {box.left(), y}, {box.right(), y}, Way::across, letters);
  }
  if (across >= least || !wide) {
    add_dimension(items, {x, box.top()}, {x, box.bottom()}, Way::upright, letters);
  }
}

void add_whole(std::vector<Item>& items, Rect box, Mm off) {
  constexpr Mm past{1}, line_at{3};
  const LineLook thin{Layer::dimension, dimension_ink, dimension_line, {}};
  const Mm y = box.top() - off - line_at, x = box.left() - off - line_at;
  for (const Mm at : {box.left(), box.right()}) {
    items.push_back(line_item(between({at, box.top() - off}, {at, y - past}), thin));
  }
  for (const Mm at : {box.top(), box.bottom()}) {
    items.push_back(line_item(between({box.left() - off, at}, {x - past, at}), thin));
  }
  add_dimension(items, {box.left(), y}, {box.right(), y}, Way::across, number_type);
  add_dimension(items, {x, box.top()}, {x, box.bottom()}, Way::upright, number_type);
}

}  // namespace

std::vector<Item> dimensions(const fold::Net& net, Mm off) {
  std::vector<Item> items;
  std::optional<Rect> all;
  for (const fold::Panel& panel : net.panels) {
    const Rect box = bounds(panel.outline);
    all = all ? covering(*all, box) : box;
    add_panel(items, panel);
  }
  if (all) add_whole(items, *all, off);
  return items;
}

}  // namespace quoin::pack
