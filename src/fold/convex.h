#pragma once
#include <vector>

#include "geometry/polygon.h"

namespace quoin::fold {

/// A convex outline in a picture, clockwise on the page.
using Convex = Polygon;

/// The outline put clockwise; empty when it covers less than a millionth of a square millimetre.
[[nodiscard]] Convex clockwise_on_page(Polygon outline);

/// Whether two share area: they reach into each other by more than a hundred-thousandth of a
/// millimetre.
[[nodiscard]] bool overlap(const Convex& a, const Convex& b);

/// Whether `covers` together hide all of `piece` but slivers of less than a thousandth of a
/// millimetre. Answers no for a piece that is thinner than that itself, and when it is not found
/// out with 64 pieces.
[[nodiscard]] bool is_covered(const Convex& piece, const std::vector<const Convex*>& covers);

/// The outline with every side moved out by `by`; corners that would stick out farther than 1.5
/// times that are cut off.
[[nodiscard]] Convex grown(const Convex& outline, Mm by);

/// The smallest convex outline round the places; with fewer than three of them not in a line, none.
[[nodiscard]] Convex convex_hull(std::vector<Point> places);

}  // namespace quoin::fold
