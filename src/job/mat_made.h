#pragma once
#include <string>

#include "job/job.h"
#include "job/workshop.h"

namespace quoin::job {

/// Draws and checks the mat and lays it on sheets, when the game asks for one. A reprint of some
/// cards needs none.
void draw_mat(const Wishes& wishes, Workshop& shop, Outcome& outcome, Diagnostics& found);

/// Its picture as a PNG, from the cache when an earlier run kept it; nothing when something of it
/// could not be drawn, which is reported. `game_hash` names the game's files; "" when nothing is
/// kept.
[[nodiscard]] std::optional<Bytes> mat_png(const Outcome& outcome, const std::string& game_hash,
                                           ImageCache* cache, PictureShelf& shelf,
                                           Diagnostics& found);

}  // namespace quoin::job
