#include "trace/colours/pull_svg.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <string_view>

#include "trace/colours/nearest.h"

namespace quoin::trace {
namespace {

constexpr std::array<std::string_view, 6> properties{"fill",       "stroke",      "color",
                                                     "stop-color", "flood-color", "lighting-color"};

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }
bool is_name(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '-' || c == '_';
}

/// A colour as it stands in a text: so many bytes from a place.
struct Written {
  Colour colour;
  std::size_t length = 0;
};

std::optional<Written> hex_at(std::string_view text) {
  std::size_t end = 1;
  while (end < text.size() && std::isxdigit(static_cast<unsigned char>(text[end])) != 0) ++end;
  if (end != 4 && end != 7) return std::nullopt;
  const auto colour = parse_colour(text.substr(0, end));
  return colour ? std::optional<Written>({*colour, end}) : std::nullopt;
}

/// "rgb(29, 43, 51)": whole numbers, not per cent.
std::optional<Written> rgb_at(std::string_view text) {
  const std::size_t close = text.substr(0, 40).find(')');
  if (close == std::string_view::npos) return std::nullopt;
  std::array<int, 3> parts{};
  const char* at = text.data() + 4;
  const char* end = text.data() + close;
  for (std::size_t i = 0; i < 3; ++i) {
    while (at < end && (is_blank(*at) || *at == ',')) ++at;
    const auto [next, error] = std::from_chars(at, end, parts[i]);
    if (error != std::errc{} || parts[i] < 0 || parts[i] > 255) return std::nullopt;
    at = next;
  }
  while (at < end && is_blank(*at)) ++at;
  if (at != end) return std::nullopt;
  return Written{{parts[0] / 255.0, parts[1] / 255.0, parts[2] / 255.0, 1}, close + 1};
}

std::optional<Written> colour_at(std::string_view text) {
  if (text.starts_with('#')) return hex_at(text);
  return text.starts_with("rgb(") ? rgb_at(text) : std::nullopt;
}

/// Where the value begins of a property whose name begins at `at`; 0 when none does.
std::size_t value_after(std::string_view text, std::size_t at) {
  if (at > 0 && is_name(text[at - 1])) return 0;
  for (const std::string_view name : properties) {
    if (text.substr(at, name.size()) != name) continue;
    std::size_t next = at + name.size();
    while (next < text.size() && is_blank(text[next])) ++next;
    if (next >= text.size() || (text[next] != '=' && text[next] != ':')) continue;
    const bool is_attribute = text[next++] == '=';
    while (next < text.size() && is_blank(text[next])) ++next;
    if (is_attribute && next < text.size() && (text[next] == '"' || text[next] == '\'')) ++next;
    while (next < text.size() && is_blank(text[next])) ++next;
    return next;
  }
  return 0;
}

}  // namespace

PulledSvg pull_svg(const Bytes& svg, const std::vector<Colour>& palette, double reach) {
  PulledSvg pulled;
  const std::string_view text = svg;
  std::size_t copied = 0;
  for (std::size_t at = 0; at < text.size(); ++at) {
    const char c = text[at];
    if (c != 'f' && c != 's' && c != 'c' && c != 'l') continue;
    const std::size_t value = value_after(text, at);
    if (value == 0) continue;
    const auto written = colour_at(text.substr(value));
    if (!written) continue;
    const auto nearest = nearest_within(palette, written->colour, reach);
    if (!nearest || to_string(*nearest) == to_string(written->colour)) continue;
    pulled.svg += text.substr(copied, value - copied);
    pulled.svg += to_string(*nearest);
    copied = value + written->length;
    at = copied - 1;
    ++pulled.changed;
  }
  pulled.svg += text.substr(copied);
  return pulled;
}

}  // namespace quoin::trace
