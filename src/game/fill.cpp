#include <algorithm>

#include "game/game.h"
#include "game/placeholders.h"
#include "game/reading.h"
#include "game/words.h"

namespace quoin::game {
namespace {

const Deck* deck_of(const Game& game, const Card& card) {
  for (const Deck& deck : game.decks) {
    if (deck.id == card.deck) return &deck;
  }
  return nullptr;
}

/// The value of the card's suit; empty when the card has no suit or another suit has the key.
std::optional<Text> suit_value(const Game& game, const Card& card, std::string_view key) {
  const Suit* suit = suit_of(game, card);
  if (suit) {
    const auto found = suit->values.find(key);
    if (found != suit->values.end()) return found->second;
    if (key == "name" || key == "id") return Text{suit->id, suit->origin};
  }
  constexpr std::string_view own[] = {"name", "id", "colour", "icon", "back"};
  if (std::find(std::begin(own), std::end(own), key) != std::end(own)) return Text{};
  for (const Suit& other : game.suits) {
    if (other.values.find(key) != other.values.end()) return Text{};
  }
  return std::nullopt;
}

std::optional<Text> game_value(const Game& game, std::string_view key) {
  const auto found = game.facts.find(key);
  return found == game.facts.end() ? std::nullopt : std::optional(found->second);
}

std::optional<Text> box_value(const Game& game, std::string_view key) {
  if (key != "cards") return std::nullopt;
  long cards = 0;
  for (const Card& card : game.cards) cards += card.copies;
  return Text{std::to_string(cards), {}};
}

std::optional<Text> card_value(const Card& card, std::string_view key) {
  if (key == "number") return Text{std::to_string(card.number), card.origin};
  if (key == "copies") return Text{std::to_string(card.copies), card.origin};
  return std::nullopt;
}

std::optional<Text> deck_value(const Game& game, const Card& card, std::string_view key) {
  const Deck* deck = deck_of(game, card);
  if (key != "name" && key != "id") return std::nullopt;
  if (!deck) return Text{};
  return Text{key == "name" ? deck->name : deck->id, deck->origin};
}

/// `suit`, `deck` and `layout` have a value also without a column of that name, and where the
/// column's cell is empty.
std::optional<Text> standing(const Game& game, const Card& card, std::string_view name) {
  if (name == "suit") return Text{card.suit, card.origin};
  if (name == "deck") return Text{card.deck, card.origin};
  if (name == "copies") return Text{std::to_string(card.copies), card.origin};
  if (name != "layout") return std::nullopt;
  if (card.layout < 0) return Text{};
  const FileName& file = game.layouts[static_cast<std::size_t>(card.layout)].file;
  return Text{stem_of(file.str()), card.origin};
}

bool matches(std::string_view value, const std::string& asked, bool is_layout) {
  if (asked == "*") return !value.empty();
  return value == asked || (is_layout && value == stem_of(asked));
}

bool holds(const Game& game, const Card& card, const Condition& condition) {
  const std::optional<Text> value = look_up(game, card, condition.column);
  const std::string_view text = value ? trimmed(value->text) : std::string_view{};
  return std::any_of(
      condition.values.begin(), condition.values.end(),
      [&](const std::string& asked) { return matches(text, asked, condition.column == "layout"); });
}

}  // namespace

int column(const Game& game, std::string_view name) {
  for (std::size_t i = 0; i < game.columns.size(); ++i) {
    if (game.columns[i].text == name) return static_cast<int>(i);
  }
  return -1;
}

const Suit* suit_of(const Game& game, const Card& card) {
  for (const Suit& suit : game.suits) {
    if (!card.suit.empty() && suit.id == card.suit) return &suit;
  }
  return nullptr;
}

std::optional<Text> look_up(const Game& game, const Card& card, std::string_view name) {
  if (name == "layout") return standing(game, card, name);
  if (const int at = column(game, name); at >= 0) {
    const auto index = static_cast<std::size_t>(at);
    Text cell = index < card.cells.size() ? card.cells[index] : Text{};
    if (!trimmed(cell.text).empty()) return cell;
    const std::optional<Text> own = standing(game, card, name);
    return own && !own->text.empty() ? own : std::optional(std::move(cell));
  }
  if (const std::optional<Text> own = standing(game, card, name)) return own;
  const std::size_t dot = name.find('.');
  if (dot == std::string_view::npos) return std::nullopt;
  const std::string_view key = name.substr(dot + 1);
  if (name.starts_with("suit.")) return suit_value(game, card, key);
  if (name.starts_with("game.")) return game_value(game, key);
  if (name.starts_with("box.")) return box_value(game, key);
  if (name.starts_with("card.")) return card_value(card, key);
  if (name.starts_with("deck.")) return deck_value(game, card, key);
  return std::nullopt;
}

bool holds(const Game& game, const Card& card, const Conditions& conditions) {
  return std::all_of(conditions.begin(), conditions.end(),
                     [&](const Condition& one) { return holds(game, card, one); });
}

Filled fill(const Game& game, const Card& card, std::string_view text,
            std::vector<std::string>& unknown) {
  if (text.find_first_of("{}") == std::string_view::npos) return {std::string(text), {}};
  const std::vector<TextPart> parts = parts_of(text);
  Filled filled;
  for (const TextPart& part : parts) {
    const std::optional<Text> value =
        part.kind == TextPart::Kind::name ? look_up(game, card, part.text) : std::nullopt;
    if (value) {
      filled.text += value->text;
      if (parts.size() == 1) filled.source = value->origin;
    } else if (part.kind == TextPart::Kind::name) {
      unknown.push_back(part.text);
      filled.text += text.substr(part.offset, part.length);
    } else {
      filled.text += part.text;
    }
  }
  return filled;
}

}  // namespace quoin::game
