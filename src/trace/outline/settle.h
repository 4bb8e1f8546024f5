#pragma once
#include "trace/outline/cracks.h"

namespace quoin::trace {

/// Takes the staircase out of the chains: each inner point becomes a mean with its neighbours
/// (1 2 1), `scale` times.
void smooth(CrackMap& map, int scale);

/// Moves each junction to where the chains that end there would meet, by least squares and at most
/// 1.2 pixels, and takes the points too near to it out of them. A junction on the edge of the
/// picture stays on it.
void place_junctions(CrackMap& map, double width, double height);

/// A chain end: which chain, and whether its first point.
struct ChainEnd {
  int chain = 0;
  bool first = true;
  auto operator<=>(const ChainEnd&) const = default;
};
/// The chain ends at each junction.
[[nodiscard]] std::vector<std::vector<ChainEnd>> ends_at_junctions(const CrackMap& map);

}  // namespace quoin::trace
