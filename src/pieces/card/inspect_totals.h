#pragma once
#include <string>
#include <utility>
#include <vector>

#include "game/game.h"

namespace quoin::pieces {

/// How many cards a game has. `drawings` counts rows that are printed at least once, `cards` their
/// copies.
struct CardTotals {
  int drawings = 0;
  int cards = 0;
  /// Cards by suit and by deck, in the game's order; cards without a suit stand last under "".
  /// Suits and decks without cards are named with 0.
  std::vector<std::pair<std::string, int>> by_suit, by_deck;
};

[[nodiscard]] CardTotals card_totals(const game::Game& game);

}  // namespace quoin::pieces
