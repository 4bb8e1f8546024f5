#include "pieces/card/inspect_totals.h"

#include <algorithm>

namespace quoin::pieces {
namespace {

using Counts = std::vector<std::pair<std::string, int>>;

void add(Counts& counts, const std::string& name, int copies) {
  auto found = std::find_if(counts.begin(), counts.end(),
                            [&](const auto& count) { return count.first == name; });
  if (found == counts.end()) found = counts.insert(counts.end(), {name, 0});
  found->second += copies;
}

}  // namespace

CardTotals card_totals(const game::Game& game) {
  CardTotals totals;
  for (const game::Suit& suit : game.suits) add(totals.by_suit, suit.id, 0);
  for (const game::Deck& deck : game.decks) add(totals.by_deck, deck.id, 0);
  for (const game::Card& card : game.cards) {
    if (card.copies <= 0) continue;
    ++totals.drawings;
    totals.cards += card.copies;
    if (!card.suit.empty()) add(totals.by_suit, card.suit, card.copies);
    add(totals.by_deck, card.deck, card.copies);
  }
  int without = totals.cards;
  for (const auto& [suit, cards] : totals.by_suit) without -= cards;
  if (without > 0) add(totals.by_suit, "", without);
  return totals;
}

}  // namespace quoin::pieces
