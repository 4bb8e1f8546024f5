#pragma once
#include <deque>
#include <string>

#include "job/share/edition.h"
#include "pack/share/archive.h"
#include "pack/share/share_page.h"

namespace quoin::job {

/// All that a share is written from.
struct ShareWork {
  ShareOutcome& outcome;
  Workshop& shop;
  const DrawnFaces& faces;
  const std::deque<Edition>& editions;
  const std::deque<SharedBox>& boxes;  ///< `box_of[i]` is that of edition i, or -1
  const std::vector<int>& box_of;
  const SharedMat& mat;
  const pack::Manifest& manifest;  ///< its cards; the files are added
  Watcher& watcher;
};

/// Writes every file of the share but the archive. False, with the reasons in `found`, when it
/// could not.
[[nodiscard]] bool write_share(const ShareWork& work, pack::Staging& staging, Diagnostics& found);

/// The archive of what was written: everything in one folder, `name`.
[[nodiscard]] Result<Bytes> archive_of(const pack::Staging& staging, const std::string& name);

}  // namespace quoin::job
