#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "game/schema.h"

namespace quoin::game {

/// `game.unknown-colour` when the text is neither a colour nor a name of [colours].
[[nodiscard]] std::optional<Diagnostic> colour_problem(std::string_view text, const Origin& where,
                                                       const KnownNames& names);

/// "there is no style \"rul\"", with the nearest known one.
[[nodiscard]] Diagnostic unknown_name(Id id, std::string_view thing, std::string_view name,
                                      const Origin& where, const std::vector<std::string>& known);

/// Our word for a key that other programs call otherwise ("color"), when `keys` has it.
[[nodiscard]] std::optional<std::string> other_word(const struct KeySet& keys,
                                                    std::string_view key);

/// As `nearest`, over words whose spelling other programs share with ours ("center", "color").
[[nodiscard]] std::optional<std::string> nearest_word(std::string_view word,
                                                      const std::vector<std::string>& known);

}  // namespace quoin::game
