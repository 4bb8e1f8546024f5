#pragma once
#include <optional>
#include <string>

#include "media/picture.h"

namespace quoin::pictures {

/// What the ImageCache knows of a picture: its prepared image, or only that its own data may be
/// passed on as it is, having been found whole.
struct StoredImage {
  std::optional<PreparedImage> image;  ///< nothing: the file's own data is good
};

/// The name under which it is kept; changes with the picture and with what preparing does.
[[nodiscard]] std::string stored_name(const std::string& picture_key);

[[nodiscard]] Bytes store(const StoredImage& stored);

/// Nothing when the bytes are damaged or of another version. The image's data lies in `bytes`.
[[nodiscard]] std::optional<StoredImage> restore(const std::shared_ptr<const Bytes>& bytes);

}  // namespace quoin::pictures
