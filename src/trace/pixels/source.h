#pragma once
#include "media/picture.h"
#include "trace/pixels/grid.h"

namespace quoin::trace {

/// A picture made ready: opaque pixels, with transparency turned into a colour of its own.
struct Source {
  Grid<Rgb> pixels;  ///< composited on `ground`
  /// Alpha 0..255 of each pixel; empty when the picture is opaque.
  Grid<std::uint8_t> alpha;
  /// What stands for transparency: a colour that the picture has nowhere near. Pixels along an edge
  /// are then mixtures of it like those of any other border, and the border half way is where the
  /// alpha is half.
  Rgb ground{255, 255, 255};
  bool halved = false;  ///< at least once, until it had no more than most_traced_pixels

  [[nodiscard]] bool has_alpha() const { return alpha.width() > 0; }
  [[nodiscard]] int width() const { return pixels.width(); }
  [[nodiscard]] int height() const { return pixels.height(); }
};

/// The picture at half its size; a side that is odd loses its last row.
[[nodiscard]] Raster half_size(const Raster& raster);

[[nodiscard]] Source source_of(const Raster& raster, int most_pixels);

/// CIE L*a*b* (D65) of all pixels.
[[nodiscard]] Grid<Three> lab_of(const Grid<Rgb>& pixels);
[[nodiscard]] Three lab_of(Three srgb);
[[nodiscard]] Three srgb_of(Three lab);

/// The pixels `scale` times as many along each side, by bicubic interpolation.
[[nodiscard]] Grid<Rgb> enlarged(const Grid<Rgb>& pixels, int scale);

}  // namespace quoin::trace
