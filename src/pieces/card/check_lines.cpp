#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "pieces/card/check_parts.h"

namespace quoin::pieces {
namespace {

/// A line that is drawn, by a stroke or as a filled strip: its width on paper and its colour.
struct Line {
  Mm width;
  Colour colour;
};

/// The width of a filled shape when it is a strip, or nothing.
std::optional<Mm> strip_width(const ShapeItem& shape, const Affine& map) {
  const Size box = bounds(mapped(shape.path, map)).size;
  const Mm narrow = std::min(box.width, box.height), wide = std::max(box.width, box.height);
  if (narrow > Mm{0} && narrow * 4 < wide) return narrow;
  return std::nullopt;
}

std::optional<Line> line_of(const Leaf& leaf) {
  const ShapeItem* shape = leaf.shape();
  if (shape == nullptr || leaf.opacity <= 0) return std::nullopt;
  const std::vector<Colour> stroke = colours_of(shape->stroke.paint);
  if (shape->stroke.width > Mm{0} && !stroke.empty()) {
    return Line{shape->stroke.width * smallest_scale(leaf.map), stroke.front()};
  }
  const std::vector<Colour> fill = colours_of(shape->fill);
  if (fill.empty()) return std::nullopt;
  const std::optional<Mm> width = strip_width(*shape, leaf.map);
  if (!width) return std::nullopt;
  return Line{*width, fill.front()};
}

bool is_knocked_out(const Inspection& inspection, const Leaf& leaf, Colour colour) {
  const std::optional<std::uint32_t> typical = inspection.typical_ground(leaf);
  return typical && !is_paper(*typical) && relative_luminance(colour) > luminance_of(*typical);
}

void check_one(const Inspection& inspection, const Leaf& leaf, const Line& line) {
  const game::Limits& limits = inspection.limits;
  constexpr Mm forgiven{0.0005};
  if (line.width >= std::max(limits.thinnest_line, limits.thinnest_line_knocked_out) - forgiven) {
    return;
  }
  const bool knocked_out = is_knocked_out(inspection, leaf, line.colour);
  const Mm limit = knocked_out ? limits.thinnest_line_knocked_out : limits.thinnest_line;
  if (line.width >= limit - forgiven) return;
  const double scale = std::max(smallest_scale(leaf.map), 1e-6);
  inspection
      .report(Id::card_thin_line, leaf,
              fmt::format("{} is {} mm wide; {} mm is the thinnest that {}",
                          knocked_out ? "the light line on a darker ground" : "the line",
                          plain(line.width.value, 3), plain(limit.value, 3),
                          knocked_out ? "stays open" : "prints whole"))
      .detail(knocked_out ? "ink closes it in places" : "it breaks up into dots or vanishes")
      .hint(fmt::format("make it {} mm or wider",
                        plain(std::ceil(limit.value / scale * 100 - 1e-6) / 100, 2)));
}

}  // namespace

void check_lines(const Inspection& inspection) {
  for (const Leaf& leaf : inspection.leaves) {
    if (const std::optional<Line> line = line_of(leaf)) check_one(inspection, leaf, *line);
  }
}

}  // namespace quoin::pieces
