#include "media/colour.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "media/colour_linear.h"

namespace quoin {
namespace {

std::optional<int> hex_digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return std::nullopt;
}

/// The parts of "#rgb" and its longer forms; `digits` is 1 or 2 for each part.
std::optional<std::array<double, 4>> hex_parts(std::string_view hex, std::size_t digits) {
  std::array<double, 4> parts{0, 0, 0, 1};
  for (std::size_t i = 0; i * digits < hex.size(); ++i) {
    const std::optional<int> high = hex_digit(hex[i * digits]);
    const std::optional<int> low = hex_digit(hex[i * digits + digits - 1]);
    if (!high || !low) return std::nullopt;
    parts.at(i) = (*high * 16 + *low) / 255.0;
  }
  return parts;
}

int as_byte(double part) { return static_cast<int>(std::lround(std::clamp(part, 0.0, 1.0) * 255)); }

}  // namespace

double linear_from_srgb(double part) {
  return part <= 0.04045 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4);
}

double srgb_from_linear(double part) {
  return part <= 0.0031308 ? 12.92 * part : 1.055 * std::pow(part, 1 / 2.4) - 0.055;
}

std::array<double, 3> linear(Colour colour) {
  return {linear_from_srgb(colour.red), linear_from_srgb(colour.green),
          linear_from_srgb(colour.blue)};
}

std::optional<Colour> parse_colour(std::string_view text) {
  if (text == "black") return black;
  if (text == "white") return white;
  if (text == "transparent") return Colour{0, 0, 0, 0};
  if (text.empty() || text.front() != '#') return std::nullopt;
  const std::string_view hex = text.substr(1);
  const bool is_short = hex.size() == 3 || hex.size() == 4;
  if (!is_short && hex.size() != 6 && hex.size() != 8) return std::nullopt;
  const auto parts = hex_parts(hex, is_short ? 1 : 2);
  if (!parts) return std::nullopt;
  return Colour{(*parts)[0], (*parts)[1], (*parts)[2], (*parts)[3]};
}

std::string to_string(Colour colour) {
  std::string text = fmt::format("#{:02x}{:02x}{:02x}", as_byte(colour.red), as_byte(colour.green),
                                 as_byte(colour.blue));
  if (as_byte(colour.alpha) != 255) text += fmt::format("{:02x}", as_byte(colour.alpha));
  return text;
}

Colour composited(Colour over, Colour under) {
  const auto mixed = [&](double top, double bottom) {
    return top * over.alpha + bottom * (1 - over.alpha);
  };
  return {mixed(over.red, under.red), mixed(over.green, under.green), mixed(over.blue, under.blue),
          1};
}

double relative_luminance(Colour colour) {
  const auto [red, green, blue] = linear(colour);
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

double contrast_ratio(Colour a, Colour b) {
  const double first = relative_luminance(a), second = relative_luminance(b);
  return (std::max(first, second) + 0.05) / (std::min(first, second) + 0.05);
}

}  // namespace quoin
