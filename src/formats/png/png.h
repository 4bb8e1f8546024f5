#pragma once
#include "base/world.h"
#include "media/picture.h"

namespace quoin {

/// An sRGB PNG with its resolution in pHYs; premultiplied pixels are divided out. Small files
/// matter less than time here: 16 ms for a card at 300 ppi.
[[nodiscard]] Bytes write_png(const Raster& raster, double ppi);

}  // namespace quoin
