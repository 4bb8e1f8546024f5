#pragma once
#include <optional>
#include <string>

#include "game/edit/change.h"
#include "game/node.h"

namespace quoin::game {

/// The value at a path, or null. An empty path is `top` itself.
[[nodiscard]] const Node* node_at(const Node& top, const ValuePath& path);

/// The same for the same value: keys sorted, numbers in their shortest form, no spaces.
[[nodiscard]] std::string canonical(const Node& value);

/// What a change makes of a value: the model that a changed text must read as. Each answers false,
/// with `top` in any state, when there is no such place.
///
/// Sets a value, adding the key, the item at the end of a list, and tables on the way.
[[nodiscard]] bool set_node(Node& top, const ValuePath& path, const Node& value);
/// Takes a value away. Tables that held nothing else stay, empty.
[[nodiscard]] bool remove_node(Node& top, const ValuePath& path);
/// Puts an item into a list, which is made when it is missing.
[[nodiscard]] bool insert_node(Node& top, const ValuePath& path, const Node& value);
[[nodiscard]] bool move_node(Node& top, const ValuePath& path, std::size_t to);

/// Takes away what holds `path` when it is empty, since no text may stand for it any more; false
/// when it is not. `path` is then that of the holder.
[[nodiscard]] bool prune(Node& top, ValuePath& path);

}  // namespace quoin::game
