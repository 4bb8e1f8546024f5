#include "media/reduced.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

namespace quoin {
namespace {

using Row = std::vector<std::array<float, 4>>;

/// Calls `take` with each of the `many` cells that the `at`th of `few` equal parts covers, and how
/// much of the part it is.
template <typename Take>
void for_covered(int at, int few, int many, const Take& take) {
  const double step = double(many) / few;
  const double from = at * step, to = from + step;
  for (int i = int(from); i < many && i < to; ++i) {
    const double covered = std::min(to, i + 1.0) - std::max(from, double(i));
    if (covered > 1e-9) take(i, float(covered / step));
  }
}

Row narrowed(const Raster& raster, int y, int width) {
  Row row(std::size_t(width), {0, 0, 0, 0});
  const std::uint32_t* pixels = raster.pixels.data() + std::size_t(y) * std::size_t(raster.width);
  for (int x = 0; x < width; ++x) {
    for_covered(x, width, raster.width, [&](int i, float share) {
      for (std::size_t k = 0; k < 4; ++k) {
        row[std::size_t(x)][k] += share * float(pixels[i] >> (8 * k) & 255U);
      }
    });
  }
  return row;
}

}  // namespace

Raster reduced_to(const Raster& raster, int width) {
  if (width < 1) throw std::logic_error("a raster is reduced to at least one pixel");
  if (raster.width <= width) return raster;
  const double high = double(raster.height) * width / raster.width;
  Raster result{width, std::max(1, int(std::lround(high))), {}};
  result.pixels.reserve(std::size_t(width) * std::size_t(result.height));
  int narrowed_at = -1;  // the last row may be shared by two parts
  Row row;
  for (int y = 0; y < result.height; ++y) {
    Row sum(std::size_t(width), {0, 0, 0, 0});
    for_covered(y, result.height, raster.height, [&](int i, float share) {
      if (i != narrowed_at) row = narrowed(raster, i, width);
      narrowed_at = i;
      for (std::size_t x = 0; x < sum.size(); ++x) {
        for (std::size_t k = 0; k < 4; ++k) sum[x][k] += share * row[x][k];
      }
    });
    for (const std::array<float, 4>& one : sum) {
      std::uint32_t pixel = 0;
      for (std::size_t k = 0; k < 4; ++k) {
        pixel |= std::uint32_t(std::lround(std::clamp(one[k], 0.0F, 255.0F))) << (8 * k);
      }
      result.pixels.push_back(pixel);
    }
  }
  return result;
}

}  // namespace quoin
