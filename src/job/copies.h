#pragma once
#include <vector>

#include "job/job.h"
#include "job/workshop.h"

namespace quoin::job {

/// Every piece that is to be printed, deck after deck. A reprint takes each id as often as it is
/// asked for.
[[nodiscard]] std::vector<sheets::Copy> all_copies(const game::Game& game, const Workshop& shop,
                                                   const Wishes& wishes, int decks);

/// What the cards of a run have in common, once all of them were drawn.
[[nodiscard]] sheets::PieceFormat piece_format(const game::Game& game, const Workshop& shop);

/// How much there is of everything but sheets.
[[nodiscard]] pack::Totals totals_of(const game::Game& game, const Workshop& shop,
                                     std::size_t pieces);

/// The drawing that looks out of the open box: the first back, or the first card of a deck without.
[[nodiscard]] std::size_t top_card_of(const Workshop& shop);

}  // namespace quoin::job
