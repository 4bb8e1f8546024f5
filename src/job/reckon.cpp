#include "job/reckon.h"

#include <algorithm>
#include <set>

#include "job/settled.h"

namespace quoin::job {
namespace {

/// Runs that are reckoned beside the one asked for, as far as they are no larger than this.
constexpr int usual_runs[] = {1, 5, 20};
constexpr int most_cards = 50'000;

std::vector<making::FaceFacts> faces_of(const Workshop& shop, const game::Game& game) {
  std::vector<making::FaceFacts> faces;
  for (std::size_t i = 0; i < shop.drawings().size(); ++i) {
    const Drawing& drawing = shop.drawings()[i];
    const game::Card& card = game.cards[static_cast<std::size_t>(drawing.card)];
    faces.push_back({drawing.piece, drawing.is_back, card.origin, shop.measures()[i]});
  }
  return faces;
}

int board_sheets(const Outcome& outcome, int decks) {
  if (!outcome.box) return 0;
  return pack::lay_box(outcome.game, *outcome.box, outcome.box_art, decks).value.count();
}

/// Each leaf is cut on four sides unless its page is the whole sheet.
making::PaperPiece rules_of(const Outcome& outcome, int decks) {
  if (!outcome.rules || outcome.rules_sheets.sheets.empty()) return {};
  const rules::Leaflet& leaflet = *outcome.rules;
  const rules::Form& form = leaflet.form;
  making::PaperPiece piece;
  piece.sheets = pack::lay_rules(outcome.game, leaflet, decks).count();
  piece.sides = piece.sheets * (form.sides == rules::Form::Sides::both ? 2 : 1);
  piece.cuts = leaflet.whole_sheet ? 0 : 4 * form.leaves * decks;
  piece.slits = form.slit ? decks : 0;
  piece.folds = form.fold_count() * decks;
  return piece;
}

making::PaperPiece mat_of(const Outcome& outcome, int decks) {
  if (!outcome.mat || !outcome.mat_tiling) return {};
  return making::mat_work(*outcome.mat, *outcome.mat_tiling, decks);
}

/// One number of decks, laid and cut anew: more of them may lie otherwise on the paper.
std::optional<making::RunCosts> run_of(const Workshop& shop, int decks, const CopiesOf& copies,
                                       const Outcome& outcome) {
  const game::Game& game = outcome.game;
  const std::vector<sheets::Copy> cards = copies(decks);
  const Result<sheets::Plan> plan = sheets::lay(cards, outcome.plan->piece, game.sheets);
  if (!plan) return std::nullopt;
  const pieces::Box* box = outcome.box ? &*outcome.box : nullptr;
  const making::Cutting cutting = making::plan_cutting(game, *plan, box, decks).value;
  const making::Tolerances tolerances =
      making::tolerances(game, *plan, cutting, outcome.making->faces, shop.fronts(),
                         outcome.making->tolerances.registration);
  const making::RunFacts facts{decks,
                               *plan,
                               cutting,
                               tolerances,
                               board_sheets(outcome, decks),
                               static_cast<int>(cards.size()) / decks,
                               rules_of(outcome, decks),
                               mat_of(outcome, decks)};
  return making::run_costs(game, facts, outcome.making->faces, shop.fronts());
}

}  // namespace

void reckon(const Workshop& shop, const Wishes& wishes, const CopiesOf& copies, Outcome& outcome,
            Diagnostics& found) {
  add(making::check_weight(outcome.game, outcome.printer ? &*outcome.printer : nullptr), found);
  if (!outcome.plan) return;
  const game::Game& game = outcome.game;
  const pieces::Box* box = outcome.box ? &*outcome.box : nullptr;
  Checked<making::Cutting> cutting = making::plan_cutting(game, *outcome.plan, box, wishes.decks);
  add(std::move(cutting.found), found);
  Making making;
  making.cutting = std::move(cutting.value);
  making.faces = faces_of(shop, game);
  making.tolerances = making::tolerances(
      game, *outcome.plan, making.cutting, making.faces, shop.fronts(),
      outcome.printer ? making::measured_register(*outcome.printer) : making::usual_register(game));
  add(making::check_tolerances(game, making.tolerances, making.faces), found);
  add(making::check_backs_meet(game, making.tolerances, shop.fronts()), found);
  outcome.making = std::move(making);
  if (!wishes.only.empty()) return;
  std::set<int> runs{wishes.decks};
  for (const int decks : usual_runs) {
    if (outcome.totals.cards * decks <= most_cards) runs.insert(decks);
  }
  for (const int decks : runs) {
    if (auto costs = run_of(shop, decks, copies, outcome)) {
      outcome.making->costs.runs.push_back(std::move(*costs));
    }
  }
  outcome.making->costs.quoted = making::quoted_costs(game);
}

}  // namespace quoin::job
