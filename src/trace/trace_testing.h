#pragma once
#include <cmath>
#include <functional>

#include "trace/redraw.h"
#include "trace/svg.h"

namespace quoin::trace {

// What the tests of the tracer share.

inline constexpr std::uint32_t sand = 0xFFF4E3C1, sea = 0xFF20505A;

/// A picture of which `covers` says how much of the second colour a place has, seen by 8 x 8 looks
/// at each pixel; both colours 0xAARRGGBB, not premultiplied.
inline Raster picture_of(int width, int height, std::uint32_t ground, std::uint32_t figure,
                         const std::function<bool(double x, double y)>& covers) {
  Raster raster{width, height, {}};
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      int hits = 0;
      for (int k = 0; k < 64; ++k) {
        hits += covers(x + (k % 8 + 0.5) / 8, y + (k / 8 + 0.5) / 8) ? 1 : 0;
      }
      const auto mixed = [&](int shift) {
        const auto part = [&](std::uint32_t c) {
          const double alpha = double(c >> 24) / 255;
          return shift == 24 ? double(c >> 24) : double(c >> shift & 255) * alpha;
        };
        const double value = part(ground) + (part(figure) - part(ground)) * hits / 64;
        return static_cast<std::uint32_t>(std::lround(value)) << shift;
      };
      raster.pixels.push_back(mixed(24) | mixed(16) | mixed(8) | mixed(0));
    }
  }
  return raster;
}

inline Tracing redrawn(const Raster& picture, const TraceWishes& wishes = {}) {
  return redraw(picture, wishes, "it.png", {})->value;
}

}  // namespace quoin::trace
