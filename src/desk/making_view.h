#pragma once
#include <optional>
#include <string>

#include "desk/api/json.h"
#include "desk/session.h"

namespace quoin::desk {

/// MakingInfo of a moment that was checked: how the game is cut, what it takes, where backs lie.
[[nodiscard]] Json making_view(const Snapshot& shown);

/// Why likely cuts cannot be told: one sentence and what to do.
struct NoCuts {
  std::string message, hint;
};
/// LikelyCuts of a face; nothing, with the reason in `why`, when it is on no sheet or there is no
/// plan for cutting.
[[nodiscard]] std::optional<Json> likely_cuts_view(const Snapshot& shown, const Face& face,
                                                   NoCuts& why);

}  // namespace quoin::desk
