#pragma once
#include <array>
#include <string>
#include <vector>

#include "cut/plan.h"

namespace quoin::cut {

/// What lies on the table when all cuts of a plan were made on one sheet.
struct Cuttings {
  std::vector<Rect> pieces;  ///< those of the grid, whole
  std::vector<Rect> waste;
  /// What went wrong, a line each: a cut of something that does not lie there, a fence edge that no
  /// cut made, a setting that is not where the cut is, a piece that is cut through or left uncut.
  /// Empty for a sound plan.
  std::vector<std::string> faults;
};

/// Makes the cuts of a plan one after another on a sheet of paper.
[[nodiscard]] Cuttings simulate(const Plan& plan);

/// A piece of paper that lies on the table, in the frame of the printed sheet.
struct Board {
  Rect at;
  std::array<bool, 4> fresh{};  ///< by Edge: which of its edges a cut of the plan made
};

/// What lies on the table before a step of a sound plan, waste and all; after all of them when
/// `step` is their number.
[[nodiscard]] std::vector<Board> boards_before(const Plan& plan, std::size_t step);

/// How far the edges of one finished piece lie from where they were printed: standard deviations of
/// independent errors, carried along from cut to cut.
///
/// A cut by a mark is off by the tool's `mark`; one by the fence by its `setting` and by as much as
/// the edge at the fence. variance(edge) = variance(fence edge) + setting² (propagation of
/// uncertainty, JCGM 100:2008, 5.1.2, for a sum of independent quantities).
struct EdgeErrors {
  int column = 0, row = 0;
  Mm left, top, right, bottom;
};
[[nodiscard]] std::vector<EdgeErrors> edge_errors(const Plan& plan, const Tool& tool);

/// The largest of all edges' errors.
[[nodiscard]] Mm worst_edge(const std::vector<EdgeErrors>& errors);

}  // namespace quoin::cut
