#include "sheets/page_frame.h"

#include "sheets/arrangement.h"
#include "sheets/printable.h"

namespace quoin::sheets {
namespace {

/// Sorted, with lines that one cut serves taken as one.
std::vector<Mm> each_once(std::vector<Mm> lines) {
  std::sort(lines.begin(), lines.end());
  const auto same = [](Mm a, Mm b) { return nearly_equal(a, b); };
  lines.erase(std::unique(lines.begin(), lines.end(), same), lines.end());
  return lines;
}

Rect round_all(const std::vector<Rect>& trims) {
  Rect all = trims.front();
  for (const Rect& trim : trims) all = covering(all, trim);
  return all;
}

void add_folds(PageFrame& frame, const std::vector<Rect>& trims, const Grid& grid) {
  if (grid.fold == Fold::none) return;
  const bool goes_across = (grid.fold == Fold::top) != grid.turned;
  std::vector<Mm> lines;
  for (const Rect& trim : trims) {
    lines.push_back(goes_across ? trim.centre().y : trim.centre().x);
  }
  (goes_across ? frame.fold_ys : frame.fold_xs) = each_once(lines);
}

/// The middles between lines that end one piece and begin the next.
std::vector<Mm> middles(const std::vector<Mm>& lines, Mm gutter) {
  std::vector<Mm> all;
  if (gutter <= epsilon) return all;
  for (std::size_t i = 1; i + 1 < lines.size(); i += 2) {
    all.push_back((lines[i] + lines[i + 1]) / 2);
  }
  return all;
}

}  // namespace

Insets room_beyond_trims(const Grid& grid, const game::SheetWishes& wishes) {
  const Rect usable = printable_on_both_sides(wishes, grid.paper);
  const Rect block = round_all(grid.trims);
  return {block.top() - usable.top(), usable.right() - block.right(),
          usable.bottom() - block.bottom(), block.left() - usable.left()};
}

PageFrame page_frame(const Plan& plan, Side side) {
  const Grid& grid = plan.grid;
  const Affine to_page = side == Side::back ? behind(grid.paper, plan.wishes.flip) : Affine{};
  std::vector<Rect> trims;
  std::vector<Mm> xs, ys;
  for (const Rect& in_front : grid.trims) {
    const Rect trim = bounds(to_page, in_front);
    trims.push_back(trim);
    xs.insert(xs.end(), {trim.left(), trim.right()});
    ys.insert(ys.end(), {trim.top(), trim.bottom()});
  }
  PageFrame frame;
  frame.usable = bounds(to_page, printable_on_both_sides(plan.wishes, grid.paper));
  frame.outer_bleed = outer_bleed(plan.piece, plan.wishes);
  frame.bleed = grown(round_all(trims), frame.outer_bleed);
  frame.xs = each_once(std::move(xs));
  frame.ys = each_once(std::move(ys));
  frame.gutter_x = grid.columns > 1 ? grid.gutter_x : Mm{0};
  frame.gutter_y = grid.rows > 1 ? grid.gutter_y : Mm{0};
  frame.gutter_xs = middles(frame.xs, frame.gutter_x);
  frame.gutter_ys = middles(frame.ys, frame.gutter_y);
  add_folds(frame, trims, grid);
  return frame;
}

Insets strips(const PageFrame& frame) {
  const auto no_less_than_none = [](Mm width) { return std::max(Mm{0}, width); };
  return {no_less_than_none(frame.bleed.top() - frame.usable.top()),
          no_less_than_none(frame.usable.right() - frame.bleed.right()),
          no_less_than_none(frame.usable.bottom() - frame.bleed.bottom()),
          no_less_than_none(frame.bleed.left() - frame.usable.left())};
}

bool has_slug_room_across(const PageFrame& frame) {
  return fits(slug_strip, std::min(strips(frame).top, strips(frame).bottom));
}

bool has_slug_room_upright(const PageFrame& frame) {
  return fits(slug_strip, std::min(strips(frame).left, strips(frame).right));
}

}  // namespace quoin::sheets
