#include <algorithm>
#include <cmath>

#include "trace/photo/find_cards.h"
#include "trace/photo/quad.h"

namespace quoin::trace {
namespace {

constexpr std::uint32_t sure = 0xFF12B886, doubtful = 0xFFF08C00;  // opaque

Raster reduced_to(const Raster& picture, int wide) {
  Raster out;
  out.width = wide;
  out.height =
      std::max(1, static_cast<int>(std::lround(double(picture.height) * wide / picture.width)));
  out.pixels.reserve(std::size_t(out.width) * std::size_t(out.height));
  for (int y = 0; y < out.height; ++y) {
    const int top = int(std::int64_t(y) * picture.height / out.height);
    const int below = std::max(top + 1, int(std::int64_t(y + 1) * picture.height / out.height));
    for (int x = 0; x < wide; ++x) {
      const int left = int(std::int64_t(x) * picture.width / wide);
      const int right = std::max(left + 1, int(std::int64_t(x + 1) * picture.width / wide));
      std::uint64_t sum[4] = {};
      for (int v = top; v < below; ++v) {
        for (int u = left; u < right; ++u) {
          const std::uint32_t p =
              picture.pixels[std::size_t(v) * std::size_t(picture.width) + std::size_t(u)];
          for (int c = 0; c < 4; ++c) sum[c] += p >> (8 * c) & 255;
        }
      }
      const std::uint64_t count = std::uint64_t(below - top) * std::uint64_t(right - left);
      std::uint32_t pixel = 0;
      for (int c = 0; c < 4; ++c) {
        pixel |= static_cast<std::uint32_t>((sum[c] + count / 2) / count) << (8 * c);
      }
      out.pixels.push_back(pixel);
    }
  }
  return out;
}

class Pen {
 public:
  Pen(Raster& on, std::uint32_t ink) : on_(on), ink_(ink) {}
  /// Inks by how much of each pixel `off` (the distance from what is drawn, px) leaves covered.
  template <typename Distance>
  void draw(Spot least, Spot most, const Distance& off) {
    const int left = std::max(0, static_cast<int>(least.x) - 2);
    const int right = std::min(on_.width - 1, static_cast<int>(most.x) + 2);
    const int top = std::max(0, static_cast<int>(least.y) - 2);
    const int bottom = std::min(on_.height - 1, static_cast<int>(most.y) + 2);
    for (int y = top; y <= bottom; ++y) {
      for (int x = left; x <= right; ++x) {
        const double cover = std::clamp(0.5 - off(Spot{x + 0.5, y + 0.5}), 0.0, 1.0);
        if (cover > 0) blend(x, y, cover);
      }
    }
  }

 private:
  void blend(int x, int y, double cover) {
    std::uint32_t& p = on_.pixels[std::size_t(y) * std::size_t(on_.width) + std::size_t(x)];
    std::uint32_t mixed = 0;
    for (int c = 0; c < 4; ++c) {
      const double old = p >> (8 * c) & 255, ink = ink_ >> (8 * c) & 255;
      mixed |= static_cast<std::uint32_t>(std::lround(old + (ink - old) * cover)) << (8 * c);
    }
    p = mixed;
  }
  Raster& on_;
  std::uint32_t ink_;
};

Spot least_of(Spot a, Spot b) { return {std::min(a.x, b.x), std::min(a.y, b.y)}; }
Spot most_of(Spot a, Spot b) { return {std::max(a.x, b.x), std::max(a.y, b.y)}; }

void draw_line(Pen& pen, Spot a, Spot b, double width) {
  const Spot along = unit(b - a);
  const double length = size(b - a);
  const Spot by{width, width};
  pen.draw(least_of(a, b) - by, most_of(a, b) + by, [&](Spot p) {
    const double t = std::clamp(dot(p - a, along), 0.0, length);
    return size(p - a - along * t) - width / 2;
  });
}

void draw_ring(Pen& pen, Spot centre, double radius, double width) {
  const Spot by{radius + width, radius + width};
  pen.draw(centre - by, centre + by,
           [&](Spot p) { return std::abs(size(p - centre) - radius) - width / 2; });
}

}  // namespace

Raster shown_on(const Raster& picture, const FoundCards& found, int at_most_wide) {
  Raster out = at_most_wide > 0 && picture.width > at_most_wide ? reduced_to(picture, at_most_wide)
                                                                : picture;
  const double scale = double(out.width) / picture.width;
  const double width = std::max(1.5, std::max(out.width, out.height) / 500.0);
  for (const FoundCard& card : found.cards) {
    const Lens lens{{picture.width / 2.0, picture.height / 2.0},
                    std::max(picture.width, picture.height) / 2.0,
                    card.bow};
    Pen halo(out, 0xFFFFFFFF), ink(out, card.doubts.empty() ? sure : doubtful);
    for (Pen* pen : {&halo, &ink}) {
      const double wide = pen == &halo ? 2 * width : width;
      for (std::size_t i = 0; i < 4; ++i) {
        const Spot a = lens.straightened(card.corners[i]);
        const Spot b = lens.straightened(card.corners[(i + 1) % 4]);
        constexpr int pieces = 12;
        for (int k = 0; k < pieces; ++k) {
          const Spot from = lens.as_seen(a + (b - a) * (double(k) / pieces));
          const Spot to = lens.as_seen(a + (b - a) * (double(k + 1) / pieces));
          draw_line(*pen, from * scale, to * scale, wide);
        }
        // The first corner, the top left of the card, has a second ring.
        draw_ring(*pen, card.corners[i] * scale, 4 * width, wide);
        if (i == 0) draw_ring(*pen, card.corners[i] * scale, 7 * width, wide);
      }
    }
  }
  return out;
}

}  // namespace quoin::trace
