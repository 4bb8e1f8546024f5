#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "game/layout_file.h"
#include "game/schema_check.h"
#include "game/words.h"

namespace quoin::game {
namespace {

/// Keys that say one thing in two ways: giving one takes the others away from a used element.
struct Alternative {
  std::string_view kind;  ///< "" for all
  std::string_view one;
  std::array<std::string_view, 2> other;
};
constexpr std::array<Alternative, 4> alternatives{{
    {"", "inset", {"at", "size"}},
    {"", "panel", {"panels", ""}},
    {"repeat", "symbol", {"picture", ""}},
    {"shape", "sides", {"points", ""}},
}};

void remove_key(Table& table, std::string_view key) {
  std::erase_if(table, [&](const Entry& entry) { return entry.key == key; });
}

void drop_alternatives(Element& element, std::string_view given) {
  for (const Alternative& alternative : alternatives) {
    if (!alternative.kind.empty() && alternative.kind != element.kind) continue;
    if (given == alternative.one) {
      for (const std::string_view key : alternative.other) remove_key(element.properties, key);
    } else if (std::ranges::find(alternative.other, given) != alternative.other.end()) {
      remove_key(element.properties, alternative.one);
    }
  }
}

Element* find_element(std::vector<Element>& elements, const std::string& id) {
  for (Element& element : elements) {
    if (element.id == id) return &element;
    if (Element* child = find_element(element.children, id)) return child;
  }
  return nullptr;
}

void replace_keys(Element& used, const Element& own, Diagnostics& found) {
  if (!own.kind.empty() && own.kind != used.kind && own.kind != "?" && used.kind != "?") {
    Diagnostic problem(Id::game_kind_changed, own.origin,
                       fmt::format("{} is a {} here and a {} at {}", own.id, own.kind, used.kind,
                                   to_string(used.origin)));
    found.push_back(problem.hint("leave kind out, or give this element an id of its own"));
    return;
  }
  if (!own.when.empty()) used.when = own.when;
  if (!own.unless.empty()) used.unless = own.unless;
  for (const Entry& entry : own.properties) drop_alternatives(used, entry.key);
  for (const Entry& entry : own.properties) {
    remove_key(used.properties, entry.key);
    used.properties.push_back(entry);
  }
}

std::string called(const Element& element) {
  const bool vowel = !element.kind.empty() && element.kind.front() == 'i';
  return fmt::format("{} {} element", vowel ? "an" : "a", element.kind);
}

void check_conflicts(const Element& element, Diagnostics& found) {
  for (const Alternative& alternative : alternatives) {
    if (!alternative.kind.empty() && alternative.kind != element.kind) continue;
    const Node* one = find(element.properties, alternative.one);
    for (const std::string_view other : alternative.other) {
      const Node* second = other.empty() ? nullptr : find(element.properties, other);
      if (!one || !second) continue;
      Diagnostic problem(Id::game_keys_conflict, second->origin,
                         fmt::format("{} has both {} and {}", element.id, alternative.one, other));
      found.push_back(problem.hint("keep one of them"));
    }
  }
}

void check_repeat(const Element& element, Diagnostics& found) {
  if (element.kind != "repeat") return;
  if (find(element.properties, "symbol") || find(element.properties, "picture")) return;
  Diagnostic problem(Id::game_missing_key, element.origin,
                     fmt::format("{} needs symbol or picture", element.id));
  found.push_back(problem.hint("write symbol = \"…\" with a name from [symbols]"));
}

void check_element(const Element& element, const KnownNames& names, Diagnostics& found) {
  if (element.kind == "?") return;  // reported where it was read
  if (element.kind.empty()) {
    Diagnostic problem(Id::game_missing_key, element.origin,
                       fmt::format("{} needs the key kind", element.id));
    problem.detail("no layout that this one uses has an element of that id");
    found.push_back(
        problem.hint("write kind = \"picture\", \"text\", \"shape\", \"repeat\" or "
                     "\"group\", or correct the id"));
    return;
  }
  KeySet keys{properties_of(element.kind), called(element), "", ""};
  Diagnostics own = check_table(keys, element.properties, element.origin, names,
                                {"id", "kind", "when", "unless"});
  for (Diagnostic& one : own) found.push_back(std::move(one));
  check_conflicts(element, found);
  check_repeat(element, found);
  if (element.kind == "group" || element.children.empty()) return;
  Diagnostic problem(Id::game_unknown_key, element.origin,
                     fmt::format("{} cannot hold other elements", called(element)));
  found.push_back(problem.hint("write kind = \"group\""));
}

void check_all(const std::vector<Element>& elements, const KnownNames& names, Diagnostics& found) {
  for (const Element& element : elements) {
    check_element(element, names, found);
    check_all(element.children, names, found);
  }
}

}  // namespace

void lay_over(std::vector<Element>& beneath, const LayoutFile& above, Diagnostics& found) {
  for (const Element& own : above.elements) {
    Element* used = find_element(beneath, own.id);
    if (!used) {
      beneath.push_back(own);
      continue;
    }
    replace_keys(*used, own, found);
    const bool new_children = std::any_of(above.child_lists.begin(), above.child_lists.end(),
                                          [&](const Text& group) { return group.text == own.id; });
    if (new_children) used->children = own.children;
  }
}

Diagnostics check_elements(const std::vector<Element>& elements, const KnownNames& names) {
  Diagnostics found;
  check_all(elements, names, found);
  return found;
}

}  // namespace quoin::game
