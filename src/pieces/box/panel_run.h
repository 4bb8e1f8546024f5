#pragma once
#include <optional>
#include <string>
#include <vector>

#include "pieces/box/printed_net.h"

namespace quoin::pieces {

/// Panels of a run that lie in one piece on the net.
struct RunStretch {
  std::vector<int> panels;
  Affine to_net;            ///< from the run's frame to the net's
  std::vector<Region> ink;  ///< on the net: where the run is printed
};

/// One panel, or several that one drawing covers round the corners. Its frame: x right and y down
/// as it is read upright on the closed box, the origin at its top left corner, panels side by side
/// as they are seen when the box is turned round.
struct PanelRun {
  std::vector<int> panels;
  Size size;
  std::vector<RunStretch> stretches;  ///< more than one where the net is cut at the glued seam
  std::vector<Polygon> outlines;      ///< of `panels`, in the run's frame
  /// Which stretch each of `panels` lies in.
  std::vector<int> stretch_of;
};

/// Ink goes this far over a crease: where two panels have art of their own, no hair of paper is
/// left between them (a trap; 0.05 to 0.15 mm are common practice, no source). No fold is that
/// true.
inline constexpr Mm crease_trap{0.1};

/// Two panels of a run of which the second does not follow the first.
struct PanelBreak {
  int first = 0, second = 0;
  std::vector<int> followers;  ///< the panels that do follow the first
};

/// The run of these panels, from left to right or from top to bottom as they are read; each follows
/// the one before it at a crease, or at a seam where cut edges meet on the closed box. At least one
/// panel. Nothing, with `gap` filled, when two do not follow each other.
///
/// Ink reaches `bleed` past edges that are cut, each panel over its own; it ends a `crease_trap`
/// beyond creases to panels that are not of the run, and keeps off the glue.
[[nodiscard]] std::optional<PanelRun> lay_run(const PrintedNet& net, const std::vector<int>& panels,
                                              Mm bleed, std::optional<PanelBreak>& gap);

/// What the closed box keeps together: the panels that share a crease with that one.
[[nodiscard]] std::vector<int> creased_to(const PrintedNet& net, int panel);

}  // namespace quoin::pieces
