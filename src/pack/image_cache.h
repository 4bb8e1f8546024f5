#pragma once
#include <memory>
#include <string>

#include "media/picture.h"

namespace quoin::pack {

/// Prepared pictures kept between runs in `folder` on disk, one file each, made when missing; a
/// folder that cannot be made or written costs only time. Files over `largest` bytes in all are
/// dropped, the oldest first, when the cache is opened.
[[nodiscard]] std::unique_ptr<ImageCache> image_cache(const std::string& folder,
                                                      std::size_t largest = std::size_t{512} << 20);

}  // namespace quoin::pack
