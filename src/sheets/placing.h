#pragma once
#include <vector>

#include "sheets/sheets.h"

namespace quoin::sheets {

/// Puts drawings into the cells of a grid: where a piece's frame comes to lie on the page, and how
/// much bleed it may show there.
class Placing {
 public:
  /// Keeps references: the three must outlive it.
  Placing(const Grid& grid, const PieceFormat& piece, const game::SheetWishes& wishes);

  /// `cell` is an index into Grid::trims; `taken` says which cells hold a piece, so that a piece
  /// beside an empty cell shows all of its bleed there.
  [[nodiscard]] Placed front(int drawing, int cell, const std::vector<bool>& taken) const;
  /// Behind the front of the same cell, on the other side of the sheet.
  [[nodiscard]] Placed back(int drawing, int cell, const std::vector<bool>& taken) const;
  /// Across the fold from the front of the same cell, on the same side of the sheet.
  [[nodiscard]] Placed folded_back(int drawing, int cell, const std::vector<bool>& taken) const;

 private:
  /// From the frame of the unfolded piece, its own top left, to the page.
  [[nodiscard]] Affine cell_map(int cell) const;
  [[nodiscard]] Affine front_map(int cell) const;
  [[nodiscard]] Insets reach(int cell, Mm bleed, const std::vector<bool>& taken) const;
  [[nodiscard]] Placed on_page(int drawing, const Affine& map, Rect window) const;

  const Grid& grid_;
  const PieceFormat& piece_;
  const game::SheetWishes& wishes_;
};

}  // namespace quoin::sheets
