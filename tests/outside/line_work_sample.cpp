#include "line_work_sample.h"

#include <numbers>

namespace quoin::outside {
namespace {

Item line_item(Layer layer, Path path, Colour colour) {
  ShapeItem shape;
  shape.path = std::move(path);
  shape.stroke.paint = colour;
  shape.stroke.width = 0.25_mm;
  shape.stroke.join = LineJoin::mitre;
  Item item;
  item.layer = layer;
  item.what = std::move(shape);
  return item;
}

Path straight(Point from, Point to) {
  Path path;
  path.move_to(from).line_to(to);
  return path;
}

}  // namespace

Drawing LineWorkSample::drawing() {
  const Rect outer{{}, {100_mm, 60_mm}};
  const Path round = Path::ellipse({{42_mm, 22_mm}, {hole * 2, hole * 2}});
  Item turned = line_item(Layer::crease, straight({0_mm, 0_mm}, {0_mm, 60_mm}), {0, 0, 1, 1});
  turned.map = Affine::turn_about({50_mm, 30_mm}, Angle::degrees(180));  // now at x = 100
  turned.map = then(turned.map, Affine::move({-30_mm, 0_mm}));
  return {
      "Net",
      {{-10_mm, -10_mm}, {120_mm, 80_mm}},
      {{line_item(Layer::cut, Path::rounded_rectangle(outer, corner), {1, 0, 0, 1}),
        line_item(Layer::crease, straight({30_mm, 0_mm}, {30_mm, 60_mm}), {0, 0, 1, 1}), turned,
        line_item(Layer::cut, straight({5_mm, 30_mm}, {25_mm, 30_mm}), {1, 0, 0, 1}),
        line_item(Layer::cut, round, {1, 0, 0, 1}),
        line_item(Layer::glue, Path::rectangle({{75_mm, 5_mm}, {20_mm, 50_mm}}), {0, 0.6, 0, 1})}}};
}

double LineWorkSample::cut_length() {
  constexpr double full_turn = 2 * std::numbers::pi;
  return 2 * (100 + 60) - 8 * corner.value + full_turn * corner.value + 20 + full_turn * hole.value;
}

}  // namespace quoin::outside
