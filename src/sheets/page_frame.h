#pragma once
#include <vector>

#include "sheets/sheets.h"

namespace quoin::sheets {

/// From the outermost trims to where the printer ends, on both sides of the sheet: as seen on the
/// front. Negative where a trim lies in the dead margin.
[[nodiscard]] Insets room_beyond_trims(const Grid& grid, const game::SheetWishes& wishes);

/// One side of a sheet as marks see it, in the frame of its page.
struct PageFrame {
  Rect usable;                       ///< where ink of either side can lie
  Rect bleed;                        ///< round the outermost bleed; marks stay out of it
  std::vector<Mm> xs;                ///< where blades go down the page, from the left, each once
  std::vector<Mm> ys;                ///< where blades go across, from the top
  std::vector<Mm> fold_xs, fold_ys;  ///< where pieces are folded
  Mm outer_bleed;
  Mm gutter_x, gutter_y;                 ///< 0 when there is nothing between columns, rows
  std::vector<Mm> gutter_xs, gutter_ys;  ///< the middles of the gutters
};

[[nodiscard]] PageFrame page_frame(const Plan& plan, Side side);

/// From the bleed to the end of what is usable, never negative.
[[nodiscard]] Insets strips(const PageFrame& frame);

/// True when the strip across this way (top and bottom, or left and right) has room for the slug.
[[nodiscard]] bool has_slug_room_across(const PageFrame& frame);
[[nodiscard]] bool has_slug_room_upright(const PageFrame& frame);

}  // namespace quoin::sheets
