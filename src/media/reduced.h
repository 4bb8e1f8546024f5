#pragma once
#include "media/picture.h"

namespace quoin {

/// The raster `width` px wide, its proportion kept to the nearest pixel, at least 1 px high. Each
/// pixel is the mean of the area that it covers, of the stored values as screens do it. A raster
/// that is no wider than that is given back as it is; `width` is 1 or more (`std::logic_error`).
[[nodiscard]] Raster reduced_to(const Raster& raster, int width);

}  // namespace quoin
