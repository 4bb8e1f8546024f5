#pragma once
#include <optional>
#include <vector>

#include "cut/tool.h"
#include "geometry/geometry.h"

namespace quoin::cut {

/// Equal pieces in rows and columns on a sheet, as they are printed: x right, y down from the
/// sheet's top left, millimetres. Gutters are 0 where neighbours touch.
struct Grid {
  Size sheet;
  int columns = 1, rows = 1;
  Size piece;
  Mm gutter_x, gutter_y;
  Point at;  ///< top left of the first piece
  /// Which places hold a piece, row by row; empty: all of them. The others are waste.
  std::vector<bool> taken = {};
};

/// Whether there is a piece in that column and row.
[[nodiscard]] bool is_taken(const Grid& grid, int column, int row);
/// Round the pieces that there are.
[[nodiscard]] Rect block_of(const Grid& grid);

/// The piece in that column and row.
[[nodiscard]] Rect cell(const Grid& grid, int column, int row);

/// Which way a cut runs.
enum class Run {
  down,   ///< from top to bottom of the printed sheet, at one x
  across  ///< from left to right, at one y
};
enum class Edge { left, top, right, bottom };

/// How the place of a cut is found: by the printed mark, or by an edge that was cut before and lies
/// against the fence. Never by an edge that the mill cut: sheets differ by up to 2 mm (ISO 216).
enum class Found { by_mark, by_fence };

/// One cut through one piece of a sheet (and the sheets piled on it).
struct Cut {
  Run run = Run::down;
  Mm at;         ///< x or y on the sheet
  Rect through;  ///< what is cut in two: a part of the sheet
  Found found = Found::by_mark;
  Edge fence = Edge::left;  ///< by_fence: the edge of `through` that lies against it
  Mm setting;               ///< by_fence: from the fence to the blade
  bool operator==(const Cut&) const = default;
};

/// Cuts that are made one after another without touching the fence: the same setting, or the same
/// kind of mark.
struct Step {
  std::vector<Cut> cuts;
  /// How far the sheet or strip is turned from the step before, clockwise in quarters of a turn,
  /// with the edge at the fence always away from the maker, and waste that is cut off by a mark
  /// always towards them.
  int quarter_turns = 0;
};

/// All the cuts of one kind of sheet.
struct Plan {
  Grid grid;
  std::vector<Step> steps;
  int cuts = 0;
  int settings = 0;  ///< how often the fence is set
};

/// What comes first when both cannot be had.
enum class Prefer {
  fewest_settings,  ///< the fence stays where it is; errors of the cuts before add up
  least_drift       ///< every line of a strip is measured from one edge; the fence moves each time
};

/// The cuts that leave exactly the pieces of the grid, with the fewest cuts that are possible
/// without piling strips, then what `prefer` says.
///
/// Strips first, then pieces; the waste of three sides goes first, found by the printed marks that
/// are still there: left by the marks above and below, the top by the mark on the right, the right
/// by the mark below. Everything after is measured from a fresh cut. With r rows and c columns:
/// r·c + 3 cuts where neighbours touch, 2·r·c + 2 with gutters both ways, since every cut makes one
/// piece more (tests search all ways of cutting for small grids). On a sheet that is partly filled
/// strips are cut up only as far as they have pieces, and a short last row comes off first where
/// that saves cuts; it takes at most one cut more than the fewest (all such sheets up to 4 x 4 are
/// searched by tests).
///
/// Throws `std::logic_error` when the grid has no piece, reaches past the sheet, or leaves no waste
/// on the left and at the top: there would be no fresh edge to measure from.
[[nodiscard]] Plan plan_cuts(const Grid& grid, Prefer prefer);

/// Which edge lies away from the maker while a cut is made.
[[nodiscard]] Edge far_edge(const Grid& grid, const Cut& cut);

/// The fewest cuts that any order of edge-to-edge cuts needs for a full grid, by counting pieces.
[[nodiscard]] int fewest_cuts(const Grid& grid);

/// What a pile of equal sheets needs: how many lie under the blade at once, and how often the
/// plan is gone through.
struct Piling {
  int at_once = 1;
  int piles = 0;
};
[[nodiscard]] Piling piling(int sheets, Mm caliper, const Tool& tool);

}  // namespace quoin::cut
