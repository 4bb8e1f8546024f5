#include "sheets/placing.h"

#include "sheets/printable.h"

namespace quoin::sheets {
namespace {

/// A piece seen from behind, in its own frame.
Affine mirrored(Size trim) { return {-1, 0, 0, 1, trim.width, {}}; }

/// Where the front lies in the unfolded piece.
Affine front_half(Size trim, Fold fold) {
  return fold == Fold::top ? Affine::move({Mm{0}, trim.height}) : Affine{};
}

/// Where the back lies in the unfolded piece: the front's mirror image about the fold, which after
/// folding lies behind the front and reads upright when the card is turned about its upright axis.
Affine back_half(Size trim, Fold fold) {
  if (fold == Fold::top) return {-1, 0, 0, -1, trim.width, trim.height};
  return Affine::move({trim.width, Mm{0}});
}

/// The window's part on this half of an unfolded piece: bleed ends at the fold.
Rect up_to_the_fold(Rect window, Rect half, Rect whole) {
  Insets out{half.top() - window.top(), window.right() - half.right(),
             window.bottom() - half.bottom(), half.left() - window.left()};
  if (half.top() > whole.top() + epsilon) out.top = Mm{0};
  if (half.right() < whole.right() - epsilon) out.right = Mm{0};
  if (half.bottom() < whole.bottom() - epsilon) out.bottom = Mm{0};
  if (half.left() > whole.left() + epsilon) out.left = Mm{0};
  return grown(half, out);
}

}  // namespace

Placing::Placing(const Grid& grid, const PieceFormat& piece, const game::SheetWishes& wishes)
    : grid_(grid), piece_(piece), wishes_(wishes) {}

Affine Placing::cell_map(int cell) const {
  const Rect trim = grid_.trims[cell];
  if (!grid_.turned) return Affine::move({trim.left(), trim.top()});
  return then(Affine::turn(Angle::degrees(90)), Affine::move({trim.right(), trim.top()}));
}

Affine Placing::front_map(int cell) const {
  return then(front_half(piece_.trim, grid_.fold), cell_map(cell));
}

Insets Placing::reach(int cell, Mm bleed, const std::vector<bool>& taken) const {
  const int column = cell % grid_.columns, row = cell / grid_.columns;
  const auto towards = [&](int columns_on, int rows_on, Mm gutter) {
    const int c = column + columns_on, r = row + rows_on;
    const bool inside = c >= 0 && c < grid_.columns && r >= 0 && r < grid_.rows;
    const bool has_neighbour = inside && taken[r * grid_.columns + c];
    return has_neighbour ? std::min(bleed, gutter / 2) : bleed;
  };
  return {towards(0, -1, grid_.gutter_y), towards(1, 0, grid_.gutter_x),
          towards(0, 1, grid_.gutter_y), towards(-1, 0, grid_.gutter_x)};
}

Placed Placing::on_page(int drawing, const Affine& map, Rect window) const {
  Placed placed;
  placed.drawing = drawing;
  placed.map = map;
  placed.trim = bounds(map, {{}, piece_.trim});
  placed.window = overlap(window, page_of(grid_.paper)).value_or(placed.trim);
  return placed;
}

Placed Placing::front(int drawing, int cell, const std::vector<bool>& taken) const {
  const Rect whole = grid_.trims[cell];
  const Rect window = grown(whole, reach(cell, piece_.bleed, taken));
  const Affine map = front_map(cell);
  if (grid_.fold == Fold::none) return on_page(drawing, map, window);
  return on_page(drawing, map, up_to_the_fold(window, bounds(map, {{}, piece_.trim}), whole));
}

Placed Placing::back(int drawing, int cell, const std::vector<bool>& taken) const {
  const Affine turned_over = behind(grid_.paper, wishes_.flip);
  const Affine map = then(then(mirrored(piece_.trim), front_map(cell)), turned_over);
  const Rect in_front = grown(grid_.trims[cell], reach(cell, piece_.back_bleed, taken));
  Placed placed = on_page(drawing, map, bounds(turned_over, in_front));
  placed.is_back = true;
  return placed;
}

Placed Placing::folded_back(int drawing, int cell, const std::vector<bool>& taken) const {
  const Rect whole = grid_.trims[cell];
  const Affine map = then(back_half(piece_.trim, grid_.fold), cell_map(cell));
  const Rect window = grown(whole, reach(cell, piece_.back_bleed, taken));
  Placed placed =
      on_page(drawing, map, up_to_the_fold(window, bounds(map, {{}, piece_.trim}), whole));
  placed.is_back = true;
  return placed;
}

}  // namespace quoin::sheets
