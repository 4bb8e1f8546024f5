#pragma once
#include <optional>
#include <string>
#include <string_view>

namespace quoin::game {

/// Longest id of a card, in characters.
inline constexpr std::size_t longest_id = 80;

/// Why a card's id cannot be a file name on every machine, as the end of a sentence ("has a space
/// in it"); nothing when it can. Ids are made of the letters a to z and A to Z, digits, '-', '_'
/// and '.', begin and end with none of '.', and are none of the names that one system keeps for
/// its devices (con, nul, com1 …).
[[nodiscard]] std::optional<std::string> id_fault(std::string_view id);

/// An id near to `name` that has no fault: accents dropped where that leaves the letter readable,
/// all else replaced by '-'. "" when nothing is left.
[[nodiscard]] std::string id_from(std::string_view name);

}  // namespace quoin::game
