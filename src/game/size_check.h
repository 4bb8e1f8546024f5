#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "game/formats.h"

namespace quoin::game {

/// Cards and sheets measure between these on each side.
inline constexpr Mm smallest_side{5};
inline constexpr Mm largest_side{2000};

/// `game.out-of-range` when a side is shorter or longer than can be printed and cut.
[[nodiscard]] std::optional<Diagnostic> size_problem(const NamedSize& size, const Origin& where);

/// `game.unknown-size` for a text that find_size does not read.
[[nodiscard]] Diagnostic unknown_size(const std::string& text, const Origin& where,
                                      const std::vector<NamedSize>& known);

}  // namespace quoin::game
