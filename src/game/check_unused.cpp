#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "game/reading.h"
#include "game/used_names.h"

namespace quoin::game {
namespace {

/// Columns that steer a card or tell the maker which it is, and need not be drawn.
const std::set<std::string_view>& technical_columns() {
  static const std::set<std::string_view> names = {"id",   "suit",   "copies",
                                                   "deck", "layout", "name"};
  return names;
}

void unused_columns(Reading& reading) {
  if (!reading.layouts_whole || reading.game.layouts.empty()) return;
  if (column(reading.game, "id") < 0) return;  // the names of the columns are in doubt
  std::set<std::string> used;
  for (const NameUse& use : names_used(reading.game, reading.rules)) used.insert(use.name);
  for (const Text& name : reading.game.columns) {
    if (name.text.empty() || technical_columns().contains(name.text)) continue;
    if (used.contains(name.text)) continue;
    reading.found.add(
        Diagnostic(Id::game_column_unused, name.origin,
                   fmt::format("no layout draws the column {} or asks for it", name.text)));
  }
}

void unused_suits(Reading& reading) {
  if (!reading.cards_whole) return;
  for (const Suit& suit : reading.game.suits) {
    const bool used = std::any_of(reading.game.cards.begin(), reading.game.cards.end(),
                                  [&](const Card& card) { return card.suit == suit.id; });
    if (used) continue;
    reading.found.add(Diagnostic(Id::game_suit_unused, suit.origin,
                                 fmt::format("no card has the suit {}", suit.id)));
  }
}

/// A rule that no card falls under, and files in layouts/ that nothing opens.
void unused_layouts(Reading& reading) {
  std::set<std::string> used;
  for (const Card& card : reading.game.cards) {
    for (const int layout : {card.layout, card.back}) {
      if (layout < 0) continue;
      used.insert(reading.game.layouts[static_cast<std::size_t>(layout)].file.str());
    }
  }
  for (const LayoutRule& rule : reading.rules) {
    const std::string name = normal_path(rule.file);
    if (used.contains(name) || !reading.layout_files.contains(name)) continue;
    if (!reading.layouts_whole || !reading.cards_whole) continue;
    reading.found.add(
        Diagnostic(Id::game_layout_unused, rule.origin, fmt::format("no card uses {}", rule.file)));
  }
  if (!reading.layouts_whole) return;
  for (const std::string& file : reading.world.files_below("layouts")) {
    if (!file.ends_with(".toml") || reading.layout_files.contains(file)) continue;
    reading.found.add(
        Diagnostic(Id::game_layout_unused, {FileName(file)}, fmt::format("no card uses {}", file)));
  }
}

}  // namespace

void check_unused(Reading& reading) {
  if (reading.game.cards.empty()) return;
  unused_columns(reading);
  unused_suits(reading);
  unused_layouts(reading);
}

}  // namespace quoin::game
