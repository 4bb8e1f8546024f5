#pragma once
#include <vector>

#include "base/overlay_world.h"
#include "game/edit/edit.h"

namespace quoin::job {

/// Two spellings of one value, and which of the claims it is about.
struct Collided {
  std::size_t claim = 0;
  game::Collision what;
};

/// What comes of claims made one after another in the texts of a game.
struct Merged {
  Texts texts;                    ///< those that differ afterwards
  std::vector<game::Claim> done;  ///< that were made, in order
  std::vector<game::Claim> back;  ///< take all back, in their order
  std::vector<Collided> collided;
  Diagnostics refused;  ///< of claims that cannot be made
};

/// What to do with a claim whose value was changed elsewhere too.
enum class Choice { ask, mine, theirs };

/// Makes the claims in `now`, a text for each file they name. `choices` is empty or has one for
/// each claim; with Choice::theirs a claim is passed over when its value was changed elsewhere.
[[nodiscard]] Merged merge(const std::vector<game::Claim>& claims, const Texts& now,
                           const std::vector<Choice>& choices = {});

/// The claims of changes made one after another in view of `seen`. Fails as game::claim and
/// game::edit do.
[[nodiscard]] Result<std::vector<game::Claim>> claims_of(const std::vector<game::Change>& changes,
                                                         Texts seen);

}  // namespace quoin::job
