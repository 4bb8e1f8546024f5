#pragma once
#include "game/game.h"

namespace quoin::game {

/// The conditions in a checked table: `suit = "glass"`, `kind = ["a", "b"]`, `suit.tide = "high"`.
/// Numbers and flags are compared as they are written in a cell: "3", "true". Values of other
/// types, which the check has reported, are passed over. Null gives none.
[[nodiscard]] Conditions read_conditions(const Node* table);

}  // namespace quoin::game
