#pragma once
#include <array>
#include <optional>
#include <vector>

#include "media/picture.h"
#include "trace/pixels/grid.h"

namespace quoin::trace {

/// The colour of a picture's ground at each place: a polynomial of the second degree for each part
/// of sRGB, fitted to what looks alike along the rim.
class Ground {
 public:
  /// Nothing when no colour has at least three tenths of the rim.
  [[nodiscard]] static std::optional<Ground> at_rim_of(const Raster& picture);
  /// Fitted again to pixels known to belong to it (`is_ground`, one for each pixel).
  void refine(const Raster& picture, const std::vector<std::uint8_t>& is_ground);

  [[nodiscard]] Three at(int x, int y) const;
  [[nodiscard]] double rim_share() const { return rim_share_; }  ///< of the rim that it explains
  [[nodiscard]] double noise() const { return noise_; }          ///< standard deviation, 0..255

 private:
  struct Sample {
    int x, y;
    Three colour;
  };
  Ground(int width, int height) : width_(width), height_(height) {}
  [[nodiscard]] std::array<double, 6> terms(int x, int y) const;
  /// Fits the first `count` terms to the samples nearer than `reach`; the share that was near.
  double fit(const std::vector<Sample>& samples, int count, double reach);
  [[nodiscard]] double off(const Sample& sample) const {
    return distance(sample.colour, at(sample.x, sample.y));
  }

  int width_, height_;
  std::array<std::array<double, 6>, 3> parts_{};
  double rim_share_ = 0, noise_ = 0;
};

/// The colour of a pixel, not premultiplied, 0..255.
[[nodiscard]] Three plain_colour(std::uint32_t pixel);

}  // namespace quoin::trace
