#pragma once
#include <functional>
#include <string>
#include <vector>

#include "formats/document.h"
#include "game/game.h"
#include "sheets/sheets.h"

namespace quoin::pack {

/// Facts that every file of cards is made from. Symbols are the fronts in the order of the cards,
/// then the backs.
struct CardWork {
  const game::Game& game;
  const sheets::Plan& plan;
  int fronts = 0;  ///< how many symbols are fronts
  Rect front_bounds, back_bounds;
};

/// One file of the pack, made when it is wanted.
struct CardFile {
  std::string path;       ///< in the pack: "home/cards.pdf"
  bool for_shop = false;  ///< else for the maker's own printer
  std::function<Document()> make;
};

/// The files that the cards of a game give. `ids[i]` names front i, `back_of[i]` is its back
/// (counted among the backs) or -1. `work` must outlive them.
///
/// - `home/cards.pdf`: both sides, page after page: front 1, back 1, front 2 … With fold-and-glue
///   or single-sided sheets just those, and no further file for home.
/// - `home/cards-fronts.pdf`, `home/cards-backs.pdf`: for a pile that is turned by hand; the backs
///   in the order in which the pile goes back into the printer, or one page to be printed as often
///   as there are sheets, when all backs are alike.
/// - `shop/cards.pdf`: each distinct face once as a page of its own with trim and bleed boxes,
///   every front followed by its back.
[[nodiscard]] std::vector<CardFile> card_files(const CardWork& work,
                                               const std::vector<std::string>& ids,
                                               const std::vector<int>& back_of);

/// "uncoated card, 250 g/m²", or "" when the game does not say.
[[nodiscard]] std::string stock_words(const game::Stock& stock);

}  // namespace quoin::pack
