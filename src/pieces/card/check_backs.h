#pragma once
#include <string>
#include <vector>

#include "pieces/card/inspect.h"

namespace quoin::pieces {

/// How far a face is from looking the same after a half-turn, as CIEDE2000 between each square of
/// 2 mm and the square that comes to lie there.
struct HalfTurn {
  double mean = 0;   ///< over the whole trim
  double worst = 0;  ///< of one square
  Point where;       ///< the middle of that square, in the upper half of the face
};
[[nodiscard]] HalfTurn half_turn(const FaceLook& look);

/// From here on a square of 2 mm is taken to give a turned card away. Differences of 1 can just
/// be seen side by side; 5 is seen in the hand. Common practice, no source.
inline constexpr double seen_in_the_hand = 5;

/// `back.shows-which-way-up`, when the back's half-turn can be told from the back.
[[nodiscard]] Diagnostics check_back(const Face& back, const FaceLook& look);

/// Which back a card has: equal drawings have equal keys, "" is a blank back.
struct DeckBack {
  std::string deck;
  std::string card;
  std::string drawing;
  int copies = 1;
  Origin origin;  ///< the card's row
};

/// `back.differs-within-deck`, once for each deck whose cards do not all have one back.
[[nodiscard]] Diagnostics check_deck_backs(const std::vector<DeckBack>& cards);

}  // namespace quoin::pieces
