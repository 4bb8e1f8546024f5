#include "game/formats.h"

#include <algorithm>

#include "game/words.h"

namespace quoin::game {
namespace {

constexpr const char* practice = "common practice, no source";
constexpr const char* iso216 = "ISO 216";
constexpr const char* iso217 = "ISO 217";
constexpr const char* ansi = "ANSI/ASME Y14.1 (number of the standard from memory)";

NamedSize sheet(std::string_view name, double width, double height, std::string_view source) {
  return {name, {Mm{width}, Mm{height}}, Mm{0}, source};
}

NamedSize card(std::string_view name, double width, double height, double corner,
               std::string_view source) {
  return {name, {Mm{width}, Mm{height}}, Mm{corner}, source};
}

/// One length at the start of `text`, which moves past it.
std::optional<double> take_number(std::string_view& text) {
  text = trimmed(text);
  const std::size_t end = std::min(text.find_first_not_of("0123456789."), text.size());
  const std::optional<double> number = read_number(text.substr(0, end));
  if (number) text = trimmed(text.substr(end));
  return number;
}

/// A unit at the start of `text`, as its length in millimetres; millimetres when there is none.
std::optional<double> take_unit(std::string_view& text) {
  for (const std::string_view unit : {"mm", "in", "\"", "cm"}) {
    if (!text.starts_with(unit)) continue;
    text = trimmed(text.substr(unit.size()));
    if (unit == "mm") return 1;
    return unit == "cm" ? 10 : mm_per_inch;
  }
  return std::nullopt;
}

bool take_times(std::string_view& text) {
  for (const std::string_view sign : {"x", "×", "*"}) {
    if (!text.starts_with(sign)) continue;
    text = trimmed(text.substr(sign.size()));
    return true;
  }
  return false;
}

/// "63.5x88.9", "2.5 x 3.5 in", "2.5in x 3.5in": a unit after the width only, or after the height
/// only, holds for both.
std::optional<Size> read_size(std::string_view text) {
  const std::optional<double> width = take_number(text);
  if (!width) return std::nullopt;
  const std::optional<double> width_unit = take_unit(text);
  if (!take_times(text)) return std::nullopt;
  const std::optional<double> height = take_number(text);
  if (!height) return std::nullopt;
  const std::optional<double> height_unit = take_unit(text);
  if (!text.empty()) return std::nullopt;
  const double fallback = height_unit.value_or(width_unit.value_or(1));
  return Size{Mm{*width * width_unit.value_or(fallback)},
              Mm{*height * height_unit.value_or(fallback)}};
}

}  // namespace

const std::vector<NamedSize>& card_sizes() {
  static const std::vector<NamedSize> sizes = {
      card("poker", 63.5, 88.9, 3.5, practice),
      card("poker-metric", 63, 88, 3, practice),
      card("bridge", 57.15, 88.9, 3.5, practice),
      card("bridge-metric", 57, 89, 3, practice),
      card("tarot", 70, 120, 4, practice),
      card("tarot-inch", 69.85, 120.65, 4, practice),
      card("wide", 59, 91, 3, practice),
      card("narrow", 56, 87, 3, practice),
      card("mini", 44, 68, 3, practice),
      card("small", 41, 63, 3, practice),
      card("square", 70, 70, 3, practice),
      card("square-inch", 63.5, 63.5, 3, practice),
      card("large", 88.9, 127, 3.5, practice),
      card("bank", 53.98, 85.6, 3.18, "ISO/IEC 7810 ID-1"),
      card("id2", 74, 105, 3, "ISO/IEC 7810 ID-2; corner: common practice, no source"),
      card("id3", 88, 125, 3, "ISO/IEC 7810 ID-3; corner: common practice, no source"),
      card("A7-card", 74, 105, 3, "ISO 216 A7; corner: common practice, no source"),
      card("A8-card", 52, 74, 3, "ISO 216 A8; corner: common practice, no source"),
      card("B8-card", 62, 88, 3, "ISO 216 B8; corner: common practice, no source"),
  };
  return sizes;
}

const std::vector<NamedSize>& paper_sizes() {
  static const std::vector<NamedSize> sizes = {
      sheet("A0", 841, 1189, iso216),
      sheet("A1", 594, 841, iso216),
      sheet("A2", 420, 594, iso216),
      sheet("A3", 297, 420, iso216),
      sheet("A4", 210, 297, iso216),
      sheet("A5", 148, 210, iso216),
      sheet("A6", 105, 148, iso216),
      sheet("A7", 74, 105, iso216),
      sheet("A8", 52, 74, iso216),
      sheet("A9", 37, 52, iso216),
      sheet("A10", 26, 37, iso216),
      sheet("B0", 1000, 1414, iso216),
      sheet("B1", 707, 1000, iso216),
      sheet("B2", 500, 707, iso216),
      sheet("B3", 353, 500, iso216),
      sheet("B4", 250, 353, iso216),
      sheet("B5", 176, 250, iso216),
      sheet("B6", 125, 176, iso216),
      sheet("B7", 88, 125, iso216),
      sheet("B8", 62, 88, iso216),
      sheet("B9", 44, 62, iso216),
      sheet("B10", 31, 44, iso216),
      sheet("RA0", 860, 1220, iso217),
      sheet("RA1", 610, 860, iso217),
      sheet("RA2", 430, 610, iso217),
      sheet("RA3", 305, 430, iso217),
      sheet("RA4", 215, 305, iso217),
      sheet("SRA0", 900, 1280, iso217),
      sheet("SRA1", 640, 900, iso217),
      sheet("SRA2", 450, 640, iso217),
      sheet("SRA3", 320, 450, iso217),
      sheet("SRA4", 225, 320, iso217),
      sheet("Letter", 215.9, 279.4, ansi),
      sheet("Tabloid", 279.4, 431.8, ansi),
      sheet("Legal", 215.9, 355.6, practice),
      sheet("12x18in", 304.8, 457.2, practice),
      sheet("13x19in", 330.2, 482.6, practice),
  };
  return sizes;
}

std::optional<NamedSize> find_size(std::string_view text, const std::vector<NamedSize>& known) {
  const std::string asked = lower_case(trimmed(text));
  for (const NamedSize& size : known) {
    if (lower_case(size.name) == asked) return size;
  }
  const std::optional<Size> size = read_size(asked);
  if (!size) return std::nullopt;
  for (const NamedSize& named : known) {
    if (nearly_equal(named.size, *size))
      return NamedSize{named.name, *size, named.corner, named.source};
  }
  return NamedSize{"", *size, Mm{known.empty() ? 0 : known.front().corner.value}, "as given"};
}

}  // namespace quoin::game
