#pragma once
#include <string>
#include <string_view>

#include "pieces/box/box.h"
#include "pieces/box/box_view.h"

namespace quoin::pieces {

/// For tests: a box of a kind for so many cards of 0.30 mm, of board 0.45 mm thick.
inline Box sample_box(std::string_view kind, int cards, Size card) {
  game::BoxWishes wishes;
  wishes.kind = std::string(kind);
  wishes.board.caliper = Mm{0.45};
  Contents contents{cards, card, {}};
  contents.stock.caliper = Mm{0.30};
  return *make_box(wishes, contents).value;
}

}  // namespace quoin::pieces
