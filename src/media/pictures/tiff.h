#pragma once
#include "media/pictures/bitmap.h"
#include "media/pictures/source.h"

namespace quoin::pictures {

/// Reads the first page's directory and sees that all its strips or tiles lie in the file; damaged
/// compressed data is found only when it is decoded. Source: TIFF 6.0 and its supplements.
[[nodiscard]] Result<FirstLook> look_at_tiff(const SourceFile& file);

/// The first page. CMYK (8 or 16 bits) keeps its inks; everything else comes through libtiff's
/// RGBA reader, and pages that are grey stay grey.
[[nodiscard]] Result<Bitmap> decode_tiff(const SourceFile& file);

}  // namespace quoin::pictures
