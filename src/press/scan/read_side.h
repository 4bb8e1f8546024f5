#pragma once
#include <array>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "press/scan/plane_map.h"
#include "press/sheet_layout.h"

namespace quoin::press {

/// One side of a measuring sheet as a picture shows it.
struct SideSeen {
  SheetSide side = SheetSide::front;
  SheetLayout layout;
  Perspective perspective = Perspective::none;
  PlaneMap map;  ///< page frame of this side -> picture
  int dots = 0;  ///< found and kept
  Mm residual;   ///< of the dots, root of the mean square
  /// Holes at the pin targets, in this side's page frame as its own print has it, by the target's
  /// index. On a back a target has two places, as the sheet was turned about one edge or the other.
  std::map<int, Point> pins, pins_if_short_edge;
  std::optional<std::array<Point, 4>> corners;  ///< of the paper, in the same frame
};

/// Limits of what is taken for a sheet that can be measured: found by simulation
/// (docs/decisions/reading-scans.md).
inline constexpr int fewest_dots = 14;
inline constexpr Mm most_dot_residual{0.035};  ///< flat, as a scanner sees it
inline constexpr Mm most_residual_in_perspective{0.02};
inline constexpr double fewest_pixels_per_mm = 100 / mm_per_inch;
inline constexpr double most_uneven_scale = 0.03, most_skew = 0.01;

/// Finds the marks of a measuring sheet on any of the papers in a picture, and how they lie. The
/// picture may lie any way round.
///
/// Fails, at `file`, with the first of `press.scan-without-marks`, `press.scan-mirrored`,
/// `press.scan-too-coarse`, `press.scan-marks-lost`, `press.scan-not-flat`, `press.scan-odd-size`.
[[nodiscard]] Result<SideSeen> read_side(const GreyImage& image, const std::vector<Size>& papers,
                                         FileName file);

}  // namespace quoin::press
