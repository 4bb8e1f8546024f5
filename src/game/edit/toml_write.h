#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "game/node.h"

namespace quoin::game {

/// A value as TOML on one line, but for texts of many lines. `old` is what it takes the place of,
/// or a neighbour: quotes stay single or triple when the text can stand in them, brackets keep
/// their blanks. `line_end` is the file's.
[[nodiscard]] std::string toml_value(const Node& value, std::string_view old,
                                     std::string_view line_end);

/// A key, in quotes when it must be.
[[nodiscard]] std::string toml_key(std::string_view key);

/// Why a value cannot stand in a TOML file, in words that go on from "the value …"; nothing when it
/// can.
[[nodiscard]] std::optional<std::string> fault_of_value(const Node& value);

/// The same of a text alone.
[[nodiscard]] std::optional<std::string> fault_of_text(std::string_view text);

}  // namespace quoin::game
