#pragma once
#include <optional>
#include <string>

#include "base/diagnostic.h"

namespace quoin::game {

/// Why a title cannot stand in a game.toml: `game.missing-key` or `game.encoding`.
[[nodiscard]] std::optional<Diagnostic> title_problem(const std::string& title);

}  // namespace quoin::game
