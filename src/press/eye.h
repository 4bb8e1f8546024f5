#pragma once
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "press/measurement.h"
#include "press/sheet_layout.h"

namespace quoin::press {

/// What one measuring sheet was read as, against the light, in the reader's own words.
struct EyeSheet {
  char behind_a = 0;  ///< the letter behind A, in capitals; 0: not said
  std::array<std::string, 8>
      scales;  ///< of (1) to (8), as `offset_in_words` takes them; "" missing
};

/// What a ruler says of the bars, of one sheet after the other, as `length_in_words` takes it; ""
/// where a sheet's bar was not measured.
struct BarReadings {
  std::vector<std::string> bar_150, bar_200;
};

/// How large fronts come out across and down: the mean of the readings, 1 for a bar without any.
struct FrontScale {
  double x = 1, y = 1;
};
/// Fails with `press.reading-not-understood`, and with `press.reading-out-of-range` for what is 3
/// in 100 off, which tells of inches and centimetres taken for millimetres.
[[nodiscard]] Result<FrontScale> scale_of_bars(const BarReadings& readings, Size paper);

/// How sure a line is read: half a step of 0.05 mm, taken as one standard deviation for all that
/// paper blurs (common practice, no source).
inline constexpr Mm reading_error{0.05};

/// Fits the full affine map from all sheets' readings: across and down each a plane over the four
/// corners. A sheet's bound is `four_place_quantile` times the error of the mapped place at the
/// worst corner, where one reading's error is the larger of `reading_error` and what the residuals
/// say.
///
/// All that is wrong is found in one run, each at its sheet ("sheet 2") and what of it was read
/// ("letter", "scale 3", "scales across", "scales down", "bar 150"):
/// `press.reading-missing`, `press.reading-not-understood`, `press.reading-out-of-range` (with
/// what was meant when it looks like inches or centimetres), `press.readings-disagree` (four
/// corners that no flat sheet gives), `press.turned-otherwise`, `press.not-sure-enough`.
[[nodiscard]] Result<Measurement> measure_by_eye(const std::vector<EyeSheet>& sheets,
                                                 const BarReadings& bars, const SheetLayout& layout,
                                                 game::FlipEdge flip);

/// One scale as people write it: the number of the line that meets its fellow, "3", "-2", "3 or 4";
/// where lines of different numbers meet, that of the front and that of the back, "4:3". As how far
/// the back lies to the right, or down: front line · 1 mm - back line · 0.95 mm. Nothing when it is
/// not understood.
[[nodiscard]] std::optional<Mm> offset_in_words(std::string_view words);

}  // namespace quoin::press
