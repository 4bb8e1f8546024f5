#pragma once
#include <vector>

#include "fold/surface.h"
#include "pieces/box/stage.h"

namespace quoin::pieces {

/// A face of the deck as a block, and the lines between its cards.
struct BlockFace {
  fold::Surface surface;  ///< `printed` for the top card, mapped from the card's trim; else `edge`
  std::vector<std::vector<fold::Vec3>> lines;  ///< two places each
};

/// The deck as a pile of cards with corners of this radius: its top card, and its sides with a line
/// between two cards, or between so many that lines stay 0.3 mm apart.
[[nodiscard]] std::vector<BlockFace> deck_block(const StagedDeck& deck, Mm corner, Mm card);

}  // namespace quoin::pieces
