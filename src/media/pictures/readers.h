#pragma once
#include "media/pictures/bitmap.h"
#include "media/pictures/source.h"

namespace quoin::pictures {

/// The first look at a file of that format; not for SVG.
[[nodiscard]] Result<FirstLook> look_at_raster(const SourceFile& file, PictureFormat format);

/// All pixels of a file that passed the first look; not for SVG.
[[nodiscard]] Result<Bitmap> decode_raster(const SourceFile& file, PictureFormat format);

/// The same, allowed to come out at half its size, sides rounded up, as often as the format makes
/// that cheap, and at most `halvings` times.
[[nodiscard]] Result<Bitmap> decode_raster(const SourceFile& file, PictureFormat format,
                                           int halvings);

}  // namespace quoin::pictures
