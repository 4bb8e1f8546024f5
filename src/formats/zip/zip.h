#pragma once
#include <string>
#include <vector>

#include "base/result.h"
#include "base/world.h"

namespace quoin {

/// One file of an archive, by its path with '/' between folders.
struct ZipEntry {
  std::string path;
  Bytes bytes;
};

/// A ZIP archive (ISO/IEC 21320-1: stored or deflated, no encryption) of these files in their
/// order. It depends on them alone: every file is dated the first of January 1980, the earliest
/// date that an archive knows, has rights rw-r--r-- and no owner, and there are no extra fields.
/// What is packed already (PDF, PNG, JPEG, WebP, GLB) is stored, the rest is deflated. Paths are
/// UTF-8.
///
/// Fails with `share.not-written` and the library's words, when there is no memory for it.
[[nodiscard]] Result<Bytes> write_zip(const std::vector<ZipEntry>& entries);

/// The paths in an archive; nothing when the bytes are none.
[[nodiscard]] std::optional<std::vector<std::string>> paths_in_zip(const Bytes& bytes);

}  // namespace quoin
