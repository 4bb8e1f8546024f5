#include "game/edit/node_edit.h"

#include <algorithm>

#include "game/json_text.h"
#include "game/words.h"

namespace quoin::game {
namespace {

Node* child_of(Node& value, const PathStep& step) {
  if (const auto* key = std::get_if<std::string>(&step)) {
    auto* table = std::get_if<Table>(&value.value);
    if (!table) return nullptr;
    const auto at =
        std::find_if(table->begin(), table->end(), [&](const Entry& e) { return e.key == *key; });
    return at == table->end() ? nullptr : &at->value;
  }
  auto* list = std::get_if<List>(&value.value);
  const std::size_t index = std::get<std::size_t>(step);
  return list && index < list->size() ? &(*list)[index] : nullptr;
}

/// The value that holds the last step of the path.
Node* holder_of(Node& top, const ValuePath& path) {
  Node* at = &top;
  for (std::size_t i = 0; at && i + 1 < path.size(); ++i) at = child_of(*at, path[i]);
  return at;
}

/// Tables and lists on the way to the last step are made when they are missing.
Node* made_holder_of(Node& top, const ValuePath& path) {
  Node* at = &top;
  for (std::size_t i = 0; at && i + 1 < path.size(); ++i) {
    Node* next = child_of(*at, path[i]);
    if (!next) {
      const bool holds_list = std::holds_alternative<std::size_t>(path[i + 1]);
      const Node fresh{{}, holds_list ? decltype(Node::value)(List{}) : Table{}};
      if (!set_node(*at, {path[i]}, fresh)) return nullptr;
      next = child_of(*at, path[i]);
    }
    at = next;
  }
  return at;
}

std::ptrdiff_t place(std::size_t index) { return static_cast<std::ptrdiff_t>(index); }

bool is_empty(const Node& value) {
  if (const Table* table = value.table()) return table->empty();
  return value.list() && value.list()->empty();
}

}  // namespace

const Node* node_at(const Node& top, const ValuePath& path) {
  Node* at = const_cast<Node*>(&top);  // child_of changes nothing
  for (std::size_t i = 0; at && i < path.size(); ++i) at = child_of(*at, path[i]);
  return at;
}

std::string canonical(const Node& value) {
  if (value.text()) return json::text(*value.text());
  if (value.number()) return json::number(*value.number());
  if (value.flag()) return *value.flag() ? "true" : "false";
  if (const List* list = value.list()) {
    std::vector<std::string> items;
    for (const Node& item : *list) items.push_back(canonical(item));
    return json::list(items);
  }
  json::Members members;
  for (const Entry& entry : *value.table()) {
    members.emplace_back(entry.key, canonical(entry.value));
  }
  std::sort(members.begin(), members.end());
  return json::object(members);
}

bool set_node(Node& top, const ValuePath& path, const Node& value) {
  if (path.empty()) return false;
  Node* holder = made_holder_of(top, path);
  if (!holder) return false;
  if (Node* old = child_of(*holder, path.back())) {
    old->value = value.value;
    return true;
  }
  if (const auto* key = std::get_if<std::string>(&path.back())) {
    auto* table = std::get_if<Table>(&holder->value);
    if (table) table->push_back({*key, {}, value});
    return table != nullptr;
  }
  auto* list = std::get_if<List>(&holder->value);
  if (!list || std::get<std::size_t>(path.back()) != list->size()) return false;
  list->push_back(value);
  return true;
}

bool remove_node(Node& top, const ValuePath& path) {
  Node* holder = path.empty() ? nullptr : holder_of(top, path);
  if (!holder || !child_of(*holder, path.back())) return false;
  if (const auto* key = std::get_if<std::string>(&path.back())) {
    std::erase_if(std::get<Table>(holder->value), [&](const Entry& e) { return e.key == *key; });
    return true;
  }
  List& list = std::get<List>(holder->value);
  list.erase(list.begin() + place(std::get<std::size_t>(path.back())));
  return true;
}

bool insert_node(Node& top, const ValuePath& path, const Node& value) {
  if (path.empty() || !std::holds_alternative<std::size_t>(path.back())) return false;
  Node* holder = made_holder_of(top, path);
  auto* list = holder ? std::get_if<List>(&holder->value) : nullptr;
  const std::size_t index = std::get<std::size_t>(path.back());
  if (!list || index > list->size()) return false;
  list->insert(list->begin() + place(index), value);
  return true;
}

bool move_node(Node& top, const ValuePath& path, std::size_t to) {
  const Node* item = node_at(top, path);
  if (!item || path.empty()) return false;
  const Node moved = *item;
  ValuePath target = path;
  target.back() = to;
  return remove_node(top, path) && insert_node(top, target, moved);
}

bool prune(Node& top, ValuePath& path) {
  if (path.size() < 2) return false;
  path.pop_back();
  const Node* holder = node_at(top, path);
  return holder && is_empty(*holder) && remove_node(top, path);
}

}  // namespace quoin::game
