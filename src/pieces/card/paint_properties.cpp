#include <fmt/format.h>

#include "pieces/card/properties.h"

namespace quoin::pieces {
namespace {

Point place_in(Rect box, Vec fraction) {
  return {box.at.x + box.size.width * fraction.x.value,
          box.at.y + box.size.height * fraction.y.value};
}

}  // namespace

std::optional<Colour> Properties::as_colour(const Given& value) const {
  const auto* text = std::get_if<std::string>(&value.value);
  if (text) {
    if (const std::optional<Colour> colour = sitting_.studio.colour(*text)) return colour;
  }
  const std::vector<std::string> known = sitting_.studio.colour_names();
  const std::optional<std::string> meant = text ? game::nearest(*text, known) : std::nullopt;
  report(Id::face_not_a_colour, value.origin,
         text ? fmt::format("there is no colour \"{}\"", *text) : "a colour is needed here",
         meant ? fmt::format("did you mean \"{}\"?", *meant)
               : "write it as \"#1d2b33\", or name it under [colours] in game.toml");
  return std::nullopt;
}

std::optional<Colour> Properties::colour(std::string_view key) const {
  const std::optional<Given> value = given(key);
  return value ? as_colour(*value) : std::nullopt;
}

std::vector<GradientStop> Properties::stops() const {
  std::vector<GradientStop> stops;
  const game::Node* there = node("stops");
  if (!there || !there->list()) return stops;
  for (const game::Node& stop : *there->list()) {
    const game::List* parts = stop.list();
    const std::optional<Given> colour =
        parts && parts->size() == 2 ? filled((*parts)[0]) : std::nullopt;
    const std::optional<Given> offset =
        parts && parts->size() == 2 ? filled((*parts)[1]) : std::nullopt;
    if (!colour || !offset) {
      report(Id::face_not_a_colour, stop.origin, "a stop of a gradient is a colour and a number",
             "write it as [\"#1d2b33\", 0.5]");
      continue;
    }
    const std::optional<Colour> read = as_colour(*colour);
    const std::optional<double> at = as_number("a stop", *offset);
    if (read && at) stops.push_back({*read, std::clamp(*at, 0.0, 1.0)});
  }
  return stops;
}

std::optional<Paint> Properties::gradient(Rect box) const {
  enum class Kind { linear, radial };
  const auto kind = word<Kind>("kind", {{"linear", Kind::linear}, {"radial", Kind::radial}});
  const std::vector<GradientStop> colours = stops();
  if (!kind || colours.empty()) return std::nullopt;
  if (*kind == Kind::linear) {
    return LinearGradient{place_in(box, pair("from").value_or(Vec{})),
                          place_in(box, pair("to").value_or(Vec{Mm{0}, Mm{1}})), colours};
  }
  const Mm longer = std::max(box.size.width, box.size.height);
  return RadialGradient{place_in(box, pair("centre").value_or(Vec{Mm{0.5}, Mm{0.5}})),
                        longer * number("radius").value_or(0.5), colours};
}

std::optional<Paint> Properties::paint(std::string_view key, Rect box) const {
  if (const std::optional<Properties> nested = table(key)) return nested->gradient(box);
  const std::optional<Given> value = given(key);
  if (!value) return std::nullopt;
  const auto* text = std::get_if<std::string>(&value->value);
  if (text && *text == "none") return NoPaint{};
  const std::optional<Colour> flat = as_colour(*value);
  return flat ? std::optional<Paint>(*flat) : std::nullopt;
}

std::optional<Stroke> Properties::as_stroke(Rect box) const {
  Stroke stroke;
  stroke.paint = paint("colour", box).value_or(Paint{black});
  stroke.width = length("width").value_or(0.25_mm);
  if (const game::Node* dash = node("dash"); dash && dash->list()) {
    for (const game::Node& part : *dash->list()) {
      const std::optional<Given> value = filled(part);
      const std::optional<double> size = value ? as_number("dash", *value) : std::nullopt;
      if (size && *size >= 0) stroke.dash.push_back(Mm{*size});
    }
  }
  stroke.join = word<LineJoin>("join", {{"mitre", LineJoin::mitre},
                                        {"round", LineJoin::round},
                                        {"bevel", LineJoin::bevel}})
                    .value_or(LineJoin::round);
  stroke.cap =
      word<LineCap>(
          "cap", {{"butt", LineCap::butt}, {"round", LineCap::round}, {"square", LineCap::square}})
          .value_or(LineCap::butt);
  return stroke.width > Mm{0} ? std::optional(stroke) : std::nullopt;
}

std::optional<Stroke> Properties::stroke(std::string_view key, Rect box) const {
  const std::optional<Properties> nested = table(key);
  return nested ? nested->as_stroke(box) : std::nullopt;
}

std::vector<Stroke> Properties::strokes(std::string_view key, Rect box) const {
  std::vector<Stroke> strokes;
  const game::Node* there = node(key);
  if (!there || !there->list()) return strokes;
  for (const game::Node& item : *there->list()) {
    if (!item.table()) continue;
    if (auto stroke = Properties(sitting_, *item.table(), element_).as_stroke(box)) {
      strokes.push_back(*stroke);
    }
  }
  return strokes;
}

std::optional<Shadow> Properties::shadow(std::string_view key) const {
  const std::optional<Properties> nested = table(key);
  if (!nested) return std::nullopt;
  Shadow shadow;
  shadow.colour = nested->colour("colour").value_or(Colour{0, 0, 0, 0.4});
  shadow.offset = nested->pair("offset").value_or(Vec{0.4_mm, 0.6_mm});
  shadow.blur = nested->length("blur").value_or(0.8_mm);
  return shadow;
}

std::optional<Outline> Properties::outline(std::string_view key) const {
  const std::optional<Properties> nested = table(key);
  if (!nested) return std::nullopt;
  return Outline{nested->colour("colour").value_or(white),
                 nested->length("width").value_or(0.4_mm)};
}

}  // namespace quoin::pieces
