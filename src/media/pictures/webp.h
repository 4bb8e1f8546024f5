#pragma once
#include "media/pictures/bitmap.h"
#include "media/pictures/source.h"

namespace quoin::pictures {

/// Verifies the container's parts and the header of the (first) frame; damaged pixel data is found
/// only when it is decoded. Source: RFC 9649 "WebP Image Format".
[[nodiscard]] Result<FirstLook> look_at_webp(const SourceFile& file);

/// The picture, or an animation's first frame on its whole, otherwise transparent, canvas.
[[nodiscard]] Result<Bitmap> decode_webp(const SourceFile& file);

}  // namespace quoin::pictures
