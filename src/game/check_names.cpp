#include <fmt/format.h>

#include <algorithm>
#include <functional>

#include "game/placeholders.h"
#include "game/reading.h"
#include "game/schema_names.h"
#include "game/used_names.h"
#include "game/words.h"

namespace quoin::game {
namespace {

/// All names that a placeholder may hold.
std::vector<std::string> known_names(const Game& game) {
  std::vector<std::string> names;
  for (const Text& column : game.columns) names.push_back(column.text);
  for (const char* own :
       {"suit", "deck", "layout", "copies", "card.number", "card.copies", "deck.name", "deck.id",
        "suit.id", "suit.name", "suit.colour", "suit.icon", "suit.back"}) {
    names.emplace_back(own);
  }
  for (const Suit& suit : game.suits) {
    for (const auto& [key, value] : suit.values) names.push_back("suit." + key);
  }
  for (const auto& [key, value] : game.facts) names.push_back("game." + key);
  return names;
}

/// All names that a placeholder on the box or the mat may hold.
std::vector<std::string> names_on_no_card(const Game& game) {
  std::vector<std::string> names{"box.cards"};
  for (const auto& [key, value] : game.facts) names.push_back("game." + key);
  return names;
}

Diagnostic open_brace(const NameUse& use) {
  Diagnostic problem(Id::game_open_brace, use.origin, "this brace is never closed");
  return problem.hint(
      "close it after the column's name, or write {{ to print a "
      "brace");
}

class NameCheck {
 public:
  explicit NameCheck(Reading& reading) : reading_(reading), known_(known_names(reading.game)) {
    for (const Suit& suit : reading.game.suits) suits_.push_back(suit.id);
    for (const Deck& deck : reading.game.decks) decks_.push_back(deck.id);
  }

  void check(const NameUse& use) {
    if (use.kind == TextPart::Kind::open_brace) {
      reading_.found.add(open_brace(use));
    } else if (use.name.starts_with("box.") || !look_up(reading_.game, nobody_, use.name)) {
      const bool dotted = use.name.find('.') != std::string::npos;
      Diagnostic problem = unknown_name(Id::game_unknown_column, dotted ? "value" : "column",
                                        use.name, use.origin, known_);
      if (problem.hints.empty()) {
        std::vector<std::string> columns;
        for (const Text& column : reading_.game.columns) columns.push_back(column.text);
        if (columns.size() <= 20) problem.hint("the columns are " + all_of(columns));
      }
      reading_.found.add(std::move(problem));
    }
  }

  /// The box or the mat is no card: it has no row, no suit and no deck.
  void check_on(const std::string& piece, const NameUse& use) {
    const std::vector<std::string> known = names_on_no_card(reading_.game);
    if (use.kind == TextPart::Kind::open_brace) {
      reading_.found.add(open_brace(use));
    } else if (std::find(known.begin(), known.end(), use.name) == known.end()) {
      Diagnostic problem(Id::game_unknown_column, use.origin,
                         fmt::format("there is no {} on the {}", in_quotes(use.name), piece));
      problem.detail(
          fmt::format("the {} is no card, so columns, suits and decks have no value on it", piece));
      const bool of_game = reading_.game.facts.contains(use.name);
      const std::optional<std::string> meant =
          of_game ? "game." + use.name : nearest(use.name, known);
      reading_.found.add(
          problem.hint(meant ? fmt::format("did you mean {}?", in_quotes(*meant))
                             : fmt::format("on the {} there are {}", piece, all_of(known))));
    }
  }

  /// A word of a condition on the suit or the deck that is none.
  void check(const Condition& condition) {
    if (condition.column == "suit") words(condition, suits_, Id::game_unknown_suit, "suit");
    if (condition.column == "deck") words(condition, decks_, Id::game_unknown_deck, "deck");
  }

 private:
  void words(const Condition& condition, const std::vector<std::string>& known, Id id,
             std::string_view thing) {
    for (const std::string& value : condition.values) {
      if (value.empty() || value == "*") continue;
      if (std::find(known.begin(), known.end(), value) != known.end()) continue;
      reading_.found.add(unknown_name(id, thing, value, condition.origin, known));
    }
  }

  Reading& reading_;
  std::vector<std::string> known_, suits_, decks_;
  Card nobody_;
};

void check_elements(NameCheck& names, const std::vector<Element>& elements) {
  for (const Element& element : elements) {
    for (const Conditions* all : {&element.when, &element.unless}) {
      for (const Condition& condition : *all) names.check(condition);
    }
    check_elements(names, element.children);
  }
}

}  // namespace

void check_names(Reading& reading) {
  const auto check_piece = [&](const Layout* layout, const std::string& piece) {
    if (layout == nullptr) return;
    for (const NameUse& use : names_used_in(*layout)) NameCheck(reading).check_on(piece, use);
  };
  check_piece(box_layout(reading.game), "box");
  check_piece(mat_layout(reading.game), "mat");
  // Without the list no column is known, and each placeholder would seem to be wrong.
  if (reading.game.columns.empty()) return;
  NameCheck names(reading);
  for (const NameUse& use : names_used(reading.game, reading.rules)) names.check(use);
  for (const LayoutRule& rule : reading.rules) {
    for (const Conditions* all : {&rule.when, &rule.unless}) {
      for (const Condition& condition : *all) names.check(condition);
    }
  }
  for (const Layout& layout : reading.game.layouts) check_elements(names, layout.elements);
}

}  // namespace quoin::game
