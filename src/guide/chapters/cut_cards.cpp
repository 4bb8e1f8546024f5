#include <fmt/format.h>

#include <algorithm>

#include "guide/chapters/wording.h"
#include "guide/figures/figures.h"
#include "making/hand_work.h"
#include "sheets/wording.h"

namespace quoin::guide {
namespace {

using cut::Cut;
using cut::Edge;

std::string_view edge_name(Edge edge) {
  switch (edge) {
    case Edge::left:
      return "left";
    case Edge::top:
      return "top";
    case Edge::right:
      return "right";
    case Edge::bottom:
      break;
  }
  return "bottom";
}

/// The waste of a cut by a mark lies on the side opposite of what is away from the maker.
Edge opposite(Edge edge) {
  switch (edge) {
    case Edge::left:
      return Edge::right;
    case Edge::top:
      return Edge::bottom;
    case Edge::right:
      return Edge::left;
    case Edge::bottom:
      break;
  }
  return Edge::top;
}

/// How what lies on the table is turned from the picture before: "" when it is not.
std::string turn_words(const cut::Plan& plan, std::size_t step) {
  const Edge before = step == 0 ? Edge::top : far_edge(plan, step - 1);
  const Edge now = far_edge(plan, step);
  // Edges are counted clockwise from the left one; a quarter clockwise brings the left one up.
  const int quarters = (static_cast<int>(before) - static_cast<int>(now) + 4) % 4;
  const bool is_sheet =
      plan.steps[step].cuts.front().through.size.width > plan.grid.piece.width * 1.5 &&
      plan.steps[step].cuts.front().through.size.height > plan.grid.piece.height * 1.5;
  const char* what = is_sheet ? "the sheet" : "the strips";
  if (quarters == 0) return "";
  if (quarters == 2) return fmt::format("Turn {} half round. ", what);
  return fmt::format("Turn {} a quarter to the {}. ", what, quarters == 1 ? "right" : "left");
}

/// How many pieces of the grid lie in a part of the sheet.
int cards_in(const cut::Grid& grid, Rect part) {
  int count = 0;
  for (int row = 0; row < grid.rows; ++row) {
    for (int column = 0; column < grid.columns; ++column) {
      count += lies_in(cut::cell(grid, column, row), part) ? 1 : 0;
    }
  }
  return count;
}

/// What the cuts of a step leave: cards, strips of them, or only less waste.
std::string result_words(const cut::Plan& plan, const cut::Step& step) {
  bool parts = false, leaves_strips = false;
  for (const Cut& one : step.cuts) {
    const bool down = one.run == cut::Run::down;
    const Rect whole = one.through;
    const Rect before = down ? rect_between(whole.at, {one.at, whole.bottom()})
                             : rect_between(whole.at, {whole.right(), one.at});
    const int first = cards_in(plan.grid, before), all = cards_in(plan.grid, whole);
    parts = parts || (first > 0 && first < all);
    leaves_strips = leaves_strips || (first > 1 && first < all);
  }
  if (!parts) return " What falls off is waste.";
  return leaves_strips ? " This makes strips." : " This makes cards of the strips.";
}

std::string step_words(const cut::Plan& plan, std::size_t index) {
  const cut::Step& step = plan.steps[index];
  const Cut& first = step.cuts.front();
  const std::string turn = turn_words(plan, index);
  if (first.found == cut::Found::by_mark) {
    return fmt::format("{}Cut off the **{} margin**, from crop mark to crop mark.", turn,
                       edge_name(opposite(far_edge(plan, index))));
  }
  const int cuts = static_cast<int>(step.cuts.size());
  return fmt::format("{}Fresh edge against the fence, fence at **{}**: {}.{}", turn,
                     sheets::millimetres(first.setting), sheets::counted(cuts, "cut"),
                     result_words(plan, step));
}

bool can_be_planned(const cut::Grid& grid) { return grid.at.x > epsilon && grid.at.y > epsilon; }

std::string piling_words(const Making& making) {
  const auto caliper = card_caliper(making);
  const int count = making.totals.sheets;
  if (!caliper || *caliper <= Mm{0.01} || count < 2) return "";
  const auto at_once = [&](cut::ToolKind kind) {
    return cut::piling(count, *caliper, cut::usual(kind)).at_once;
  };
  const int trimmer = at_once(cut::ToolKind::rotary_trimmer);
  const int guillotine = at_once(cut::ToolKind::guillotine);
  return fmt::format(
      " Your card is some {:.2f} mm thick: a trimmer takes {} at once, a guillotine {}, a knife "
      "one.",
      caliper->value, sheets::counted(trimmer, "sheet"), guillotine);
}

/// The steps as they were planned elsewhere, a list for each kind of sheet.
void add_planned_steps(Chapter& chapter, const Making& making) {
  for (const SheetCuts& kind : making.cuts) {
    if (making.cuts.size() > 1) chapter.blocks.push_back(Heading{kind.which});
    if (!kind.words.empty()) chapter.blocks.push_back(Paragraph{kind.words});
    chapter.blocks.push_back(Steps{kind.steps, 2, Steps::Numbers::counted});
  }
}

void add_steps(Chapter& chapter, const Making& making) {
  if (!making.cuts.empty()) {
    add_planned_steps(chapter, making);
    return;
  }
  const cut::Grid grid = cut_grid(making.plan);
  if (!can_be_planned(grid)) {
    chapter.blocks.push_back(
        Paragraph{"The cards reach to the edge of the sheet. Cut from crop mark to crop mark: "
                  "first all the long "
                  "cuts, then the strips into cards."});
    return;
  }
  const cut::Plan plan = cut::plan_cuts(grid, cut::Prefer::fewest_settings);
  chapter.blocks.push_back(Paragraph{fmt::format(
      "{} for each pile, with the fence set {}. In the pictures you stand at the lower edge: the "
      "orange line is the blade, the dark bar is the fence, and what is hatched falls away.",
      sheets::counted(plan.cuts, "cut"),
      plan.settings == 1   ? "once"
      : plan.settings == 2 ? "twice"
                           : fmt::format("{} times", plan.settings))});
  Steps steps;
  for (std::size_t i = 0; i < plan.steps.size(); ++i) {
    steps.steps.push_back({step_words(plan, i), cut_step(making, plan, i)});
  }
  chapter.blocks.push_back(std::move(steps));
  chapter.blocks.push_back(Heading{"Without a fence"});
  chapter.blocks.push_back(Paragraph{
      "With knife and rule, mark the same lengths from the fresh edge with a sharp pencil, at both "
      "ends of each cut, and lay the rule from mark to mark. Press the rule down, not the knife."});
}

void add_folding(Chapter& chapter, const Making& making) {
  chapter.blocks.push_back(Heading{"Fold and glue"});
  chapter.blocks.push_back(
      Paragraph{"Front and back hang together. Score along the dashed line from tick to tick "
                "before you cut the "
                "sheet up, with something blunt along a rule. Fold with the print outside, and "
                "press the fold "
                "flat."});
  chapter.blocks.push_back(
      Picture{folded_card(making), "Front and back of the first card, unfolded."});
  chapter.blocks.push_back(Paragraph{
      "A thin film of glue right to the edges holds best. Lay the cards under a heavy book "
      "for an hour, then cut off what stands out."});
  chapter.blocks.push_back(Caution{
      "Spray glue",
      {"Open the windows, keep it away from flames and sparks, and read what stands on the can."}});
}

}  // namespace

Chapter cut_cards(const Making& making) {
  const sheets::Grid& grid = making.plan.grid;
  Chapter chapter;
  chapter.title = "Cut";
  const int on_sheet = static_cast<int>(
      making.plan.sheets.back().copies.size() -
      static_cast<std::size_t>(std::count(making.plan.sheets.back().copies.begin(),
                                          making.plan.sheets.back().copies.end(), -1)));
  std::string words = fmt::format("{} lie on each sheet, {} across and {} down.{}",
                                  sheets::counted(grid.columns * grid.rows, "card"), grid.columns,
                                  grid.rows, piling_words(making));
  if (on_sheet < grid.columns * grid.rows && making.totals.sheets > 1) {
    words += fmt::format(" The last sheet has only {}; cut it in the same way.",
                         sheets::counted(on_sheet, "card"));
  }
  chapter.blocks.push_back(Paragraph{
      words + " Knock a pile square on its top and left edges, and cut a spare sheet first."});
  chapter.blocks.push_back(Caution{"Blades", making::blade_cautions()});
  add_steps(chapter, making);
  if (making.plan.wishes.backs == game::BackPrinting::fold) add_folding(chapter, making);
  return chapter;
}

Chapter round_corners(const Making& making) {
  const Mm radius = making.game.card.corner;
  Chapter chapter;
  chapter.title = "Round the corners";
  chapter.opening = Chapter::Opening::here;
  if (radius <= Mm{0.2}) return chapter;
  const std::string length = sheets::millimetres(radius);
  Steps steps;
  steps.steps.push_back(
      {fmt::format("Push the card into the punch until both edges touch its stops. The curve has a "
                   "radius of {}.",
                   length),
       card_corner(making, Corner::square)});
  steps.steps.push_back(
      {"Punch. Turn the card and go on round it, always in the same direction, so that "
       "no corner is forgotten.",
       card_corner(making, Corner::round)});
  chapter.blocks.push_back(std::move(steps));
  chapter.blocks.push_back(
      Paragraph{fmt::format("{} corners: a punch that takes three cards at once saves an evening. "
                            "Yours has another radius? "
                            "Then use it for all cards alike; nobody will see it.",
                            making.totals.pieces * 4)});
  return chapter;
}

}  // namespace quoin::guide
