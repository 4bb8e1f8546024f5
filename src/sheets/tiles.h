#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "game/game.h"
#include "geometry/geometry.h"
#include "press/correction.h"

namespace quoin::sheets {

/// One sheet of something larger than a sheet that is put together from several. All in the frame
/// of the whole, whose upper left corner is the origin.
///
/// Sheets lie in rows and columns, each over those to its left and above it: its left and its upper
/// edge are trimmed at the seam, its right and its lower one lie beneath.
struct Tile {
  int row = 0, column = 0;
  std::string name;  ///< "A1": rows are letters, columns numbers
  Rect printed;      ///< what the sheet prints of the whole's frame
  Rect shown;        ///< what is seen of it in the end, slack beyond the whole counted
};

/// A whole on sheets of one paper.
struct Tiling {
  Size whole;      ///< what is put together
  Size paper;      ///< as it is printed on
  Rect printable;  ///< of a page
  int columns = 1, rows = 1;
  Mm overlap;               ///< printed by both of two neighbours, half on each side of the seam
  std::vector<Mm> seam_xs;  ///< where the upper sheets' left edges go, from the left
  std::vector<Mm> seam_ys;  ///< and their upper edges, from the top
  std::vector<Tile> tiles;  ///< row after row, in the order in which they are joined
  /// How the sheets are drawn for the printer; filled by whoever knows the printer.
  std::optional<press::Correction> correction = {};

  /// From the frame of the whole to the page of that tile.
  [[nodiscard]] Affine to_page(const Tile& tile) const;
  [[nodiscard]] bool is_one_sheet() const { return tiles.size() == 1; }
};

/// Round a whole of several sheets so much is printed, so that the line to cut along, and the marks
/// at which seams meet, are on paper.
inline constexpr Mm tile_rim{3};
/// A file of more sheets is none that anybody puts together.
inline constexpr int most_tiles = 120;

/// Lays `whole` on the fewest sheets of the game's paper, upright or level; of equal numbers the
/// one with the shorter seams, then upright. Several print no more than
/// they need to, in the middle of the page, so that all are alike.
///
/// A whole that the printer reaches on one sheet takes one. With several, n sheets of printable
/// width w reach n w - (n - 1) overlap, which has to be `whole` and `tile_rim` on both sides.
///
/// Fails with `mat.sheet-too-small` at `origin` when the printable part is not wider than twice the
/// overlap, or when it takes more than `most_tiles`.
[[nodiscard]] Result<Tiling> lay_tiles(Size whole, Mm overlap, const game::SheetWishes& wishes,
                                       const Origin& origin);

/// "A", "Z", "AA": rows, from 0.
[[nodiscard]] std::string row_letters(int row);

/// "9 sheets of A4, landscape, 3 by 3"
[[nodiscard]] std::string tiling_words(const Tiling& tiling, const std::string& paper_name);

}  // namespace quoin::sheets
