#pragma once
#include <optional>

#include "media/pictures/bitmap.h"
#include "media/pictures/source.h"

namespace quoin::pictures {

/// The file's own data where PDF reads it as it is, else nothing; see png.h and jpeg.h.
[[nodiscard]] Result<std::optional<PreparedImage>> as_stored(const SourceFile& file,
                                                             PictureFormat format);
/// The same for a file whose pixels are known to be whole.
[[nodiscard]] Result<std::optional<PreparedImage>> known_as_stored(const SourceFile& file,
                                                                   PictureFormat format);

/// Decoded pixels deflated for PDF: colours and alpha apart, alpha dropped when all of it is
/// opaque, RGB without a profile and without a coloured pixel made grey.
[[nodiscard]] PreparedImage deflated(const Bitmap& bitmap);

}  // namespace quoin::pictures
