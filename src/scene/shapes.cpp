#include "scene/shapes.h"

namespace quoin {

Item shape(Path path, const Paint& fill) {
  ShapeItem shape;
  shape.path = std::move(path);
  shape.fill = fill;
  Item item;
  item.what = std::move(shape);
  return item;
}

Item line(Path path, Colour colour, Mm width, std::vector<Mm> dash) {
  ShapeItem shape;
  shape.path = std::move(path);
  shape.stroke.paint = colour;
  shape.stroke.width = width;
  shape.stroke.dash = std::move(dash);
  shape.stroke.join = LineJoin::mitre;
  Item item;
  item.what = std::move(shape);
  return item;
}

}  // namespace quoin
