#include "job/guide_shown.h"

#include <algorithm>

#include "guide/guide_document.h"
#include "guide/making.h"

namespace quoin::job {

std::set<std::size_t> faces_for_guide(const Workshop& shop) {
  constexpr std::size_t most = 4;
  const auto fronts = static_cast<std::size_t>(shop.fronts());
  const std::size_t count = std::min(most, fronts);
  std::set<std::size_t> faces;
  for (std::size_t i = 0; i < count; ++i) faces.insert((2 * i + 1) * fronts / (2 * count));
  if (shop.drawings().size() > fronts) faces.insert(fronts);
  return faces;
}

guide::Making guide_making(const Outcome& outcome, int decks, Workshop& shop,
                           const std::map<std::size_t, Scene>& faces,
                           const std::optional<TopCard>& top_card) {
  const Making& reckoned = *outcome.making;
  guide::Making making{outcome.game,
                       *outcome.plan,
                       outcome.totals,
                       decks,
                       {},
                       {},
                       false,
                       {},
                       reckoned.cutting,
                       reckoned.tolerances,
                       reckoned.costs,
                       outcome.printer ? &*outcome.printer : nullptr,
                       {}};
  for (int i = 0; i < shop.fronts(); ++i) {
    making.fronts.push_back(shop.drawings()[static_cast<std::size_t>(i)].piece);
  }
  for (const auto& [drawing, scene] : faces) {
    making.faces.push_back({scene});
    making.last_face_is_back = shop.drawings()[drawing].is_back;
  }
  if (outcome.box && !outcome.box_sheets.sheets.empty()) {
    making.box = {&*outcome.box, &outcome.box_art, &outcome.box_sheets,
                  top_card ? &top_card->scene : nullptr};
  }
  if (outcome.mat) {
    making.mat = {&*outcome.mat, outcome.mat_tiling ? &*outcome.mat_tiling : nullptr};
  }
  if (outcome.rules && !outcome.rules_sheets.sheets.empty()) {
    making.rules = {&*outcome.rules, &outcome.rules_sheets,
                    rules::folding_steps(outcome.rules->form, shop.typesetter())};
  }
  return making;
}

Document guide_document(const Outcome& outcome, const Wishes& wishes, Workshop& shop,
                        const std::map<std::size_t, Scene>& faces,
                        const std::optional<TopCard>& top_card) {
  const guide::Making making = guide_making(outcome, wishes.decks, shop, faces, top_card);
  return guide::document_of(guide::guide_for(making), shop.typesetter());
}

}  // namespace quoin::job
