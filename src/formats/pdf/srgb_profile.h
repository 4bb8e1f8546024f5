#pragma once
#include "base/world.h"

namespace quoin::pdf {

/// An ICC profile of the sRGB space, always the same bytes: matrix and curves, version 2.1 so
/// that every print system reads it, 1024 steps to a curve, dated to the first of January 2000.
///
/// Sources: IEC 61966-2-1 for curve and primaries; ICC.1:1998-09 for the layout; the primaries are
/// adapted to the profile's D50 white with the Bradford matrix, as ICC.1:2022 annex E asks.
[[nodiscard]] const Bytes& srgb_profile();

}  // namespace quoin::pdf
