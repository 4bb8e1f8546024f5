#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "guide/chapters/wording.h"
#include "sheets/wording.h"

namespace quoin::guide {
namespace {

/// Cards that are counted together: those of a suit, or of a deck without suits.
struct Pile {
  std::string name;
  int rows = 0, cards = 0;
  std::vector<std::string> ids;
};

std::string pile_name(const game::Game& game, const game::Card& card) {
  const game::Suit* suit = game::suit_of(game, card);
  std::string name;
  if (suit != nullptr) {
    const auto said = suit->values.find("name");
    name = said == suit->values.end() ? suit->id : said->second.text;
  }
  if (game.decks.size() < 2) return name;
  for (const game::Deck& deck : game.decks) {
    if (deck.id != card.deck) continue;
    const std::string& deck_name = deck.name.empty() ? deck.id : deck.name;
    return name.empty() ? deck_name : deck_name + ": " + name;
  }
  return name;
}

/// In the order of the list, each pile where its first card stands.
std::vector<Pile> piles_of(const game::Game& game) {
  std::vector<Pile> piles;
  std::map<std::string, std::size_t> known;
  for (const game::Card& card : game.cards) {
    if (card.layout < 0 || card.copies < 1) continue;
    const std::string name = pile_name(game, card);
    const auto [at, is_new] = known.try_emplace(name, piles.size());
    if (is_new) piles.push_back({name, 0, 0, {}});
    Pile& pile = piles[at->second];
    ++pile.rows;
    pile.cards += card.copies;
    pile.ids.push_back(card.copies == 1
                           ? as_words(card.id, 40)
                           : fmt::format("{} ×{}", as_words(card.id, 40), card.copies));
  }
  return piles;
}

/// All of them, or the first and the last when there are many.
std::string ids_words(const std::vector<std::string>& ids) {
  constexpr std::size_t most = 60;
  std::string words;
  for (std::size_t i = 0; i < std::min(ids.size(), most); ++i) {
    words += (i == 0 ? "" : ", ") + ids[i];
  }
  return ids.size() > most ? words + " … " + ids.back() : words;
}

Table pile_table(const std::vector<Pile>& piles) {
  Table table;
  table.ticks = Table::Ticks::each_row;
  table.head = {"Cards", "How many", "Different", "Which"};
  table.widths = {4, 2, 2, 9};
  for (const Pile& pile : piles) {
    const std::string name = pile.name.empty() ? "All others" : as_words(pile.name, 60);
    table.rows.push_back({piles.size() == 1 && pile.name.empty() ? "All" : name,
                          fmt::format("**{}**", pile.cards), fmt::format("{}", pile.rows),
                          ids_words(pile.ids)});
  }
  return table;
}

std::string height_words(const Making& making) {
  const auto caliper = card_caliper(making);
  if (!caliper) return "";
  return fmt::format(" The pile is some {:.0f} mm high.", (*caliper * making.totals.cards).value);
}

}  // namespace

Chapter count_deck(const Making& making) {
  Chapter chapter;
  chapter.title = "Count the deck";
  chapter.opening = Chapter::Opening::here;
  const std::vector<Pile> piles = piles_of(making.game);
  const std::string decks =
      making.decks > 1 ? fmt::format("Each of the {} decks has ", making.decks) : "The deck has ";
  chapter.blocks.push_back(Paragraph{fmt::format(
      "{}**{}**, {} different.{} Sort them into these piles and count each one.", decks,
      sheets::counted(making.totals.cards, "card"), making.totals.rows, height_words(making))});
  chapter.blocks.push_back(pile_table(piles));
  chapter.blocks.push_back(Caution{
      "Before you give it away",
      {"Not tested as a toy. Small cards and scraps are nothing for children under three.",
       "Rules differ by country; ask your local authority before you sell a game or give it to "
       "children."}});
  return chapter;
}

}  // namespace quoin::guide
