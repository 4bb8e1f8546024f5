#pragma once
#include <map>
#include <set>

#include "formats/document.h"
#include "guide/making.h"
#include "job/box_shown.h"
#include "job/job.h"
#include "job/workshop.h"

namespace quoin::job {

/// The drawings that a guide shows by themselves: up to four fronts spread over the deck, and the
/// first back.
[[nodiscard]] std::set<std::size_t> faces_for_guide(const Workshop& shop);

/// `guide.pdf` of a run whose sheets are laid and reckoned: it places the cards' drawings by their
/// numbers. `faces` are those that `faces_for_guide` names, texts set in this thread.
[[nodiscard]] Document guide_document(const Outcome& outcome, const Wishes& wishes, Workshop& shop,
                                      const std::map<std::size_t, Scene>& faces,
                                      const std::optional<TopCard>& top_card);

/// All that a guide of the run is about; refers to what is handed in.
[[nodiscard]] guide::Making guide_making(const Outcome& outcome, int decks, Workshop& shop,
                                         const std::map<std::size_t, Scene>& faces,
                                         const std::optional<TopCard>& top_card);

}  // namespace quoin::job
