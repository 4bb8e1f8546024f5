#include "pieces/card/face.h"
#include "rules/slab.h"

namespace quoin::rules {
namespace {

void collect_cards(const std::vector<Part>& parts, std::map<int, bool>& cards) {
  for (const Part& part : parts) {
    for (const int card : part.cards) cards[card] = true;
    collect_cards(part.parts, cards);
  }
}

}  // namespace

CardArt card_art(const pieces::Studio& studio, Typesetter& typesetter,
                 const Manuscript& manuscript) {
  std::map<int, bool> shown;
  collect_cards(manuscript.parts, shown);
  for (const auto& [room, card] : manuscript.cards) shown[card] = true;
  CardArt art;
  const game::Game& game = studio.game();
  for (const auto& [card, is_shown] : shown) {
    Diagnostics told_elsewhere;  // with the card's own sheet
    Scene face = pieces::front(studio, game.cards[static_cast<std::size_t>(card)], told_elsewhere);
    typeset(face, typesetter);
    Item item;
    item.clip = Path::rounded_rectangle({{}, game.card.size}, game.card.corner);
    item.what = GroupItem{std::move(face.items)};
    art.emplace(card, std::move(item));
  }
  return art;
}

}  // namespace quoin::rules
