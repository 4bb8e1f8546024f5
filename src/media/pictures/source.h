#pragma once
#include <memory>
#include <string>
#include <string_view>

#include "base/result.h"
#include "media/picture.h"

namespace quoin::pictures {

/// A picture file while it is being read: how the maker names it, and its bytes. `owner`, when it
/// is known, holds the bytes, so that nobody need copy them.
struct SourceFile {
  std::string path;
  std::string_view bytes;
  std::shared_ptr<const Bytes> owner = nullptr;

  [[nodiscard]] SharedBytes shared() const {
    return owner != nullptr ? SharedBytes(owner, bytes) : SharedBytes(Bytes(bytes));
  }
};

/// What the first look at a file found, before its pixels are read.
struct FirstLook {
  PictureFacts facts;
  Diagnostics remarks;  ///< warnings and notes
  Bytes safe_svg;       ///< for an SVG only
};

/// Any finding about the whole file; the message starts with the file's path.
[[nodiscard]] Diagnostic about(Id id, const SourceFile& file, std::string_view what);

/// "PATH is damaged: REASON" under `picture.damaged`. `reason` is a clause: "it ends early".
[[nodiscard]] Diagnostic damaged(const SourceFile& file, std::string_view reason);

/// "PATH is stored HOW, which Quoin does not read" under `picture.unusual-storage`.
[[nodiscard]] Diagnostic unusual(const SourceFile& file, std::string_view how);

/// Whether a picture of that many pixels may be read; fails with `picture.too-large`, or with
/// `picture.damaged` when a side is 0.
[[nodiscard]] Outcome check_size(const SourceFile& file, std::int64_t width, std::int64_t height);

/// The warning that only the first of several pictures is used; `kind` is "an animation".
[[nodiscard]] Diagnostic only_the_first(const SourceFile& file, std::string_view kind,
                                        std::string_view part);

}  // namespace quoin::pictures
