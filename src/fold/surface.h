#pragma once
#include <vector>

#include "fold/fold.h"

namespace quoin::fold {

/// Where the net's plane lies in space for one surface: net coordinates to places, by an affine
/// map.
struct NetMap {
  Vec3 origin;  ///< of the net's (0, 0)
  Vec3 x, y;    ///< for each millimetre of the net

  [[nodiscard]] constexpr Vec3 operator()(Point p) const {
    return origin + x * p.x.value + y * p.y.value;
  }
};

enum class Side {
  printed,
  inside,
  edge  ///< the cut through the board
};

/// A flat surface of a folded net.
struct Surface {
  int panel = 0;
  Side side = Side::printed;
  NetMap map;  ///< for art; unused for an edge
  Vec3 normal;
  std::vector<std::vector<Vec3>> parts;  ///< convex; together they are the surface
};

/// How the board is shown at its creases.
enum class Creases {
  open,    ///< every panel as a plate by itself, as the fold floor reckons with it
  rounded  ///< the gap that a fold opens on its outer side is closed by the bend of the board
};

/// The surfaces of a net whose panels lie at `places` (as `pose` gives them, in any frame).
///
/// A rounded crease is part of a cylinder of half the board's thickness about the crease, in
/// strips of at most 30 degrees. Each half shows the art of its own panel's rim, stretched: so it
/// goes on without a seam, and neither panel's colour strays onto the other.
[[nodiscard]] std::vector<Surface> surfaces(const Net& net, const std::vector<Rigid>& places,
                                            Creases creases);

}  // namespace quoin::fold
