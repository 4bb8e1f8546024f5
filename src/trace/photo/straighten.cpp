#include "trace/photo/straighten.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "trace/photo/quad.h"
#include "trace/photo/weigh.h"

namespace quoin::trace {
namespace {

using Parts = std::array<double, 4>;  // premultiplied, 0..255, from blue up to alpha

Parts parts_at(const Raster& picture, int x, int y) {
  const int u = std::clamp(x, 0, picture.width - 1), v = std::clamp(y, 0, picture.height - 1);
  const std::uint32_t p =
      picture.pixels[std::size_t(v) * std::size_t(picture.width) + std::size_t(u)];
  return {double(p & 255), double(p >> 8 & 255), double(p >> 16 & 255), double(p >> 24)};
}

/// Weights of the four pixels round a place, a = -1/2. Source: R. Keys, "Cubic Convolution
/// Interpolation for Digital Image Processing", IEEE ASSP 29(6), 1981.
std::array<double, 4> cubic_weights(double t) {
  const double s = 1 - t;
  return {-0.5 * t * s * s, 1 - 2.5 * t * t + 1.5 * t * t * t, 1 - 2.5 * s * s + 1.5 * s * s * s,
          -0.5 * s * t * t};
}

std::uint32_t packed(const Parts& sum) {
  const double alpha = std::clamp(sum[3], 0.0, 255.0);
  std::uint32_t pixel = static_cast<std::uint32_t>(std::lround(alpha)) << 24;
  for (std::size_t c = 0; c < 3; ++c) {
    pixel |= static_cast<std::uint32_t>(std::lround(std::clamp(sum[c], 0.0, alpha))) << (8 * c);
  }
  return pixel;
}

Parts looked_up(const Raster& picture, Spot p) {
  const double u = p.x - 0.5, v = p.y - 0.5;
  const int x = static_cast<int>(std::floor(u)), y = static_cast<int>(std::floor(v));
  const auto across = cubic_weights(u - x), down = cubic_weights(v - y);
  Parts sum{};
  for (int j = 0; j < 4; ++j) {
    for (int i = 0; i < 4; ++i) {
      const double weight = across[std::size_t(i)] * down[std::size_t(j)];
      const Parts one = parts_at(picture, x + i - 1, y + j - 1);
      for (std::size_t c = 0; c < 4; ++c) sum[c] += weight * one[c];
    }
  }
  return sum;
}

/// The card's printed part in the finished picture: what lies outside it is filled from its rim.
class Inside {
 public:
  Inside(int width, int height, double corner) : width_(width), height_(height) {
    radius_ = std::max(corner - mixed_rim, 0.0);
  }
  [[nodiscard]] bool has(Spot p) const { return size(nearest(p) - p) < 1e-6; }
  [[nodiscard]] Spot nearest(Spot p) const {
    const Spot half{width_ / 2 - mixed_rim, height_ / 2 - mixed_rim};
    const Spot q{p.x - width_ / 2, p.y - height_ / 2};
    const Spot core{std::clamp(q.x, -half.x + radius_, half.x - radius_),
                    std::clamp(q.y, -half.y + radius_, half.y - radius_)};
    const double off = size(q - core);
    const Spot on = off <= radius_ ? q : core + (q - core) * (radius_ / off);
    return {on.x + width_ / 2, on.y + height_ / 2};
  }

 private:
  static constexpr double mixed_rim = 1.5;  // px along the edge that have something of the table
  double width_, height_, radius_ = 0;
};

}  // namespace

bool stands_wide(const FoundCard& card, const CardShape& shape) {
  return proportion_as_lying(card.corners, shape) > 1;
}

Raster straighten(const Raster& picture, const FoundCard& card, const CardShape& shape,
                  OutsideCorners outside) {
  const Lens lens{{picture.width / 2.0, picture.height / 2.0},
                  std::max(picture.width, picture.height) / 2.0,
                  card.bow};
  Corners straight;
  for (std::size_t i = 0; i < 4; ++i) straight[i] = lens.straightened(card.corners[i]);
  const double proportion = proportion_as_lying(straight, shape);
  const double area = std::min(std::abs(area_of(straight)), double(most_straightened_pixels));
  const double across = std::sqrt(area * proportion);
  Raster out;
  out.width = std::max(1, static_cast<int>(std::lround(across)));
  out.height = std::max(1, static_cast<int>(std::lround(across / proportion)));
  out.pixels.reserve(std::size_t(out.width) * std::size_t(out.height));
  const Homography map = from_unit_square(straight);
  const double mm = std::sqrt(out.width * double(out.height) /
                              (shape.size.width.value * shape.size.height.value));
  const Inside inside(out.width, out.height, shape.corner.value * mm);
  const auto look = [&](Spot p) {
    return looked_up(picture, lens.as_seen(map({p.x / out.width, p.y / out.height})));
  };
  for (int y = 0; y < out.height; ++y) {
    for (int x = 0; x < out.width; ++x) {
      const Spot p{x + 0.5, y + 0.5};
      if (outside == OutsideCorners::as_seen || inside.has(p)) {
        out.pixels.push_back(packed(look(p)));
        continue;
      }
      const Spot rim = inside.nearest(p);
      const Spot inwards = unit(rim - p);
      Parts sum{};
      for (int k = 0; k < 3; ++k) {
        const Parts one = look(rim + inwards * (0.7 * k));
        for (std::size_t c = 0; c < 4; ++c) sum[c] += one[c] / 3;
      }
      out.pixels.push_back(packed(sum));
    }
  }
  return out;
}

double printed_ppi(const Raster& straightened, const CardShape& shape) {
  const double longer = std::max(shape.size.width, shape.size.height).value;
  return std::max(straightened.width, straightened.height) * mm_per_inch / longer;
}

}  // namespace quoin::trace
