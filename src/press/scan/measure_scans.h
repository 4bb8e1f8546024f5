#pragma once
#include <string>
#include <vector>

#include "press/measurement.h"
#include "press/scan/read_side.h"

namespace quoin::press {

/// What both pictures of a sheet share: holes through it, or its own edges.
enum class Reference { pinholes, edges };

/// One sheet from its two pictures.
struct ScanMeasured {
  SheetMeasured sheet;
  Reference reference = Reference::pinholes;
  int references = 0;
  Size paper;
  game::FlipEdge flip = game::FlipEdge::long_edge;  ///< about which it was turned: pinholes tell
};

/// The deviation of one corner of the paper in one coordinate, when edges are the reference: lid
/// and lamp put an edge 0.05 mm off in each scan (assumed, not measured).
inline constexpr Mm corner_error{0.07};
/// One pinhole's, for the needle's slant and burr (assumed), known as well as from four more holes.
inline constexpr Mm pinhole_error{0.06};
inline constexpr double pinhole_worth = 8;
/// A sheet that does not lie flat is off by so many times more at its edge than its dots are, on
/// the average, from their map. By simulation of sheets that curl by up to 0.4 mm at one edge, see
/// docs/decisions/reading-scans.md.
inline constexpr double bend_at_edge = 4;
inline constexpr Mm most_reference_residual{0.15};
inline constexpr Mm farthest_shift{8};

/// Where the back lies behind the front. Pinholes are taken when four or more are seen on both
/// sides; then the fit's own residuals bound it (`bound`). Else the corners of the paper, with
/// `corner_error` as known; the edge that the sheet was turned about cannot be seen from those, and
/// `flip` is believed.
///
/// Fails with `press.scan-wrong-side` (at the picture that shows the wrong one),
/// `press.scan-without-reference`, `press.scan-reference-apart`, `press.scan-shift-too-large` and
/// `press.not-sure-enough`.
[[nodiscard]] Result<ScanMeasured> measure_pair(const SideSeen& front, const SideSeen& back,
                                                game::FlipEdge flip, FileName front_file,
                                                FileName back_file);

}  // namespace quoin::press
