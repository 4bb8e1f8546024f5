#include "job/share/edition.h"

#include <algorithm>
#include <numeric>

#include "job/copies.h"
#include "job/reckon.h"
#include "job/rules_shown.h"

namespace quoin::job {
namespace {

double covered(const making::Stuff& stuff) {
  return std::accumulate(stuff.cover.begin(), stuff.cover.end(), 0.0);
}

/// With columns and rows that the maker asked for where they go, else as many as go.
std::optional<sheets::Plan> laid(const std::vector<sheets::Copy>& copies,
                                 const sheets::PieceFormat& format, game::SheetWishes wishes,
                                 Diagnostics& found) {
  if (wishes.grid) {
    if (auto plan = sheets::lay(copies, format, wishes)) return std::move(plan).value();
    wishes.grid.reset();
  }
  return sheets::lay(copies, format, wishes).or_report(found);
}

/// The pieces that whoever has the earlier cards prints.
std::vector<sheets::Copy> changed_copies(const Workshop& shop, const game::Game& game,
                                         const pack::Changes& changes) {
  std::vector<sheets::Copy> copies;
  for (int front = 0; front < shop.fronts(); ++front) {
    const auto at = static_cast<std::size_t>(front);
    const game::Card& card = game.cards[static_cast<std::size_t>(shop.drawings()[at].card)];
    const auto change = std::find_if(
        changes.cards.begin(), changes.cards.end(),
        [&](const pack::CardChange& one) { return one.copies > 0 && one.id == card.id; });
    if (change == changes.cards.end()) continue;
    copies.insert(copies.end(), static_cast<std::size_t>(change->copies),
                  {front, shop.back_of()[at], card.suit, card.deck});
  }
  return copies;
}

/// What ink covers of a printed side with the faces in low ink.
double low_cover(const Workshop& shop, const DrawnFaces& faces, const Edition& edition) {
  const Making& making = *edition.outcome.making;
  std::vector<making::FaceFacts> low = making.faces;
  for (std::size_t i = 0; i < low.size(); ++i) low[i].measure.ink = faces.low_ink[i];
  const making::RunFacts facts{1, *edition.outcome.plan,        making.cutting, making.tolerances,
                               0, edition.outcome.totals.pieces};
  return covered(making::run_costs(edition.outcome.game, facts, low, shop.fronts()).stuff);
}

}  // namespace

game::Game for_strangers(const game::Game& game, const SharedPaper& paper) {
  game::Game theirs = game;
  theirs.sheets.paper = paper.size;
  theirs.sheets.paper_name = paper.name;
  theirs.sheets.dead_margin = game::SheetWishes{}.dead_margin;
  if (theirs.sheets.backs == game::BackPrinting::by_hand) {
    theirs.sheets.backs = game::BackPrinting::printer;
  }
  theirs.printer = game::PrinterWishes{};
  theirs.printer.origin = game.printer.origin;
  theirs.making.prices = {};
  theirs.making.quotations.clear();
  return theirs;
}

bool lay_edition(Workshop& shop, const DrawnFaces& faces, SharedPieces pieces,
                 const pack::Changes* changes, Edition& edition, Diagnostics& found) {
  const SharedBox& box = pieces.box;
  Outcome& outcome = edition.outcome;
  const Wishes one_deck;
  const auto copies = [&](int decks) { return all_copies(outcome.game, shop, one_deck, decks); };
  const std::vector<sheets::Copy> all = copies(1);
  outcome.totals = totals_of(outcome.game, shop, all.size());
  const sheets::PieceFormat format = piece_format(outcome.game, shop);
  outcome.plan = laid(all, format, outcome.game.sheets, found);
  if (!outcome.plan) return false;
  outcome.totals.sheets = static_cast<int>(outcome.plan->sheets.size());
  if (box.box) {
    outcome.box = box.box;
    outcome.box_art = box.full_art;
    Checked<pack::BoxSheets> sheets = pack::lay_box(outcome.game, *outcome.box, outcome.box_art, 1);
    outcome.box_sheets = std::move(sheets.value);
    for (Diagnostic& problem : sheets.found) found.push_back(std::move(problem));
  }
  if (pieces.mat.mat) {
    const game::MatWishes& wishes = *outcome.game.mat;
    outcome.mat = pieces.mat.mat;
    outcome.mat_tiling =
        sheets::lay_tiles(wishes.size, wishes.overlap, outcome.game.sheets, wishes.place("size"))
            .or_report(found);
  }
  if (outcome.rules) {
    check_rules_in_box(outcome, found);
    auto drawn =
        DrawnSymbols::draw(pack::rules_symbols(*outcome.rules), shop.shelf(), {}).or_report(found);
    if (drawn) edition.rules.emplace(std::move(*drawn));
  }
  if (any_errors(found)) return false;
  Diagnostics told_by_make;
  reckon(shop, one_deck, copies, outcome, told_by_make);
  edition.facts.paper = edition.paper->name;
  edition.facts.sheets = outcome.totals.sheets;
  edition.facts.board_sheets = outcome.box_sheets.count();
  if (outcome.mat_tiling) {
    edition.facts.mat_sheets = static_cast<int>(outcome.mat_tiling->tiles.size());
  }
  if (outcome.rules) edition.facts.rules_sheets = outcome.rules_sheets.count();
  edition.facts.full_cover = covered(outcome.making->costs.runs.front().stuff);
  edition.facts.low_cover = low_cover(shop, faces, edition);
  if (changes == nullptr) return true;
  const std::vector<sheets::Copy> changed = changed_copies(shop, outcome.game, *changes);
  if (changed.empty()) return true;
  edition.changed = laid(changed, format, outcome.game.sheets, found);
  if (edition.changed)
    edition.facts.changed_sheets = static_cast<int>(edition.changed->sheets.size());
  return true;
}

}  // namespace quoin::job
