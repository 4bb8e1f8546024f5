#pragma once
#include <vector>

#include "trace/pixels/grid.h"

namespace quoin::trace {

/// Pixels one after another along the middle of a line.
struct PixelPath {
  std::vector<std::pair<int, int>> pixels;
  bool closed = false;
  bool branches = false;  ///< other lines meet one of its ends
};

/// Thins marked pixels to lines one pixel wide. Source: Zhang, Suen, "A Fast Parallel Algorithm for
/// Thinning Digital Patterns", Communications of the ACM 27(3), 1984.
void thin(Grid<char>& marked);

/// The lines of a thinned grid, parted where three or more meet; each pixel of a line once.
[[nodiscard]] std::vector<PixelPath> paths_of(const Grid<char>& thinned);

}  // namespace quoin::trace
