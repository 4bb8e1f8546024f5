#pragma once
#include <vector>

#include "trace/outline/cracks.h"

namespace quoin::trace {

/// The points of a chain with its corners sharpened, ready to be fitted run by run.
struct CornerRow {
  std::vector<Spot> points;          ///< a ring begins at a corner and repeats its first point
  std::vector<std::size_t> corners;  ///< where among them, rising; the ends are not named
  double step = 0.5;                 ///< pixels between points, on the average
  bool smooth_ring = false;          ///< a ring without any corner
};

/// Finds corners: where lines fitted to both sides, skipping the rounded 0.6 pixels, turn by 40
/// degrees or more over 2.2 and over 4.2 pixels alike (a small round thing turns more over the
/// longer reach). A corner is put where its lines meet, when that is within 1.3 pixels, and points
/// within 0.55 pixels of it are dropped.
[[nodiscard]] CornerRow with_corners(const Chain& chain);

}  // namespace quoin::trace
