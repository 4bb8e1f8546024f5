#pragma once
#include <string>
#include <vector>

#include "game/game.h"
#include "job/share/leave_out.h"
#include "job/share/write_share.h"

namespace quoin::job {

/// What a pack that was made earlier has beside cards and box: the rules and the mat. They go along
/// as they are: what is for a shop, and what is for the game's own paper unless it was drawn for a
/// measured printer. Nothing of a pack older than the game (`share.pack-is-older`).
[[nodiscard]] std::vector<PackFile> files_from_pack(const std::string& game_folder,
                                                    const game::Game& game, const LeftOut& left_out,
                                                    Diagnostics& found);

}  // namespace quoin::job
