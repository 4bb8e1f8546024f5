#pragma once
#include <opencv2/core.hpp>

#include "trace/pixels/grid.h"

namespace quoin::trace {

// A grid as OpenCV sees it, the cells shared. For the sources of this floor only: no header that
// others include may include this one.

[[nodiscard]] inline cv::Mat matrix(Grid<Rgb>& grid) {
  return {grid.height(), grid.width(), CV_8UC3, grid.cells().data()};
}
/// OpenCV has no read-only matrix; whoever gets this one must not write to it.
[[nodiscard]] inline cv::Mat matrix(const Grid<Rgb>& grid) {
  return {grid.height(), grid.width(), CV_8UC3, const_cast<Rgb*>(grid.cells().data())};
}
[[nodiscard]] inline cv::Mat matrix(Grid<Three>& grid) {
  return {grid.height(), grid.width(), CV_32FC3, grid.cells().data()};
}
[[nodiscard]] inline cv::Mat matrix(Grid<float>& grid) {
  return {grid.height(), grid.width(), CV_32F, grid.cells().data()};
}

}  // namespace quoin::trace
