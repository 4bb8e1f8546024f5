#pragma once
#include <string>
#include <vector>

#include "base/world.h"
#include "media/pictures/source.h"

namespace quoin::pictures {

/// What may be reached while a picture is opened.
struct Surroundings {
  const World& world;
  ImageCache* cache = nullptr;  ///< remembers which heavy SVGs were tried; may be null
};

/// The files that are being opened inside each other, outermost first, and what the innermost have
/// brought into the outermost so far.
struct Nesting {
  std::vector<std::string> paths;
  std::size_t inlined_bytes = 0;
  std::int64_t inlined_pixels = 0;
};

/// Reads the file at `path`. Fails with `picture.missing` (and the nearest name there is),
/// `picture.unreadable` or `picture.too-large`.
[[nodiscard]] Result<std::shared_ptr<const Bytes>> read_file(const World& world,
                                                             const std::string& path);

/// Finds out what the file is and takes the first look at it. Fails with whatever PictureShelf
/// lists.
[[nodiscard]] Result<FirstLook> look_at(const SourceFile& file, const Surroundings& around,
                                        Nesting& nesting);

}  // namespace quoin::pictures
