#pragma once
#include <cstdint>
#include <vector>

#include "trace/photo/ground.h"

namespace quoin::trace {

/// How far each pixel's colour is from the ground's there, in units of CIE L*a*b*.
[[nodiscard]] std::vector<float> off_ground(const Raster& picture, const Ground& ground);

struct CutEdge {
  double cut = 0;    ///< share of the pixels that became fully transparent
  double alike = 0;  ///< share of the edge along which the thing is hardly unlike the ground
};

/// Makes what is marked transparent, and finds alpha and colour of the pixels along its edge.
/// `off` is that of off_ground, `reach` what of it still is ground.
CutEdge cut_edges(Raster& picture, const Ground& ground, const std::vector<std::uint8_t>& marked,
                  const std::vector<float>& off, double reach);

}  // namespace quoin::trace
