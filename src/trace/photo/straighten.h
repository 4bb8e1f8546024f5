#pragma once
#include <cstdint>

#include "trace/photo/find_cards.h"

namespace quoin::trace {

/// What becomes of the pixels outside a card's round corners.
enum class OutsideCorners {
  as_seen,  ///< the table, as it was photographed
  filled    ///< the colour of the card's border beside them, which also takes the mixed rim
};

inline constexpr std::int64_t most_straightened_pixels = 40'000'000;  // above, it is made smaller

/// The card square and flat: tilt, turn and the bow of the lens undone.
///
/// As many pixels as the card had in the picture and no more (the square root of its area there
/// over that of the shape, along both sides). Whole: its corners are square, so that it can be
/// printed with bleed and trimmed. `shape` gives the proportion; its long side goes where the long
/// side of the card lies. Interpolated by bicubic weights; what lies outside the picture takes the
/// nearest pixel.
///
/// The homography is solved from the four corners (Hartley and Zisserman, "Multiple View Geometry",
/// 2nd edition, 4.1).
[[nodiscard]] Raster straighten(const Raster& picture, const FoundCard& card,
                                const CardShape& shape,
                                OutsideCorners outside = OutsideCorners::as_seen);

/// Pixels to an inch that a straightened card has when it is printed at the size of `shape`.
[[nodiscard]] double printed_ppi(const Raster& straightened, const CardShape& shape);

/// Whether the card stands wide once straightened: its first side is the longer one.
[[nodiscard]] bool stands_wide(const FoundCard& card, const CardShape& shape);

}  // namespace quoin::trace
