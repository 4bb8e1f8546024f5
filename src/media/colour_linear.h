#pragma once
#include <array>

#include "media/colour.h"

namespace quoin {

/// The transfer function of IEC 61966-2-1 and its inverse, for one part 0..1.
[[nodiscard]] double linear_from_srgb(double part);
[[nodiscard]] double srgb_from_linear(double part);

/// Red, green and blue in linear light; alpha is left out.
[[nodiscard]] std::array<double, 3> linear(Colour colour);

}  // namespace quoin
