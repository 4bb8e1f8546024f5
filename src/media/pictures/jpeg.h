#pragma once
#include <optional>

#include "media/pictures/bitmap.h"
#include "media/pictures/source.h"

namespace quoin::pictures {

/// Walks through all parts to the end of the picture, without decoding: a damaged stretch of
/// coded pixels is found only later.
[[nodiscard]] Result<FirstLook> look_at_jpeg(const SourceFile& file);

/// All pixels; CMYK that is stored inverted is turned the right way round. Fails with
/// `picture.damaged` where the decoder would have to guess.
[[nodiscard]] Result<Bitmap> decode_jpeg(const SourceFile& file);
/// The same at `eighths` (1, 2, 4 or 8) of its size, sides rounded up: at an eighth in a fifth of
/// the time.
[[nodiscard]] Result<Bitmap> decode_jpeg(const SourceFile& file, unsigned eighths);

/// The file as PDF's DCTDecode reads it; nothing when it must be decoded (arithmetic coding, RGB
/// that only its component names tell from YCbCr). The pixels were decoded once, at an eighth of
/// the size, to see that they are whole.
[[nodiscard]] Result<std::optional<PreparedImage>> jpeg_as_stored(const SourceFile& file);
/// The same without the look at the pixels, for a file known to be whole.
[[nodiscard]] Result<std::optional<PreparedImage>> known_jpeg_as_stored(const SourceFile& file);

}  // namespace quoin::pictures
