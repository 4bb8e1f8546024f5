#include "making/cut_steps.h"

#include <fmt/format.h>

#include <algorithm>

#include "sheets/wording.h"

namespace quoin::making {
namespace {

using cut::Edge;
using cut::Found;
using cut::Run;

bool same(Mm a, Mm b) { return nearly_equal(a, b); }

/// What lies between the fence and the blade.
Rect kept(const cut::Cut& cut) {
  const Rect from = cut.through;
  if (cut.run == Run::down) return rect_between(from.at, {cut.at, from.bottom()});
  return rect_between(from.at, {from.right(), cut.at});
}

/// "card", "strip" or "block": what a board of cards is called.
std::string called(Rect board, const cut::Grid& grid) {
  const bool one_wide = fits(board.size.width, grid.piece.width + grid.gutter_x);
  const bool one_high = fits(board.size.height, grid.piece.height + grid.gutter_y);
  if (one_wide && one_high) return "card";
  return one_wide || one_high ? "strip" : "block";
}

/// What is turned and laid under the blade in a step.
std::string noun(const cut::Step& step, const cut::Grid& grid, int at_once) {
  std::vector<Rect> boards;
  for (const cut::Cut& cut : step.cuts) {
    const bool inside = std::any_of(boards.begin(), boards.end(),
                                    [&](Rect board) { return lies_in(cut.through, board); });
    if (!inside) boards.push_back(cut.through);
  }
  const std::string what = called(boards.front(), grid);
  if (what == "block") return at_once > 1 ? "stack" : "sheet";
  return boards.size() > 1 ? what + "s" : what;
}

std::string turn_words(int quarters, const std::string& what, bool is_first) {
  switch (quarters) {
    case 1:
      return fmt::format("Turn the {} a quarter clockwise", what);
    case 2:
      return fmt::format("Turn the {} half round", what);
    case 3:
      return fmt::format("Turn the {} a quarter anticlockwise", what);
    default:
      break;
  }
  return is_first ? fmt::format("Lay the {} under the blade as it was printed", what)
                  : fmt::format("Leave the {} as it lies", what);
}

std::string side_name(const cut::Grid& grid, const cut::Cut& cut) {
  switch (cut::far_edge(grid, cut)) {
    case Edge::left:
      return "right";
    case Edge::top:
      return "bottom";
    case Edge::right:
      return "left";
    case Edge::bottom:
      break;
  }
  return "top";
}

std::string mark_words(const cut::Grid& grid, const cut::Step& step, const std::string& turned) {
  const cut::Cut& cut = step.cuts.front();
  return fmt::format(
      "{}, the {} edge of the print towards you. Line the blade up with the printed marks and "
      "cut off the waste.",
      turned, side_name(grid, cut));
}

std::string times(std::size_t count) {
  if (count == 1) return "Cut";
  return count == 2 ? "Cut twice" : fmt::format("Cut {} times", count);
}

/// Whether each cut after the first is measured from the edge that the one before it made.
bool is_chained(const cut::Step& step) {
  for (std::size_t i = 1; i < step.cuts.size(); ++i) {
    const cut::Cut &before = step.cuts[i - 1], &now = step.cuts[i];
    const Mm from = now.run == Run::down ? now.through.left() : now.through.top();
    if (now.run == before.run && same(from, before.at)) return true;
  }
  return false;
}

std::string result_words(const cut::Grid& grid, const cut::Step& step) {
  const std::string what = called(kept(step.cuts.front()), grid);
  if (what == "block") return "";
  const Rect got = kept(step.cuts.front());
  const bool is_trimmed = what == "card" ? nearly_equal(got.size, grid.piece)
                                         : same(got.size.width, grid.piece.width) ||
                                               same(got.size.height, grid.piece.height);
  if (step.cuts.size() == 1) {
    return fmt::format(": a {}{}", what, is_trimmed ? "" : " with its gutter");
  }
  return fmt::format(": each cut gives a {}{}", what, is_trimmed ? "" : " with its gutter");
}

std::string fence_words(const Cutting& cutting, const cut::Grid& grid, const cut::Step& step,
                        const std::string& turned) {
  const double setting = step.cuts.front().setting.value;
  const std::string chained =
      is_chained(step) ? (cutting.has_fence ? ", the fresh edge against the fence each time"
                                            : ", measured from the fresh edge each time")
                       : "";
  const std::string cuts = times(step.cuts.size()) + chained + result_words(grid, step) + ".";
  if (cutting.has_fence) {
    return fmt::format("{}, so that the fresh edge lies against the fence. Set {:.1f} mm. {}",
                       turned, setting, cuts);
  }
  return fmt::format(
      "{}, the fresh edge away from you. Measure {:.1f} mm from it at both ends and lay the rule "
      "along. {}",
      turned, setting, cuts);
}

}  // namespace

std::vector<std::string> step_words(const Cutting& cutting, const SheetKind& kind) {
  std::vector<std::string> lines;
  const cut::Grid& grid = kind.cuts.grid;
  for (const cut::Step& step : kind.cuts.steps) {
    const std::string what = noun(step, grid, kind.piling.at_once);
    const std::string turned = turn_words(step.quarter_turns, what, lines.empty());
    lines.push_back(step.cuts.front().found == Found::by_mark
                        ? mark_words(grid, step, turned)
                        : fence_words(cutting, grid, step, turned));
  }
  return lines;
}

std::string kind_words(const SheetKind& kind) {
  const int sheets = static_cast<int>(kind.sheets.size());
  std::string words = fmt::format("{} of {}", sheets::counted(sheets, "sheet"),
                                  sheets::counted(kind.pieces, "card"));
  if (kind.riding_along > 0) {
    words += fmt::format(" ({} of them not full, cut with the others)", kind.riding_along);
  }
  if (kind.piling.at_once > 1) words += fmt::format(", {} at a time", kind.piling.at_once);
  return words + fmt::format(": {} of {}", sheets::counted(kind.piling.piles, "stack"),
                             sheets::counted(kind.cuts.cuts, "cut"));
}

}  // namespace quoin::making
