#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "game/schema.h"

namespace quoin::game {

/// The keys a table may have, and what messages call the table.
struct KeySet {
  std::vector<const PropertyFacts*> known;
  std::string called;              ///< "[card]", "an element of kind text"
  std::string_view own_keys = "";  ///< as in SectionFacts
  std::string prefix = "";         ///< before a key's name in messages: "stroke."
};

/// The keys of a section of game.toml or a layout.
[[nodiscard]] KeySet keys_in(std::string_view section);

/// Checks each key and value of a table, and that none is missing (placed at `where`).
/// Structural keys that the caller reads itself are named in `skipped`.
[[nodiscard]] Diagnostics check_table(const KeySet& keys, const Table& table, const Origin& where,
                                      const KnownNames& names,
                                      const std::vector<std::string_view>& skipped = {});

/// `game.unknown-key` for one key, with the nearest known one, the word we use for it, or the
/// place where it belongs.
[[nodiscard]] Diagnostic unknown_key(const KeySet& keys, const Entry& entry);

/// "a number", "the text \"3mm\"": what a value is, for messages.
[[nodiscard]] std::string describe(const Node& value);
/// What facts ask for: "a number of mm", "a list of 2 numbers".
[[nodiscard]] std::string wanted(const PropertyFacts& facts);

}  // namespace quoin::game
