#pragma once
#include <cstdint>

#include "fold/fold.h"

namespace quoin::fold {

struct Corner {
  Vec3 at;      ///< the panel's own frame: net coordinates, z through the board
  Vec3 normal;  ///< outwards, length 1
  Point net;    ///< the place on the net, for art; on a cut edge the place beside it
};

/// A panel as a solid of triangles, corners counter-clockwise when looked at from outside the board
/// in the right-handed frame of Vec3. Every face has its own corners, so edges are sharp.
struct Mesh {
  std::vector<Corner> corners;
  std::vector<std::uint32_t> printed;  ///< three corner numbers for each triangle, z = -t/2
  std::vector<std::uint32_t> inside;   ///< z = +t/2
  std::vector<std::uint32_t> edge;     ///< the thickness of the board
};

/// The solid of one panel; `pose` says where it lies. Slits have no width and do not show.
[[nodiscard]] Mesh mesh(const Panel& panel, Mm thickness);

}  // namespace quoin::fold
