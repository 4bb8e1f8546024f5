#pragma once
#include <string>

#include "base/result.h"
#include "press/profile.h"

namespace quoin::job {

/// Writes a printer's file to `path` on disk in one step: what stood there stays until the new file
/// is whole on the disk, and when it cannot be written. Folders on the way are made.
///
/// Fails with `press.profile-not-written` and the system's words. A profile whose text could not be
/// read again is a broken promise of ours (`std::logic_error`), so that a good file is never
/// replaced by a broken one.
[[nodiscard]] quoin::Outcome keep_profile(const std::string& path, const press::Profile& profile);

}  // namespace quoin::job
