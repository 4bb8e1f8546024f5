#include <fmt/format.h>

#include <algorithm>

#include "guide/chapters/wording.h"
#include "guide/figures/figures.h"
#include "making/cut_steps.h"
#include "making/hand_work.h"
#include "sheets/wording.h"

namespace quoin::guide {
namespace {

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

/// What the pictures of the cuts show.
std::string legend_words(const Making& making) {
  const bool fence = making.cutting.has_fence;
  return fmt::format(
      "In the pictures you stand at the lower edge. The red line is the blade, dashed ones are the "
      "cuts that follow {}; what is hatched falls away. Thick edges are freshly cut, thin grey "
      "ones are the mill's: no length is measured from those. The small picture is the whole "
      "sheet as it was printed.",
      fence ? "at the same setting of the fence" : "at the same distance");
}

Steps steps_of(const making::Cutting& cutting, const making::SheetKind& kind) {
  // As large as a page of the guide shows it, so that its words keep their size.
  constexpr Size room{Mm{108}, Mm{58}};
  Steps steps;
  steps.across = 1;
  steps.pictures = Steps::Pictures::two_thirds;
  const std::vector<std::string> words = making::step_words(cutting, kind);
  for (std::size_t i = 0; i < words.size(); ++i) {
    Figure figure;
    figure.size = room;
    figure.scene = making::step_picture(cutting, kind, i, room);
    steps.steps.push_back({words[i], std::move(figure)});
  }
  return steps;
}

/// "Sheets 1 to 7"
std::string which_sheets(const making::SheetKind& kind) {
  std::vector<int> numbers;
  for (const int sheet : kind.sheets) numbers.push_back(sheet + 1);
  return fmt::format("{} {}", numbers.size() == 1 ? "Sheet" : "Sheets", number_ranges(numbers));
}

void add_steps(Chapter& chapter, const Making& making) {
  const making::Cutting& cutting = making.cutting;
  if (cutting.kinds.empty()) {
    chapter.blocks.push_back(
        Paragraph{"The cards reach to the edge of the sheet. Cut from crop mark to crop mark: "
                  "first all the long cuts, then the strips into cards."});
    return;
  }
  chapter.blocks.emplace_back(Paragraph{legend_words(making)});
  for (const making::SheetKind& kind : cutting.kinds) {
    if (cutting.kinds.size() > 1) chapter.blocks.emplace_back(Heading{which_sheets(kind)});
    chapter.blocks.emplace_back(Paragraph{sentence(making::kind_words(kind))});
    chapter.blocks.emplace_back(steps_of(cutting, kind));
  }
  chapter.blocks.emplace_back(Heading{"With another tool"});
  if (cutting.has_fence) {
    chapter.blocks.push_back(
        Paragraph{"With knife and rule, mark the same lengths from the fresh edge with a sharp "
                  "pencil, at both ends of each cut, and lay the rule from mark to mark. Press the "
                  "rule down, not the knife."});
  } else {
    chapter.blocks.push_back(
        Paragraph{"On a trimmer or a guillotine set the fence to the lengths that are measured "
                  "here, and lay the fresh edge against it."});
  }
}

void add_fold_lines(Chapter& chapter, const Making& making) {
  chapter.blocks.emplace_back(Heading{"Score first"});
  chapter.blocks.emplace_back(Paragraph{fmt::format(
      "Front and back hang together at a fold. Score along each dashed line from tick to tick "
      "while the sheet is still whole: with something blunt along a rule, or with a light cut no "
      "deeper than half of the paper, {:.2f} mm.",
      making.cutting.sheet.value / 2)});
}

void add_folding(Chapter& chapter, const Making& making) {
  chapter.blocks.emplace_back(Heading{"Fold and glue"});
  chapter.blocks.push_back(
      Paragraph{"Fold with the print outside, away from the groove, and press the fold flat."});
  chapter.blocks.push_back(
      Picture{folded_card(making), "Front and back of the first card, unfolded."});
  chapter.blocks.emplace_back(Paragraph{
      "A thin film of glue right to the edges holds best. Lay the cards under a heavy book "
      "for an hour, then cut off what stands out."});
  chapter.blocks.emplace_back(Caution{
      "Spray glue",
      {"Open the windows, keep it away from flames and sparks, and read what the can says."}});
}

}  // namespace

Chapter cut_cards(const Making& making) {
  const sheets::Grid& grid = making.plan.grid;
  Chapter chapter;
  chapter.title = "Cut";
  chapter.opening = Chapter::Opening::here;
  const int on_sheet = static_cast<int>(
      making.plan.sheets.back().copies.size() -
      static_cast<std::size_t>(std::count(making.plan.sheets.back().copies.begin(),
                                          making.plan.sheets.back().copies.end(), -1)));
  std::string words = fmt::format("{} lie on each sheet, {} across and {} down.{}",
                                  sheets::counted(grid.columns * grid.rows, "card"), grid.columns,
                                  grid.rows, piling_words(making));
  if (on_sheet < grid.columns * grid.rows && making.totals.sheets > 1) {
    words += fmt::format(" The last sheet has only {}.", sheets::counted(on_sheet, "card"));
  }
  chapter.blocks.emplace_back(Paragraph{words});
  if (making.tolerances.cut_within > Mm{}) {
    chapter.blocks.emplace_back(Paragraph{fmt::format(
        "With a {}, 19 cuts in 20 come to lie within **{:.1f} mm** of their line. Knock a pile "
        "square on its top and left edges, hold it firmly, and cut the spare sheet first: on that "
        "one you see how far yours stray.",
        cut::to_string(making.cutting.tool.kind), making.tolerances.cut_within.value)});
  }
  chapter.blocks.emplace_back(Caution{"Blades", making::blade_cautions()});
  const bool folds = making.plan.wishes.backs == game::BackPrinting::fold;
  if (folds) add_fold_lines(chapter, making);
  add_steps(chapter, making);
  if (folds) add_folding(chapter, making);
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
      {fmt::format("Push the card into the punch until both edges touch its stops: a radius of {}.",
                   length),
       card_corner(making, Corner::square)});
  steps.steps.push_back({"Punch. Turn the card and go on round it, always in the same direction.",
                         card_corner(making, Corner::round)});
  chapter.blocks.emplace_back(Paragraph{
      fmt::format("{} corners: a punch that takes three cards at once saves an evening. "
                  "Yours has another radius? Then use it for all cards alike; nobody will "
                  "see it.",
                  making.totals.pieces * 4)});
  chapter.blocks.push_back(std::move(steps));
  return chapter;
}

}  // namespace quoin::guide
