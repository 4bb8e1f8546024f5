#pragma once
#include <optional>

#include "media/pictures/bitmap.h"
#include "media/pictures/source.h"

namespace quoin::pictures {

/// Verifies every checksum and the header. Data that does not inflate is found only later.
[[nodiscard]] Result<FirstLook> look_at_png(const SourceFile& file);

/// All pixels. Fails with `picture.damaged` when the data does not hold exactly the rows that the
/// header promises.
[[nodiscard]] Result<Bitmap> decode_png(const SourceFile& file);

/// The PNG's own data where PDF reads it as it is: not interlaced and without any transparency.
/// Nothing when it must be decoded. The data was inflated once to see that it is whole.
[[nodiscard]] Result<std::optional<PreparedImage>> png_as_stored(const SourceFile& file);
/// The same without the look at the data, for a file known to be whole.
[[nodiscard]] Result<std::optional<PreparedImage>> known_png_as_stored(const SourceFile& file);

}  // namespace quoin::pictures
