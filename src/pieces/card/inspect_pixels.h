#pragma once
#include <cstdint>
#include <vector>

#include "media/colour.h"
#include "pieces/card/inspect.h"
#include "pieces/card/inspect_leaves.h"

namespace quoin::pieces {

/// Reads a face's raster by places in the trim's frame. The raster is opaque (drawn on paper).
/// Places outside it are taken as the nearest pixel.
class Pixels {
 public:
  Pixels(const Raster& raster, Mm bleed, double pixels_per_mm = look_pixels_per_mm)
      : raster_(raster), bleed_(bleed), per_mm_(pixels_per_mm) {}

  [[nodiscard]] std::uint32_t at(Point place) const;
  /// Mixed from the four nearest pixels.
  [[nodiscard]] Colour between(Point place) const;
  /// All pixels whose middle lies in the quad, which must be convex.
  [[nodiscard]] std::vector<std::uint32_t> inside(const Quad& quad) const;

 private:
  [[nodiscard]] std::uint32_t pixel(int x, int y) const;
  const Raster& raster_;
  Mm bleed_;
  double per_mm_;
};

[[nodiscard]] Colour colour_of(std::uint32_t pixel);
/// WCAG relative luminance of an opaque pixel, from a table of 256 steps.
[[nodiscard]] double luminance_of(std::uint32_t pixel);

/// Paper that no ink touches: all parts 250 of 255 or more, so that the rounding of a resampled
/// white picture passes.
[[nodiscard]] bool is_paper(std::uint32_t pixel);
/// Ink that the eye sees on paper: some part below 235 of 255.
[[nodiscard]] bool is_ink(std::uint32_t pixel);
/// The largest step of any part between two pixels, 0..255.
[[nodiscard]] int largest_step(std::uint32_t a, std::uint32_t b);

/// The pixel of middle luminance; `pixels` must not be empty.
[[nodiscard]] std::uint32_t median_pixel(std::vector<std::uint32_t> pixels);

}  // namespace quoin::pieces
