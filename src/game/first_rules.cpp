#include <fmt/format.h>

#include <algorithm>

#include "game/game.h"
#include "game/new_game.h"

namespace quoin::game {
namespace {

/// "{count:suit=sun} of the [sun] {suit.sun.name}": with the suit's symbol, when one has its name.
std::string suit_words(const Game& game, const Suit& suit) {
  const bool has_symbol = std::any_of(game.symbols.begin(), game.symbols.end(),
                                      [&](const Symbol& one) { return one.name == suit.id; });
  const std::string symbol = has_symbol ? fmt::format("[{}] ", suit.id) : std::string();
  return fmt::format("- {{count:suit={0}}} of the suit {1}{{suit.{0}}}", suit.id, symbol);
}

}  // namespace

Bytes first_rules(const Game& game) {
  std::string text = "# {game.title}\n\n*For two to four players, about half an hour.*\n\n";
  text += "Say in two sentences what the game is about, and what it feels like to win it.\n\n";
  text += "## The cards\n\nThere are {count} cards.\n\n";
  for (const Suit& suit : game.suits) {
    if (suit.values.contains("name")) text += suit_words(game, suit) + "\n";
  }
  if (!game.suits.empty()) text += "\n";
  std::string shown;
  for (std::size_t i = 0; i < std::min<std::size_t>(3, game.cards.size()); ++i) {
    shown += fmt::format("{}{{card:{}}}", shown.empty() ? "" : " ", game.cards[i].id);
  }
  if (!shown.empty()) text += shown + "\n\n";
  text +=
      "## Setting up\n\n1. Shuffle the cards.\n2. Deal five to each player.\n3. Lay the rest face "
      "down in the middle.\n\n"
      "## Your turn\n\nSay what a player does, one thing after the other:\n\n"
      "- **First** this,\n- **then** that.\n\n"
      "## The end\n\nSay when the game ends, and who wins.\n";
  return text;
}

}  // namespace quoin::game
