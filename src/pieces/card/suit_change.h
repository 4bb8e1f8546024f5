#pragma once
#include <optional>
#include <vector>

#include "media/colour.h"

namespace quoin::pieces {

/// The least CIEDE2000 of two colours, as they are and as seen with each of three colour-vision
/// deficiencies.
[[nodiscard]] double least_difference(Colour a, Colour b);

/// A colour near `own` that differs from each of `others` by `limit` or more for all eyes, by
/// `least_difference`. It is a colour that "#rrggbb" can write, so what is promised holds as typed.
///
/// Of all changes the smallest is sought (CIEDE2000 from `own`), by the steps of a grid that is
/// made finer about what was found. A change of lightness alone is preferred while it is not over
/// half as much again. Nothing when no colour of sRGB is far enough from all of them.
[[nodiscard]] std::optional<Colour> safe_change(Colour own, const std::vector<Colour>& others,
                                                double limit);

}  // namespace quoin::pieces
