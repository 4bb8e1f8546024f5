#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "press/profile.h"

namespace quoin::press {

/// One sheet as it was measured: where its back lies behind its front, as in `Profile::back`.
struct SheetMeasured {
  Affine back;  ///< on the page frame of the front
  Mm within;    ///< the measuring's own bound at the worst corner, 95 in 100
  Mm residual;  ///< what the readings of this sheet are off the map, root of the mean square
};

/// What several sheets of one printer come to.
struct Measurement {
  Parts back;     ///< the mean
  Spread spread;  ///< of the sheets about the mean; 0 for a single one
  Mm within;      ///< bound of the mean by the measuring's own errors, at the worst corner
  double scale_x = 1, scale_y = 1;  ///< of the front
  std::vector<SheetMeasured> sheets;
};

/// A measurement that is more uncertain than this at a corner is no base for a correction.
inline constexpr Mm widest_bound{0.25};

/// The mean of the parts, each about the middle of the sheet; the spread as standard deviations
/// with n - 1. Sheets are measured each on its own, so that the bound of their mean is
/// sqrt(sum of squares) / n.
///
/// Fails with `press.not-sure-enough` above `widest_bound`. At least one sheet
/// (`std::logic_error`).
[[nodiscard]] Result<Measurement> combined(std::vector<SheetMeasured> sheets, Size paper);

/// The corners of what is printed on a sheet, 15 mm in: where a bound is worst.
[[nodiscard]] std::vector<Point> worst_corners(Size paper);

/// The measurement in words, a line each: "back 0.42 mm to the right and 0.31 mm up", …
[[nodiscard]] std::vector<std::string> measurement_words(const Measurement& measured);

/// The same of a printer that was measured earlier; no line for a bound that its file does not
/// give.
[[nodiscard]] std::vector<std::string> profile_words(const Profile& profile);

/// A profile with what was measured put in.
[[nodiscard]] Profile with(Profile profile, const Measurement& measured);

/// "0.42 mm to the right", "0.31 mm up", "0 mm".
[[nodiscard]] std::string across_words(Mm shift);
[[nodiscard]] std::string down_words(Mm shift);

}  // namespace quoin::press
