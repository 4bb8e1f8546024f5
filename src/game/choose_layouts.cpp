#include <fmt/format.h>

#include "game/reading.h"
#include "game/words.h"

namespace quoin::game {
namespace {

int layout_at(const Game& game, const std::string& path) {
  const std::string name = normal_path(path);
  for (std::size_t i = 0; i < game.layouts.size(); ++i) {
    if (game.layouts[i].file.str() == name) return static_cast<int>(i);
  }
  return -1;
}

/// The layout that a cell of the column `layout` names among those that were opened.
int layout_named(const Game& game, std::string_view name) {
  for (std::size_t i = 0; i < game.layouts.size(); ++i) {
    const std::string& file = game.layouts[i].file.str();
    if (file == name || file == std::string(name) + ".toml") return static_cast<int>(i);
  }
  if (name.find('/') != std::string_view::npos) return -1;
  for (std::size_t i = 0; i < game.layouts.size(); ++i) {
    if (stem_of(game.layouts[i].file.str()) == stem_of(name)) return static_cast<int>(i);
  }
  return -1;
}

const LayoutRule* rule_for(const Reading& reading, const Card& card) {
  for (const LayoutRule& rule : reading.rules) {
    const bool taken = holds(reading.game, card, rule.when) &&
                       (rule.unless.empty() || !holds(reading.game, card, rule.unless));
    if (taken) return &rule;
  }
  return nullptr;
}

/// True when the row names a suit or deck that there is not. It was reported; that conditions on
/// it do not hold follows from it.
bool names_unknown(const Game& game, const Card& card) {
  const auto unknown = [&](std::string_view name, const std::string& known) {
    const int at = column(game, name);
    if (at < 0) return false;
    const std::string_view cell = trimmed(card.cells[static_cast<std::size_t>(at)].text);
    return !cell.empty() && cell != known;
  };
  return unknown("suit", card.suit) || unknown("deck", card.deck);
}

void report_without_layout(Reading& reading, const Card& card) {
  if (names_unknown(reading.game, card)) return;
  Diagnostic problem(Id::game_row_without_layout, card.origin,
                     card.id.empty() ? "no layout takes this card"
                                     : fmt::format("no layout takes the card {}", card.id));
  problem.detail(fmt::format("{} under [[layouts]] {} tried",
                             counted(reading.rules.size(), "layout"),
                             reading.rules.size() == 1 ? "was" : "were"));
  reading.found.add(problem.hint("add a last [[layouts]] without when"));
}

void choose_front(Reading& reading, Card& card, int layout_column) {
  if (layout_column >= 0) {
    const std::string& cell = card.cells[static_cast<std::size_t>(layout_column)].text;
    const std::string_view name = trimmed(cell);
    if (!name.empty()) {
      card.layout = layout_named(reading.game, name);
      return;  // an unknown one was reported when the layouts were read
    }
  }
  const LayoutRule* rule = rule_for(reading, card);
  if (rule)
    card.layout = layout_at(reading.game, rule->file);
  else if (!reading.rules.empty())
    report_without_layout(reading, card);
}

std::string back_of(const Game& game, const Card& card) {
  if (const Suit* suit = suit_of(game, card)) {
    const auto back = suit->values.find("back");
    if (back != suit->values.end() && !back->second.text.empty()) return back->second.text;
  }
  for (const Deck& deck : game.decks) {
    if (deck.id == card.deck) return deck.back;
  }
  return {};
}

void report_no_layout(Reading& reading) {
  Diagnostic problem(Id::game_no_layout, {FileName("game.toml")},
                     "no layout says how the cards look");
  reading.found.add(
      problem.hint("write layouts/face.toml, or name another file under [[layouts]]"));
}

}  // namespace

void choose_layouts(Reading& reading) {
  const int layout_column = column(reading.game, "layout");
  if (reading.rules.empty() && layout_column < 0) report_no_layout(reading);
  bool any_unnamed = false;
  for (Card& card : reading.game.cards) {
    choose_front(reading, card, layout_column);
    any_unnamed =
        any_unnamed || (reading.rules.empty() && layout_column >= 0 &&
                        trimmed(card.cells[static_cast<std::size_t>(layout_column)].text).empty());
    const std::string back = back_of(reading.game, card);
    if (!back.empty()) card.back = layout_at(reading.game, back);
  }
  if (any_unnamed) report_no_layout(reading);
}

}  // namespace quoin::game
