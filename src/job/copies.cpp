#include "job/copies.h"

#include <algorithm>

#include "pieces/card/face.h"

namespace quoin::job {

std::vector<sheets::Copy> all_copies(const game::Game& game, const Workshop& shop,
                                     const Wishes& wishes, int decks) {
  std::vector<sheets::Copy> copies;
  for (int deck = 0; deck < decks; ++deck) {
    for (int front = 0; front < shop.fronts(); ++front) {
      const auto at = static_cast<std::size_t>(front);
      const game::Card& card = game.cards[static_cast<std::size_t>(shop.drawings()[at].card)];
      const auto again = std::count(wishes.only.begin(), wishes.only.end(), card.id);
      const auto times = wishes.only.empty() ? card.copies : static_cast<int>(again);
      copies.insert(copies.end(), static_cast<std::size_t>(times),
                    {front, shop.back_of()[at], card.suit, card.deck});
    }
  }
  return copies;
}

sheets::PieceFormat piece_format(const game::Game& game, const Workshop& shop) {
  return {game.card.size,     game.card.bleed, pieces::back_bleed(game),
          shop.edges_alike(), "card",          game.card.origin};
}

pack::Totals totals_of(const game::Game& game, const Workshop& shop, std::size_t pieces) {
  pack::Totals totals;
  totals.rows = shop.fronts();
  totals.backs = static_cast<int>(shop.drawings().size()) - shop.fronts();
  totals.pieces = static_cast<int>(pieces);
  for (const game::Card& card : game.cards) {
    if (card.layout >= 0) totals.cards += card.copies;
  }
  return totals;
}

std::size_t top_card_of(const Workshop& shop) {
  const auto backs = static_cast<std::size_t>(shop.fronts());
  return backs < shop.drawings().size() ? backs : 0;
}

}  // namespace quoin::job
