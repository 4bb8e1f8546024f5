#pragma once
#include <array>
#include <optional>

#include "press/scan/plane_map.h"

namespace quoin::press {

/// The corners of the sheet itself (top left, top right, bottom right, bottom left of its page
/// frame, which `sheet` takes to the picture), where lines through its four edges meet. Each edge
/// is looked for within 4.5 mm of where the print says that it is, on 200 lines across it: the
/// outermost place half way from what lies behind the sheet to its paper. Nothing when an edge lies
/// outside the picture, is no straight line, or does not stand out from what lies behind it.
[[nodiscard]] std::optional<std::array<Pixel, 4>> find_corners(const GreyImage& image,
                                                               const PlaneMap& sheet, Size paper);

}  // namespace quoin::press
