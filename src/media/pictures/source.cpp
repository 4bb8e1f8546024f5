#include "media/pictures/source.h"

#include <fmt/format.h>

#include "media/pictures/limits.h"

namespace quoin::pictures {

Diagnostic about(Id id, const SourceFile& file, std::string_view what) {
  return {id, Origin{FileName(file.path)}, fmt::format("{} {}", file.path, what)};
}

Diagnostic damaged(const SourceFile& file, std::string_view reason) {
  Diagnostic d = about(Id::picture_damaged, file, fmt::format("is damaged: {}", reason));
  d.hint("copy the file again from where it came from, or save it again");
  return d;
}

Diagnostic unusual(const SourceFile& file, std::string_view how) {
  Diagnostic d = about(Id::picture_unusual_storage, file,
                       fmt::format("is stored {}, which Quoin does not read", how));
  d.hint("save it again with 8 bits a channel, in grey, RGB or CMYK");
  return d;
}

Outcome check_size(const SourceFile& file, std::int64_t width, std::int64_t height) {
  if (width <= 0 || height <= 0) {
    return damaged(file, fmt::format("it says that it is {} x {} px", width, height));
  }
  const auto too_large = [&](std::string_view limit) {
    Diagnostic d =
        about(Id::picture_too_large, file, fmt::format("is {} x {} px; {}", width, height, limit));
    d.hint("save it smaller: 600 px an inch of its printed size are plenty");
    return d;
  };
  if (width > longest_side || height > longest_side) {
    return too_large(fmt::format("a side may have {} px at most", longest_side));
  }
  if (width * height > most_pixels) {
    return too_large(fmt::format("that is {} megapixels and {} are read at most",
                                 (width * height + 500'000) / 1'000'000, most_pixels / 1'000'000));
  }
  return Done{};
}

Diagnostic only_the_first(const SourceFile& file, std::string_view kind, std::string_view part) {
  Diagnostic d = about(Id::picture_only_the_first, file,
                       fmt::format("is {}; only its first {} is printed", kind, part));
  d.hint(fmt::format("save the {} that is meant as a picture of its own", part));
  return d;
}

}  // namespace quoin::pictures
