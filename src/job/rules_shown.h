#pragma once
#include "job/job.h"
#include "job/workshop.h"

namespace quoin::job {

/// Sets and folds the rules of the outcome's game, when it has any, and lays them on sheets. To be
/// called before the box is made: the folded rules lie in it, and where the maker does not say how
/// thick they are (`[box] leaflet`) the game's wishes get what was reckoned.
void fold_rules(const Wishes& wishes, Workshop& shop, Outcome& outcome, Diagnostics& found);

/// What can only be said when the box is made: `rules.larger-than-box`, `rules.thickness-differs`.
void check_rules_in_box(const Outcome& outcome, Diagnostics& found);

}  // namespace quoin::job
