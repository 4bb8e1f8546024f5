#pragma once
#include <memory>

#include "media/pictures/bitmap.h"

namespace quoin::pictures {

/// The bitmap turned upright by its EXIF orientation (1..8), in sRGB, premultiplied.
[[nodiscard]] Raster upright(const Bitmap& bitmap, int orientation);

/// The raster at half its size, sides rounded up: each pixel is the mean of the area that it
/// covers, so that an odd side shifts nothing. The mean is taken of the stored values, as screens
/// do, and not of light.
[[nodiscard]] Raster halved(const Raster& raster);

/// The width of `width` halved as often as it stays at or over `at_most_wide`; `width` itself when
/// `at_most_wide` is 0.
[[nodiscard]] int width_for(int width, int at_most_wide);

}  // namespace quoin::pictures
