#pragma once
#include "media/pictures/bitmap.h"
#include "media/pictures/tiff_file.h"

namespace quoin::pictures {

/// Whether the page is CMYK of 8 or 16 bits, side by side or in planes, in strips or tiles. Further
/// channels (spot colours, masks) may follow and are left out.
[[nodiscard]] bool can_read_inks(const TiffFile& tiff);

/// Reads such a page into a bitmap of its size; false when its data is damaged.
[[nodiscard]] bool read_inks(const TiffFile& tiff, Bitmap& bitmap);

}  // namespace quoin::pictures
