#pragma once
#include "media/picture.h"
#include "trace/pixels/grid.h"
#include "trace/tracing.h"

namespace quoin::trace {

inline constexpr int most_viewed_pixels =
    3'000'000;                              // above, the picture is halved until it is not
inline constexpr int longest_glance = 640;  // px

/// A photograph made ready to be measured: reduced, dark parts lifted, a little smoothed.
struct View {
  Grid<Rgb> lifted;  ///< the picture with a gamma of 0.6, so that edges in the dark count as well
  Grid<Three> lab;   ///< of it: L*a*b* in eighths of a byte's range, smoothed by 1 px
  double scale = 1;  ///< pixels of the picture to one of the view
  double grain =
      1;  ///< standard deviation of the difference of pixels two apart, of noise or weave

  [[nodiscard]] int width() const { return lab.width(); }
  [[nodiscard]] int height() const { return lab.height(); }
  [[nodiscard]] int longer() const { return std::max(width(), height()); }
  [[nodiscard]] Spot middle() const { return {width() / 2.0, height() / 2.0}; }
  [[nodiscard]] bool shows(Spot p) const {
    return p.x >= 0.5 && p.y >= 0.5 && p.x < width() - 0.5 && p.y < height() - 0.5;
  }
  /// The colour at a place that it shows, from the four pixels around.
  [[nodiscard]] Three at(Spot p) const {
    const double u = p.x - 0.5, v = p.y - 0.5;
    const int x = std::min(static_cast<int>(u), width() - 2);
    const int y = std::min(static_cast<int>(v), height() - 2);
    const float s = static_cast<float>(u - x), t = static_cast<float>(v - y);
    const Three* row = &lab.at(x, y);
    const Three* below = row + width();
    return (row[0] * (1 - s) + row[1] * s) * (1 - t) + (below[0] * (1 - s) + below[1] * s) * t;
  }
};

[[nodiscard]] View view_of(const Raster& picture);

}  // namespace quoin::trace
