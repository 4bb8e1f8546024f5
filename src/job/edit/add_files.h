#pragma once
#include <map>
#include <string>

#include "base/result.h"
#include "base/world.h"

namespace quoin::job {

/// Puts new files into a folder that is there, all or none: never over a file that holds something
/// else (one that holds the same is left alone), never through a link out of the folder. `last` is
/// put there when all others are on the disk, so that a folder without it has no half of a game.
///
/// Fails with `new.folder-not-empty` for a file that is there already and for a link that leads
/// out, `pack.not-written` with the system's words; the folder is then as it was, but for folders
/// on the way when the program itself was stopped.
[[nodiscard]] quoin::Outcome add_files(const std::string& folder,
                                       const std::map<std::string, Bytes>& files,
                                       const std::string& last);

}  // namespace quoin::job
