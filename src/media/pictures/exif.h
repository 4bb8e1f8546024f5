#pragma once
#include <string_view>

namespace quoin::pictures {

/// The orientation 1..8 that an Exif block (starting at its TIFF header "II*" or "MM") gives for
/// the picture; 1 when it gives none or is not sound.
/// Source: CIPA DC-008 "Exif 2.32", tag 0x0112 of the 0th IFD; TIFF 6.0 for the header.
[[nodiscard]] int exif_orientation(std::string_view tiff_block);

/// Whether that orientation swaps width and height (5..8 do).
[[nodiscard]] constexpr bool turns_sideways(int orientation) { return orientation >= 5; }

}  // namespace quoin::pictures
