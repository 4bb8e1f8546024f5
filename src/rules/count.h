#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "game/game.h"

namespace quoin::rules {

/// A number of cards as the rules ask for it: "count", "count:suit=shell",
/// "count:suit=shell,rank=1 or 2", "count:suit=shell is 14".
struct Count {
  game::Conditions conditions;  ///< all of them hold
  std::optional<int> stated;    ///< after "is"
};

/// Reads what stands between the braces. Fails with `rules.bad-count` and `rules.unknown-column`
/// at `where`.
[[nodiscard]] Result<Count> read_count(const game::Game& game, std::string_view written,
                                       const Origin& where);

/// How many cards of one deck of the game there are, copies counted.
[[nodiscard]] int cards_in(const game::Game& game, const Count& count);

}  // namespace quoin::rules
