#pragma once
#include <cstdint>
#include <optional>

#include "pieces/card/inspect.h"

namespace quoin::pieces {

/// The one flat colour (0xRRGGBB) that a face has along its whole edge, from the bleed's outside to
/// 1 mm inside the trim; nothing when the edge shows more than one. Colours within 3 of 255 in
/// each part count as one.
///
/// Cards whose edges all have the same one may touch on the sheet: a cut that wanders shows the
/// neighbour's edge, which looks like their own.
[[nodiscard]] std::optional<std::uint32_t> edge_colour(const FaceLook& look);

/// True when both are one flat colour and the same, by the tolerance above.
[[nodiscard]] bool edges_alike(std::optional<std::uint32_t> a, std::optional<std::uint32_t> b);

}  // namespace quoin::pieces
