#pragma once
#include <optional>
#include <vector>

#include "geometry/polygon.h"

namespace quoin::sheets {

/// Something flat that is no rectangle, such as the net of a box: all that it takes up, its bleed
/// and marks counted, in a frame of its own.
using Footprint = std::vector<Region>;

/// Lays all pieces into `room` so that no two take up the same place: for each a map to the page
/// that moves it and turns it by quarters. Nothing when no way was found, which does not mean that
/// there is none.
///
/// The first piece is tried upright, then a quarter turned; each further one goes to the topmost,
/// then leftmost free place of its four turns, whichever reaches down least. Together they stand in
/// the middle of the room. Pieces are compared as cells of 1 mm: a piece has every cell that it
/// touches, so two never meet, and up to 3 mm between them may go unused. (Comparing outlines
/// would use those too, at each of some 200,000 places.)
[[nodiscard]] std::optional<std::vector<Affine>> nest(const std::vector<Footprint>& pieces,
                                                      Rect room);

/// A footprint as it lies under a map.
[[nodiscard]] Footprint mapped(const Footprint& footprint, const Affine& map);
/// The smallest upright rectangle round it.
[[nodiscard]] Rect bounds(const Footprint& footprint);

}  // namespace quoin::sheets
