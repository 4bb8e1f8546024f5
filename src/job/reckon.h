#pragma once
#include <functional>

#include "job/job.h"
#include "job/workshop.h"

namespace quoin::job {

/// The cards of so many decks, as they are to be laid.
using CopiesOf = std::function<std::vector<sheets::Copy>(int decks)>;

/// How the laid sheets are cut, what becomes of the cards, what it all takes: fills the outcome's
/// `making` and adds what is found. To be called when the sheets are laid and the box is made. A
/// reprint of some cards has no costs.
void reckon(const Workshop& shop, const Wishes& wishes, const CopiesOf& copies, Outcome& outcome,
            Diagnostics& found);

}  // namespace quoin::job
