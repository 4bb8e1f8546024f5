#include "formats/svg/markup.h"

#include <fmt/format.h>

#include <cstdint>

#include "formats/decimal.h"

namespace quoin::svg {
namespace {

/// Parts of a matrix to 1/100000000: a far corner of a sheet moves less than 0.01 um.
std::string ratio_text(double ratio) { return decimal(ratio, 8); }

void put(std::string& to, const char* verb, const Point* points, int count) {
  to += verb;
  for (int i = 0; i < count; ++i) {
    if (i > 0) to += ' ';
    to += length_text(points[i].x) + " " + length_text(points[i].y);
  }
}

}  // namespace

std::string length_text(Mm length) { return decimal(length.value, 4); }

std::string path_data(const Path& path) {
  std::string text;
  for (const Path::Step& step : path.steps()) {
    if (text.empty() && step.verb != Path::Verb::move) continue;
    switch (step.verb) {
      case Path::Verb::move:
        put(text, "M", step.p, 1);
        break;
      case Path::Verb::line:
        put(text, "L", step.p, 1);
        break;
      case Path::Verb::curve:
        put(text, "C", step.p, 3);
        break;
      case Path::Verb::close:
        text += "Z";
        break;
    }
  }
  return text;
}

std::string transform_attribute(const Affine& map) {
  if (map == Affine{}) return {};
  return fmt::format(" transform=\"matrix({} {} {} {} {} {})\"", ratio_text(map.a),
                     ratio_text(map.b), ratio_text(map.c), ratio_text(map.d), length_text(map.e),
                     length_text(map.f));
}

std::string data_address(std::string_view type, std::string_view bytes) {
  constexpr std::string_view digits =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string text = fmt::format("data:{};base64,", type);
  text.reserve(text.size() + bytes.size() / 3 * 4 + 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const auto byte = [&](std::size_t at) -> std::uint32_t {
      return at < bytes.size() ? static_cast<unsigned char>(bytes[at]) : 0u;
    };
    const std::uint32_t three = byte(i) << 16 | byte(i + 1) << 8 | byte(i + 2);
    text += digits[three >> 18];
    text += digits[three >> 12 & 63];
    text += i + 1 < bytes.size() ? digits[three >> 6 & 63] : '=';
    text += i + 2 < bytes.size() ? digits[three & 63] : '=';
  }
  return text;
}

}  // namespace quoin::svg
