#pragma once
#include <optional>
#include <vector>

#include "geometry/path.h"

namespace quoin::dxf {

/// A circle's part that a cubic curve stands for.
struct Arc {
  Point centre;
  Mm radius;
  Angle sweep;  ///< from start to end; positive turns clockwise on the page (y down)
};

/// The arc that this curve was drawn for: its ends, its tangents there and the lengths of its
/// handles are those by which an arc of at most a quarter circle is commonly drawn as a cubic,
/// 4/3·tan(sweep/4) of the radius, to one part in a million. Nothing for any other curve.
[[nodiscard]] std::optional<Arc> arc_of(Point from, const Path::Step& curve);

/// A corner of an outline and how the way to the next one runs: bulge 0 is straight, else the
/// tangent of a quarter of the arc's sweep, positive clockwise on the page.
struct Corner {
  Point at;
  double bulge = 0;
};

/// One unbroken way, arcs kept, other curves made straight pieces within `within` of the curve.
struct Outline {
  std::vector<Corner> corners;  ///< two at least
  bool closed = false;          ///< the last corner leads back to the first, which is not repeated
};

/// The ways of a path; parts of no length are left out.
[[nodiscard]] std::vector<Outline> outlines(const Path& path, Mm within);

}  // namespace quoin::dxf
