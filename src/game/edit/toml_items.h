#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "game/edit/text_splice.h"
#include "game/edit/toml_source.h"

namespace quoin::game {

/// Where the items of a list, or the entries of a table in braces, stand.
[[nodiscard]] std::vector<Stretch> item_places(const Written& holder);

/// Puts an item, or `key = value`, among those of a list or a table in brackets. A list with an
/// item to a line gets a line more. `index` is at most the number of items.
[[nodiscard]] std::vector<Splice> put_item(std::string_view text, const Written& holder,
                                           std::size_t index, const std::string& item);

/// Takes an item away with its comma; when it stands alone on a line, with the line and the remark
/// on it.
[[nodiscard]] std::vector<Splice> take_item(std::string_view text, const Written& holder,
                                            std::size_t index);

}  // namespace quoin::game
