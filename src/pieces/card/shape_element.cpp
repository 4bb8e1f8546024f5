#include <fmt/format.h>

#include "pieces/card/element.h"

namespace quoin::pieces {
namespace {

enum class Form { rectangle, ellipse, polygon, path };
enum class StrokeAlign { centre, inside, outside };

std::vector<Point> regular_polygon(Rect box, int sides) {
  std::vector<Point> corners;
  for (int i = 0; i < sides; ++i) {
    const SinCos turn = sin_cos(Angle::degrees(360.0 * i / sides));
    corners.push_back({box.centre().x + box.size.width / 2 * turn.sin,
                       box.centre().y - box.size.height / 2 * turn.cos});
  }
  return corners;
}

std::vector<Point> listed_polygon(const Properties& properties, Rect box) {
  std::vector<Point> corners;
  const game::Node* there = properties.node("points");
  if (!there || !there->list()) return corners;
  for (const game::Node& corner : *there->list()) {
    const game::List* parts = corner.list();
    const double* x = parts && parts->size() == 2 ? (*parts)[0].number() : nullptr;
    const double* y = parts && parts->size() == 2 ? (*parts)[1].number() : nullptr;
    if (!x || !y) {
      properties.report(Id::face_not_a_number, corner.origin,
                        "a corner of a polygon is two numbers", "write it as [0.5, 0]");
      return {};
    }
    corners.push_back({box.at.x + box.size.width * *x, box.at.y + box.size.height * *y});
  }
  return corners;
}

Path path_of(const Properties& properties, Rect box) {
  const std::string data = properties.text("path").value_or("");
  std::optional<PathDataError> error;
  const Path path = path_from_svg(data, error);
  if (error) {
    properties.report(Id::face_path_data, properties.origin("path"),
                      fmt::format("the path data stop making sense at character {}: {}",
                                  error->offset + 1, error->what),
                      "");
  }
  return mapped(path, Affine::move({box.at.x, box.at.y}));
}

Path outline_of(const Properties& properties, Form form, Rect box, Mm grow) {
  const Mm radius = properties.length("radius").value_or(Mm{0});
  const Rect grown_box = grown(box, grow);
  switch (form) {
    case Form::rectangle:
      if (radius <= Mm{0}) return Path::rectangle(grown_box);
      return Path::rounded_rectangle(grown_box, std::max(radius + grow, Mm{0}));
    case Form::ellipse:
      return Path::ellipse(grown_box);
    case Form::path:
      return path_of(properties, box);
    case Form::polygon:
      break;
  }
  if (properties.node("points")) return Path::polygon(listed_polygon(properties, grown_box));
  const int sides =
      static_cast<int>(std::clamp(properties.number("sides").value_or(6), 3.0, 360.0));
  return Path::polygon(regular_polygon(grown_box, sides));
}

/// How far the line along which the stroke runs lies outside the shape's edge.
Mm stroke_offset(const Properties& properties, const Stroke& stroke) {
  const std::optional<Properties> own = properties.table("stroke");
  const StrokeAlign align = own->word<StrokeAlign>("align", {{"centre", StrokeAlign::centre},
                                                             {"inside", StrokeAlign::inside},
                                                             {"outside", StrokeAlign::outside}})
                                .value_or(StrokeAlign::centre);
  if (align == StrokeAlign::centre) return Mm{0};
  return align == StrokeAlign::inside ? -stroke.width / 2 : stroke.width / 2;
}

Item part(const Item& like, ShapeItem shape) {
  Item item;
  item.element = like.element;
  item.origin = like.origin;
  item.layer = like.layer;
  item.role = like.role;
  item.what = std::move(shape);
  return item;
}

}  // namespace

Drawn draw_shape(const Properties& properties, Rect box, const Item& like) {
  const Form form = properties
                        .word<Form>("shape", {{"rectangle", Form::rectangle},
                                              {"ellipse", Form::ellipse},
                                              {"polygon", Form::polygon},
                                              {"path", Form::path}})
                        .value_or(Form::rectangle);
  const Paint fill = properties.paint("fill", box).value_or(NoPaint{});
  const std::optional<Stroke> stroke = properties.stroke("stroke", box);
  if (!stroke && std::holds_alternative<NoPaint>(fill)) return std::nullopt;
  ShapeItem shape{outline_of(properties, form, box, Mm{0}), fill, stroke.value_or(Stroke{})};
  const Mm offset = stroke && form != Form::path ? stroke_offset(properties, *stroke) : Mm{0};
  if (offset == Mm{0}) return shape;
  ShapeItem line{outline_of(properties, form, box, offset), NoPaint{}, *stroke};
  shape.stroke = Stroke{};
  GroupItem both;
  if (!std::holds_alternative<NoPaint>(fill)) both.items.push_back(part(like, std::move(shape)));
  both.items.push_back(part(like, std::move(line)));
  return both;
}

}  // namespace quoin::pieces
