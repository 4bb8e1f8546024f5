#pragma once
#include <nlohmann/json.hpp>

#include "making/costs.h"

namespace quoin::pack {

/// How the game is cut: the tool, each kind of sheet with its steps in words and numbers, what is
/// done by hand for corners and boxes. Places are millimetres on the printed sheet.
[[nodiscard]] nlohmann::ordered_json cutting_json(const making::Cutting& cutting);

/// What strays, and what becomes of the cards: chances from 0 to 1.
[[nodiscard]] nlohmann::ordered_json tolerance_json(const making::Tolerances& tolerances,
                                                    const std::vector<making::FaceFacts>& faces);

/// Stuff, money and seconds for each number of decks, and what shops ask.
[[nodiscard]] nlohmann::ordered_json costs_json(const game::Game& game, const making::Costs& costs);

}  // namespace quoin::pack
