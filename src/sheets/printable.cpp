#include "sheets/printable.h"

#include "sheets/sheets.h"

namespace quoin::sheets {
namespace {

bool is_portrait(Size paper) { return paper.width <= paper.height; }

/// Insets that leave less than nothing give an empty rectangle in the middle.
Rect shrunk(Rect r, Insets by) {
  const Mm width = std::max(Mm{0}, r.size.width - by.left - by.right);
  const Mm height = std::max(Mm{0}, r.size.height - by.top - by.bottom);
  return {{r.at.x + by.left, r.at.y + by.top}, {width, height}};
}

}  // namespace

Insets dead_margin(const game::SheetWishes& wishes, Size paper) {
  const Insets given = wishes.dead_margin;
  if (nearly_equal(paper, wishes.paper)) return given;
  const Mm sides = std::max(given.top, given.bottom), ends = std::max(given.left, given.right);
  return {ends, sides, ends, sides};
}

Rect printable(const game::SheetWishes& wishes, Size paper) {
  return shrunk(page_of(paper), dead_margin(wishes, paper));
}

bool has_back_forms(const game::SheetWishes& wishes) {
  return wishes.backs == game::BackPrinting::printer || wishes.backs == game::BackPrinting::by_hand;
}

Rect printable_on_both_sides(const game::SheetWishes& wishes, Size paper) {
  const Rect front = printable(wishes, paper);
  if (!has_back_forms(wishes)) return front;
  const Rect back = bounds(behind(paper, wishes.flip), front);
  return overlap(front, back).value_or(Rect{front.at, {}});
}

Affine behind(Size paper, game::FlipEdge flip) {
  const bool turns_about_upright_edge = (flip == game::FlipEdge::long_edge) == is_portrait(paper);
  if (turns_about_upright_edge) return {-1, 0, 0, 1, paper.width, {}};
  return {1, 0, 0, -1, {}, paper.height};
}

}  // namespace quoin::sheets
