#include "game/used_names.h"

#include "game/words.h"

namespace quoin::game {
namespace {

/// The place of a stretch of a text within its quotes. Only known for a text on one line without
/// escapes: then the place of the whole counts two quotes more than the text has characters.
Origin place_of(const TextPart& part, const std::string& text, const Origin& whole) {
  if (whole.length != characters(text) + 2) return whole;
  Origin place = whole;
  place.column +=
      1 + static_cast<std::uint32_t>(characters(std::string_view(text).substr(0, part.offset)));
  place.length = static_cast<std::uint32_t>(
      characters(std::string_view(text).substr(part.offset, part.length)));
  return place;
}

void collect(const Node& node, std::vector<NameUse>& uses) {
  if (const std::string* text = node.text()) {
    if (text->find('{') == std::string::npos) return;
    for (const TextPart& part : parts_of(*text)) {
      if (part.kind == TextPart::Kind::words) continue;
      uses.push_back({part.kind, part.text, place_of(part, *text, node.origin)});
    }
  } else if (const List* list = node.list()) {
    for (const Node& item : *list) collect(item, uses);
  } else if (const Table* table = node.table()) {
    for (const Entry& entry : *table) collect(entry.value, uses);
  }
}

void collect(const Conditions& conditions, std::vector<NameUse>& uses) {
  for (const Condition& condition : conditions) {
    uses.push_back({TextPart::Kind::name, condition.column, condition.origin});
  }
}

void collect(const std::vector<Element>& elements, std::vector<NameUse>& uses) {
  for (const Element& element : elements) {
    collect(element.when, uses);
    collect(element.unless, uses);
    for (const Entry& entry : element.properties) collect(entry.value, uses);
    collect(element.children, uses);
  }
}

}  // namespace

std::vector<NameUse> names_used(const Game& game, const std::vector<LayoutRule>& rules) {
  std::vector<NameUse> uses;
  for (const LayoutRule& rule : rules) {
    collect(rule.when, uses);
    collect(rule.unless, uses);
  }
  for (const Named& style : game.styles) collect(style.value, uses);
  for (const Layout& layout : game.layouts) {
    if (&layout != box_layout(game) && &layout != mat_layout(game)) collect(layout.elements, uses);
  }
  return uses;
}

std::vector<NameUse> names_used_in(const Layout& layout) {
  std::vector<NameUse> uses;
  collect(layout.elements, uses);
  return uses;
}

const Layout* mat_layout(const Game& game) {
  if (!game.mat || game.mat->art < 0) return nullptr;
  return &game.layouts[static_cast<std::size_t>(game.mat->art)];
}

const Layout* box_layout(const Game& game) {
  if (!game.box || game.box->art < 0) return nullptr;
  return &game.layouts[static_cast<std::size_t>(game.box->art)];
}

}  // namespace quoin::game
