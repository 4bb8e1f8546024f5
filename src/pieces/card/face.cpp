#include "pieces/card/face.h"

#include <set>

#include "pieces/card/element.h"

namespace quoin::pieces {
namespace {

Scene draw_side(const Studio& studio, const game::Card& card, int layout, Mm bleed,
                std::string piece, Diagnostics& found) {
  Scene scene;
  if (layout < 0) return scene;
  const game::Game& game = studio.game();
  const Sitting sitting{studio, card, std::move(piece), found};
  draw_elements(game.layouts[static_cast<std::size_t>(layout)].elements, sitting,
                Rect{{}, game.card.size}, bleed, scene.items);
  return scene;
}

/// Adds the names between braces in `text`.
void collect_names(std::string_view text, std::set<std::string>& names) {
  for (std::size_t open = text.find('{'); open != std::string_view::npos;
       open = text.find('{', open + 1)) {
    if (open + 1 < text.size() && text[open + 1] == '{') {
      ++open;
      continue;
    }
    const std::size_t close = text.find('}', open);
    if (close == std::string_view::npos) return;
    names.emplace(text.substr(open + 1, close - open - 1));
  }
}

void collect_names(const game::Node& node, std::set<std::string>& names) {
  if (const std::string* text = node.text()) collect_names(*text, names);
  if (const game::List* list = node.list()) {
    for (const game::Node& item : *list) collect_names(item, names);
  }
  if (const game::Table* table = node.table()) {
    for (const game::Entry& entry : *table) collect_names(entry.value, names);
  }
}

void collect_names(const std::vector<game::Element>& elements, std::set<std::string>& names) {
  for (const game::Element& element : elements) {
    for (const game::Condition& condition : element.when) names.insert(condition.column);
    for (const game::Condition& condition : element.unless) names.insert(condition.column);
    for (const game::Entry& entry : element.properties) collect_names(entry.value, names);
    collect_names(element.children, names);
  }
}

}  // namespace

Scene front(const Studio& studio, const game::Card& card, Diagnostics& found) {
  return draw_side(studio, card, card.layout, studio.game().card.bleed, card.id, found);
}

Scene back(const Studio& studio, const game::Card& card, Diagnostics& found) {
  return draw_side(studio, card, card.back, back_bleed(studio.game()), "back of " + card.deck,
                   found);
}

Mm back_bleed(const game::Game& game) { return game.card.bleed + game.sheets.back_bleed; }

std::string back_key(const game::Game& game, const game::Card& card) {
  if (card.back < 0) return {};
  const game::Layout& layout = game.layouts[static_cast<std::size_t>(card.back)];
  std::set<std::string> names;
  collect_names(layout.elements, names);
  std::string key = layout.file.str();
  for (const std::string& name : names) {
    const std::optional<game::Text> value = game::look_up(game, card, name);
    key += '\n' + name + '=' + (value ? value->text : std::string{});
  }
  return key;
}

}  // namespace quoin::pieces
