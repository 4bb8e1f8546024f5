#pragma once
#include "media/picture.h"

namespace quoin::pictures {

/// The raster as an 8-bit RGBA PNG; alpha no longer premultiplied.
[[nodiscard]] Bytes png_of(const Raster& raster);

}  // namespace quoin::pictures
