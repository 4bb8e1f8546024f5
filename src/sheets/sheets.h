#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "game/game.h"
#include "geometry/geometry.h"
#include "press/correction.h"
#include "scene/scene.h"

namespace quoin::sheets {

/// One thing to be printed and cut out: which front, which back, and what it is grouped by.
struct Copy {
  int front = 0;      ///< index of the front drawing
  int back = -1;      ///< index of the back drawing; -1: blank
  std::string group;  ///< its suit, for sheets of one suit each
  std::string deck;
};

/// What all pieces of a plan have in common.
struct PieceFormat {
  Size trim;
  Mm bleed;       ///< drawn past the trim on fronts
  Mm back_bleed;  ///< drawn past the trim on backs (at least `bleed`)
  /// True when neighbours may touch without a sliver of one showing on the other: all edges of
  /// all faces carry one flat colour, the same everywhere.
  bool edges_alike = false;
  std::string name;  ///< "card", for messages
  Origin origin;     ///< of the size, for messages
};

/// Where front and back hang together when both are printed on one side and folded.
enum class Fold {
  none,
  top,   ///< along the front's top edge: the back lies above it, upside down
  side,  ///< along the front's right edge: the back lies beside it, upright
};

/// How pieces lie on a sheet. Trims are page rectangles of the front, row by row from the top left.
/// With a fold each of them is the whole unfolded piece, front and back together.
struct Grid {
  Size paper;  ///< as it is printed on: width > height means landscape
  int columns = 0, rows = 0;
  bool turned = false;  ///< pieces lie a quarter turn clockwise
  Fold fold = Fold::none;
  Mm gutter_x, gutter_y;  ///< between neighbouring trims
  Point at;               ///< top left of the first trim
  std::vector<Rect> trims;
  std::string why;  ///< one line: "9 to a sheet, upright on portrait A4 ..."
};

/// The grid that needs fewest sheets for `count` pieces within the dead margin; among equals
/// upright before turned, gutters before touching cards (unless `edges_alike`), portrait before
/// landscape. Leaves room for crop marks on all sides and for the slug on one; what gives way when
/// there is none, and in which order, stands in docs/decisions/sheet-grids.md.
/// Backs must be able to lie behind their fronts: along the axis that the flip mirrors the dead
/// margin of both sides counts, so the grid is centred on the sheet along it; along the other it is
/// centred between the dead margins. A count below 1 is taken as 1.
///
/// Fails with `sheet.piece-too-large`, giving the size needed and the size the paper offers, and
/// `sheet.grid-does-not-fit` when the maker asked for more columns and rows than fit.
[[nodiscard]] Result<Grid> best_grid(const PieceFormat& piece, int count,
                                     const game::SheetWishes& wishes);

/// A drawing placed on one side of a sheet.
struct Placed {
  int drawing = 0;  ///< index among the fronts or backs
  bool is_back = false;
  Affine map;  ///< from the piece's frame (trim's top left) to the page
  Rect trim;   ///< on the page
  /// Trim and as much bleed as belongs to it: at most half a gutter towards a neighbour, all of it
  /// where there is none, nothing across a fold; never past the paper.
  Rect window;
};

/// One printed side.
struct Form {
  std::vector<Placed> placed;
  bool operator==(const Form& other) const;  ///< same drawings at the same places
};

struct Sheet {
  Form front;
  Form back;
  std::vector<int> copies;  ///< indices of the Copy in each cell, -1 for an empty one
};

struct Plan {
  Grid grid;
  game::SheetWishes wishes;
  PieceFormat piece;
  std::vector<Sheet> sheets;
  bool backs_interchangeable = false;  ///< every sheet's back is the same
  std::vector<std::string> choices;    ///< one line each: grid, order, backs, and why
  /// How the two sides are drawn for the printer; filled by whoever knows the printer.
  std::optional<press::Correction> correction = {};
  std::string printer = {};  ///< "for study-laser", "no printer profile": the slug says it
};

/// Lays `copies` on sheets in the order asked for; backs fall behind their fronts whatever the
/// flip. With `by_hand` and `printer` backs are forms of their own; with `fold` front and back lie
/// on one side about a fold and `back` forms stay empty, as they do with `none`.
/// Copies of one deck stay together, decks in the order in which they first appear. A sheet whose
/// cards all have the same back carries it in every cell, so that such sheets can be exchanged.
///
/// Fails as `best_grid` does, and with `sheet.nothing-to-print` when there are no copies.
[[nodiscard]] Result<Plan> lay(const std::vector<Copy>& copies, const PieceFormat& piece,
                               const game::SheetWishes& wishes);

/// The order in which backs are to be printed: indices of sheets, a page of the backs file each;
/// empty when there is no backs file (`fold`, `none`).
///
/// By hand the sheet that lies on top of the tray is drawn in first. A pile that came out face down
/// has the last sheet on top and goes back as it lies: backs in reverse. A pile that came out
/// face up is turned over as a whole, which brings the first sheet to the top: backs in the same
/// order. Some trays draw from below; two sheets tried beforehand show it. Common practice, no
/// source. A printer that prints both sides itself takes the sheets in order.
[[nodiscard]] std::vector<int> backs_order(const Plan& plan);

/// Forms that are alike are written once: each with how often it is to be printed and the sheets
/// it serves. Forms with nothing on them are left out.
struct Distinct {
  int sheet = 0;            ///< index of the first sheet that has it
  std::vector<int> sheets;  ///< all of them
};
[[nodiscard]] std::vector<Distinct> distinct_backs(const Plan& plan);
[[nodiscard]] std::vector<Distinct> distinct_fronts(const Plan& plan);

enum class Side { front, back };

/// What the slug of one page says.
struct Slug {
  std::string game;   ///< title
  std::string sheet;  ///< "front 3 of 11"
  std::string stock;
  std::string next;          ///< what to do next
  std::string printer = {};  ///< which printer the sheet was made for
};

/// Crop marks outside the trims and never on a piece, fold marks, the 100 mm bar with its words,
/// register targets that lie over each other from both sides, and the slug: everything on a page
/// that is not a piece, inside the dead margins. `family` sets the slug's type. What there is no
/// room for is left out, and `check` says so. The back of a plan without back forms (`fold`,
/// `none`) has no marks.
[[nodiscard]] Scene marks(const Plan& plan, Side side, const Slug& slug, const std::string& family);

/// The map that takes a page place on the front to the place behind it on the back: a mirror about
/// the page's vertical centre line when the sheet is turned about its upright edge (the long edge
/// of portrait paper, the short edge of landscape paper), about the horizontal one otherwise.
[[nodiscard]] Affine behind(Size paper, game::FlipEdge flip);

/// What would go wrong at the printer and under the blade: `sheet.trim-in-dead-margin`,
/// `sheet.bleed-in-dead-margin`, `sheet.no-room-for-marks`, `sheet.no-room-for-slug`,
/// `sheet.neighbours-touch`, `sheet.narrow-gutter`, `sheet.back-bleed-cut`, `sheet.blank-backs`,
/// `sheet.backs-not-printed`, `sheet.backs-in-order`; all at the origin of the wishes.
[[nodiscard]] Diagnostics check(const Plan& plan);

}  // namespace quoin::sheets
