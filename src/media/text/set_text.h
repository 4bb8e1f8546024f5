#pragma once
#include <memory>
#include <vector>

#include "media/text.h"
#include "media/text/handles.h"

namespace quoin {

/// Layouts are made in 1/600 in: fine enough that pango's whole units (1/1024 of that) never show,
/// and the unit of recorded pages, so that type sizes come out in plain numbers.
inline constexpr double layout_units_per_mm = 600 / mm_per_inch;

[[nodiscard]] inline int pango_units(Mm length) {
  return static_cast<int>(std::lround(length.value * layout_units_per_mm * PANGO_SCALE));
}
[[nodiscard]] inline Mm from_pango(double units) {
  return Mm{units / PANGO_SCALE / layout_units_per_mm};
}

/// A line at its place: `at` is where its base line begins, from the box's top left.
struct PlacedLine {
  std::shared_ptr<PangoLayoutLine> line;
  Point at;
};

struct PlacedSymbol {
  std::shared_ptr<const InlineSymbol> symbol;
  Rect to;  ///< from the box's top left
  int line = 0;
};

/// What drawing a set text needs. The layout keeps its fonts alive, and they their configuration.
struct SetText::State {
  ObjectPtr<PangoLayout> layout;
  std::vector<PlacedLine> lines;
  std::vector<PlacedSymbol> symbols;
  Paint fill;
  std::vector<Stroke> strokes;
};

}  // namespace quoin
