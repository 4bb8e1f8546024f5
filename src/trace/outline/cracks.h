#pragma once
#include "trace/outline/side_colours.h"

namespace quoin::trace {

/// A border as it runs between cells: a row of points between two junctions, or a ring.
struct Chain {
  std::vector<Spot> points;   ///< pixels of the picture; with its junctions, if it has any
  int left = -1, right = -1;  ///< regions on either side as it runs; -1 outside the picture
  int from = -1, to = -1;     ///< junctions; -1: a ring, whose first point is not repeated
  /// Twice its share of the area to its right as it runs, in whole cells: what tells an outline
  /// from a hole without fail, which the smoothed points of a tiny ring do not.
  std::int64_t twice_area = 0;
  [[nodiscard]] bool ring() const { return from < 0; }
  [[nodiscard]] bool picture_edge() const { return left < 0 || right < 0; }
};

/// All borders, each once, and the places where more than two meet (or where the edge of the
/// picture turns).
struct CrackMap {
  std::vector<Chain> chains;
  std::vector<Spot> junctions;
};

/// Walks along the sides of cells with another region on the other side. The middle of each side is
/// moved across it, by at most 0.6 px: to where it must be for the pixels across it to have as much
/// of both colours as they have, or else to where the picture is half the one and half the other.
[[nodiscard]] CrackMap walk_cracks(const Regions& regions, const Coloured& picture,
                                   const SideColours& colours);

}  // namespace quoin::trace
