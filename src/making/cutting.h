#pragma once
#include <string>
#include <vector>

#include "base/result.h"
#include "cut/plan.h"
#include "game/game.h"
#include "pieces/box/box.h"
#include "sheets/sheets.h"

namespace quoin::making {

/// Sheets that are cut alike: their pieces lie in the same places.
struct SheetKind {
  std::vector<int> sheets;  ///< indices into the plan's sheets
  int pieces = 0;           ///< on each of them; on the fullest when `rides_along`
  /// How many of `sheets` hold fewer pieces, but are cut with the others since that takes no stack
  /// more: blank pieces come out of them.
  int riding_along = 0;
  cut::Plan cuts;
  cut::Piling piling;
};

/// The corners of all cards.
struct Corners {
  int punches = 0;
  Mm radius;
};

/// What is cut and scored by hand round one net of a box.
struct NetWork {
  std::string name;  ///< "box", "lid"
  int boxes = 1;     ///< how many of these nets there are
  int cuts = 0;      ///< straight strokes of the knife along a rule; a slit is one
  int curves = 0;    ///< rounded stretches, cut freehand or with scissors
  Mm cut_length;     ///< of all of them, one net
  int creases = 0;   ///< on one line they are one
  Mm crease_length;
  int seams = 0;
  double glued = 0;  ///< mm², one net
};

/// How a made game is cut.
struct Cutting {
  cut::Tool tool;
  game::CuttingTool kind = game::CuttingTool::rotary_trimmer;
  bool has_fence = true;
  Mm sheet;  ///< thickness of one sheet of the cards' stock
  std::vector<SheetKind> kinds;
  Corners corners;
  std::vector<NetWork> nets;
};

/// Cuts of all piles together, and how often the fence is set.
struct CutTotals {
  int cuts = 0, settings = 0, piles = 0;
};
[[nodiscard]] CutTotals totals(const Cutting& cutting);

/// The maker's tool: what is usual for its kind, with what [cutting] says instead. Without a fence
/// a distance is read off a rule at both ends, which strays by another 0.25 mm (a quarter of a
/// millimetre is the finest that a rule with millimetres is read; common practice, no source).
[[nodiscard]] cut::Tool tool_of(const game::CuttingWishes& wishes);
/// True when there is a stop to lay edges against; usual for all but knife and rule.
[[nodiscard]] bool has_fence(const game::CuttingWishes& wishes);

/// Thickness of a sheet of the cards' stock; 0.30 mm (a usual playing card) when nothing is known.
[[nodiscard]] Mm sheet_caliper(const game::Stock& stock);

/// A sheet as the blade sees it: where its pieces lie, in which places there is none.
[[nodiscard]] cut::Grid cut_grid(const sheets::Grid& grid, const std::vector<int>& copies);

/// The cuts for all sheets of a plan, and what is done by hand for cards and `boxes` boxes.
///
/// `cutting.no-fresh-edge`, and no kinds, when cards end where the paper ends;
/// `cutting.pile-too-high` when the maker's stack is higher than is usual for the tool;
/// `cutting.narrow-strip`, `cutting.punch-differs`, `cutting.no-punch`.
[[nodiscard]] Checked<Cutting> plan_cutting(const game::Game& game, const sheets::Plan& plan,
                                            const pieces::Box* box, int boxes);

/// What is cut and scored round one net.
[[nodiscard]] NetWork work_of(const fold::Net& net, int boxes);

}  // namespace quoin::making
