#pragma once
#include "base/diagnostic.h"
#include "game/game.h"

namespace quoin::job {

/// What was found, in order and without what the maker silenced; errors cannot be silenced.
[[nodiscard]] Diagnostics settled(const game::Game& game, Diagnostics found);

/// Appends `more` to `found`.
void add(Diagnostics more, Diagnostics& found);

}  // namespace quoin::job
