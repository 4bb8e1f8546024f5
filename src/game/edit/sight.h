#pragma once
#include <functional>
#include <optional>

#include "game/edit/csv_source.h"
#include "game/edit/edit.h"

namespace quoin::game {

/// A list as `find_again` looks at it: each item's name and content are asked for when needed.
struct ListInView {
  std::size_t size = 0;
  std::function<std::string(std::size_t)> name;     ///< as in Sight
  std::function<std::string(std::size_t)> content;  ///< as in Sight; "" for plain values
};

[[nodiscard]] ListInView view_of(const Node& list);
/// The rows of a list of cards.
[[nodiscard]] ListInView view_of(const CsvText& list);

/// What is to be remembered of an item; of the place one past the end only the list's size.
[[nodiscard]] Sight sight_of(const ListInView& list, std::size_t index);

/// Where an item stands now: the one of its name, else the one of its content, else, when the list
/// has as many items as it had, the one at its place. The item at its old place comes first.
/// Nothing when it is not there any more, or when several could be it. The place one past the end
/// is found one past the end.
[[nodiscard]] std::optional<std::size_t> find_again(const ListInView& list, std::size_t index,
                                                    const Sight& sight);

/// Where an item is to be put that was put below `above`: below it again, else at `index`.
[[nodiscard]] std::size_t place_below(const ListInView& list, std::size_t index,
                                      const std::optional<Sight>& above);

}  // namespace quoin::game
