#pragma once
#include <array>
#include <vector>

#include "geometry/path.h"

namespace quoin {

/// Corners of a closed shape with straight sides, in millimetres, y down; the last corner joins the
/// first. Either way round unless a function says otherwise.
using Polygon = std::vector<Point>;

/// A shape with holes in it: what is left when outlines are joined or cut away.
struct Region {
  Polygon outer;
  std::vector<Polygon> holes;
};

/// Square millimetres, positive when the corners run clockwise on the page.
[[nodiscard]] double signed_area(const Polygon& polygon);
/// Square millimetres.
[[nodiscard]] double area(const Polygon& polygon);
[[nodiscard]] double area(const std::vector<Region>& regions);

/// The middle of the area; of the corners when there is no area.
[[nodiscard]] Point centroid(const Polygon& polygon);
[[nodiscard]] Rect bounds(const Polygon& polygon);

/// True for a shape whose sides meet at its corners only and that has an area (the validity of the
/// OGC Simple Features standard, part 1, section 6.1.11).
[[nodiscard]] bool is_simple(const Polygon& polygon);

/// All that at least one covers. Sides that two share vanish. Corners are rounded to a millionth of
/// a millimetre first, so that sides computed in two ways still are one.
[[nodiscard]] std::vector<Region> united(const std::vector<Polygon>& polygons);
/// All that both cover.
[[nodiscard]] std::vector<Region> common(const Polygon& a, const Polygon& b);
/// What is left of `regions` when `cut` is taken away.
[[nodiscard]] std::vector<Region> without(const std::vector<Region>& regions,
                                          const std::vector<Polygon>& cut);
/// Every place within `by` of the regions, with mitred corners (cut off beyond twice `by`);
/// a negative `by` takes a rim away. What grows together becomes one.
[[nodiscard]] std::vector<Region> grown(const std::vector<Region>& regions, Mm by);

/// The polygon in convex pieces that share no area and together are the whole: triangles joined
/// while they stay convex. The polygon must be simple.
[[nodiscard]] std::vector<Polygon> convex_parts(const Polygon& polygon);
/// Three corner numbers for each triangle, in the polygon's own way round.
[[nodiscard]] std::vector<std::array<int, 3>> triangles(const Polygon& polygon);

/// Closed parts, one for each outline and hole.
[[nodiscard]] Path to_path(const std::vector<Region>& regions);

}  // namespace quoin
