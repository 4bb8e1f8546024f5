#include "game/edit/sight.h"

#include <algorithm>

#include "base/hash.h"
#include "game/edit/node_edit.h"

namespace quoin::game {
namespace {

/// The one place at which `fits`, the old one first.
template <typename Fits>
std::optional<std::size_t> only_place(std::size_t size, std::size_t index, const Fits& fits) {
  if (index < size && fits(index)) return index;
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < size; ++i) {
    if (!fits(i)) continue;
    if (found) return std::nullopt;
    found = i;
  }
  return found;
}

}  // namespace

ListInView view_of(const Node& node) {
  const List* list = node.list();
  if (!list) return {};
  return {list->size(),
          [list](std::size_t i) -> std::string {
            const Table* table = (*list)[i].table();
            const Node* id = table ? find(*table, "id") : nullptr;
            return id && id->text() ? *id->text() : "";
          },
          [list](std::size_t i) -> std::string {
            const Node& item = (*list)[i];
            return item.table() ? sha256(canonical(item)) : "";
          }};
}

ListInView view_of(const CsvText& list) {
  return {list.rows.size(), [&list](std::size_t i) { return list.id(i); },
          [&list](std::size_t i) {
            std::string all;
            for (const std::string& cell : list.cells[i]) all += cell + '\0';
            return sha256(all);
          }};
}

Sight sight_of(const ListInView& list, std::size_t index) {
  if (index >= list.size) return {"", "", list.size};
  return {list.name(index), list.content(index), list.size};
}

std::optional<std::size_t> find_again(const ListInView& list, std::size_t index,
                                      const Sight& sight) {
  if (index == sight.size) return list.size;
  if (!sight.name.empty()) {
    return only_place(list.size, index, [&](std::size_t i) { return list.name(i) == sight.name; });
  }
  if (!sight.content.empty()) {
    const auto same = only_place(list.size, index,
                                 [&](std::size_t i) { return list.content(i) == sight.content; });
    if (same) return same;
  }
  if (list.size != sight.size || index >= list.size) return std::nullopt;
  return index;
}

std::size_t place_below(const ListInView& list, std::size_t index,
                        const std::optional<Sight>& above) {
  if (!above || index == 0) return 0;
  const std::optional<std::size_t> found = find_again(list, index - 1, *above);
  return found ? std::min(*found + 1, list.size) : std::min(index, list.size);
}

}  // namespace quoin::game
