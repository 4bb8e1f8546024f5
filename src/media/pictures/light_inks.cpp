#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "base/hash.h"
#include "media/light_picture.h"
#include "media/pictures/svg_tree.h"

namespace quoin {
namespace {

using pictures::SvgAttribute;
using pictures::SvgChild;
using pictures::SvgElement;

/// The basic colour names of CSS 2.1, section 4.3.6, that `parse_colour` does not read.
std::optional<Colour> named_colour(std::string_view name) {
  constexpr std::pair<std::string_view, std::string_view> names[] = {
      {"aqua", "#0ff"},    {"blue", "#00f"},      {"fuchsia", "#f0f"},   {"gray", "#808080"},
      {"grey", "#808080"}, {"green", "#008000"},  {"lime", "#0f0"},      {"maroon", "#800000"},
      {"navy", "#000080"}, {"olive", "#808000"},  {"orange", "#ffa500"}, {"purple", "#800080"},
      {"red", "#f00"},     {"silver", "#c0c0c0"}, {"teal", "#008080"},   {"yellow", "#ff0"}};
  for (const auto& [known, value] : names) {
    if (known == name) return parse_colour(value);
  }
  return std::nullopt;
}

std::string_view without_blanks(std::string_view text) {
  constexpr std::string_view blanks = " \t\r\n";
  const std::size_t first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

/// rgb(12, 34, 56) and rgb(10%, 20%, 30%).
std::optional<Colour> function_colour(std::string_view text) {
  if (!text.starts_with("rgb(") || !text.ends_with(')')) return std::nullopt;
  text = text.substr(4, text.size() - 5);
  std::array<double, 3> parts{};
  for (double& part : parts) {
    text.remove_prefix(std::min(text.find_first_not_of(" ,\t"), text.size()));
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), part);
    if (error != std::errc{}) return std::nullopt;
    text.remove_prefix(static_cast<std::size_t>(end - text.data()));
    const bool percent = text.starts_with('%');
    if (percent) text.remove_prefix(1);
    part = std::clamp(part / (percent ? 100 : 255), 0.0, 1.0);
  }
  if (!without_blanks(text).empty()) return std::nullopt;
  return Colour{parts[0], parts[1], parts[2], 1};
}

std::optional<Colour> read_colour(std::string_view text) {
  if (auto colour = parse_colour(text)) return colour;
  if (auto colour = named_colour(text)) return colour;
  return function_colour(text);
}

/// What becomes of a property's colour.
enum class Part { fill, line, other };
Part part_of(std::string_view property) {
  if (property == "fill" || property == "stop-color" || property == "color") return Part::fill;
  return property == "stroke" ? Part::line : Part::other;
}

/// Goes through a drawing and changes its colours in place.
class Lightening {
 public:
  void element(SvgElement& one) {
    if (one.name == "mask" || one.name == "clipPath" || one.name == "filter") return;
    for (SvgAttribute& attribute : one.attributes) {
      if (attribute.name == "style") {
        attribute.value = declarations(attribute.value);
      } else {
        attribute.value = changed(part_of(attribute.name), attribute.value);
      }
    }
    if (one.name == "image") one.set("opacity", "0.2");
    for (SvgChild& child : one.children) {
      if (child.element) {
        element(*child.element);
      } else if (one.name == "style") {
        child.text = sheet(child.text);
      }
    }
  }

  [[nodiscard]] bool understood() const { return understood_; }

 private:
  std::string changed(Part part, const std::string& value) {
    const std::string_view text = without_blanks(value);
    const bool is_no_colour = part == Part::other || text.empty() || text == "none" ||
                              text == "currentColor" || text == "inherit" ||
                              text.starts_with("url(");
    if (is_no_colour) return value;
    const std::optional<Colour> colour = read_colour(text);
    if (!colour) {
      understood_ = false;
      return value;
    }
    return to_string(part == Part::fill ? lightened(*colour) : line_on_light(*colour));
  }

  /// "fill:#123456;stroke:none"
  std::string declarations(std::string_view text) {
    std::string result;
    while (!text.empty()) {
      const std::size_t end = std::min(text.find(';'), text.size());
      result += declaration(text.substr(0, end));
      if (end < text.size()) result += ';';
      text.remove_prefix(std::min(end + 1, text.size()));
    }
    return result;
  }

  std::string declaration(std::string_view text) {
    const std::size_t colon = text.find(':');
    if (colon == std::string_view::npos) return std::string(text);
    const Part part = part_of(without_blanks(text.substr(0, colon)));
    return std::string(text.substr(0, colon + 1)) +
           changed(part, std::string(text.substr(colon + 1)));
  }

  /// ".a{fill:#123456}": what stands between braces.
  std::string sheet(std::string_view text) {
    std::string result;
    while (!text.empty()) {
      const std::size_t open = text.find('{');
      const std::size_t close = open == std::string_view::npos ? open : text.find('}', open);
      if (close == std::string_view::npos) return result + std::string(text);
      result += text.substr(0, open + 1);
      result += declarations(text.substr(open + 1, close - open - 1)) + "}";
      text.remove_prefix(close + 1);
    }
    return result;
  }

  bool understood_ = true;
};

Colour scaled(Colour colour, double factor) {
  return {colour.red * factor, colour.green * factor, colour.blue * factor, colour.alpha};
}

/// Darker by steps of a thirtieth, until `enough`.
template <typename Enough>
Colour darkened(Colour colour, const Enough& enough) {
  double factor = 1;
  while (!enough(scaled(colour, factor)) && factor > 0.1) factor -= 1.0 / 30;
  return scaled(colour, factor);
}

}  // namespace

Colour lightened(Colour colour, double part) {
  const auto mixed = [part](double value) { return 1 - (1 - value) * part; };
  return {mixed(colour.red), mixed(colour.green), mixed(colour.blue), colour.alpha};
}

Colour legible_on_light(Colour colour) {
  const Colour darkest_tint = lightened(black);
  return darkened(colour, [&](Colour c) {
    c.alpha = 1;
    return contrast_ratio(c, darkest_tint) >= 4.5;
  });
}

Colour line_on_light(Colour colour) {
  return darkened(colour, [](Colour c) { return relative_luminance(c) <= 0.3; });
}

PicturePtr in_light_inks(const Picture& picture) {
  if (!picture.facts().is_vector()) return nullptr;
  Result<pictures::SvgTree> tree =
      pictures::read_svg_tree({picture.path(), picture.safe_svg(), nullptr});
  if (!tree) return nullptr;
  Lightening lightening;
  SvgElement& root = *tree->root;
  lightening.element(root);
  if (!lightening.understood()) return nullptr;
  if (root.attribute("fill") == nullptr) root.set("fill", to_string(lightened(black)));
  Bytes text = pictures::write_svg(root);
  return std::make_shared<const Picture>(picture.path(), sha256("light inks " + picture.key()),
                                         std::make_shared<const Bytes>(text), picture.facts(),
                                         text);
}

}  // namespace quoin
