#pragma once
#include <string>

#include "game/game.h"

namespace quoin::game {

/// A layout for a mat of A2, landscape, to begin with: a pile to draw from, a place to discard, a
/// row beside them as long as there is room for, and below it a place for each suit when the game
/// has suits and they go on the mat. All from the size of the game's cards.
[[nodiscard]] std::string starter_mat_layout(const Game& game);

}  // namespace quoin::game
