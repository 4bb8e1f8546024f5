#pragma once
#include <array>
#include <vector>

#include "press/scan/grey_image.h"
#include "press/sheet_layout.h"

namespace quoin::press {

/// A code mark as it was seen in a picture.
struct CodeSeen {
  int number = 0;
  bool mirrored = false;
  int wrong_bits = 0;  ///< of 25, at most `most_wrong_bits`
  /// Its corners as printed: top left, top right, bottom right, bottom left of the upright mark.
  std::array<Pixel, 4> corners;
};

/// Any two codes differ in 8 bits, so that two wrong ones leave no doubt.
inline constexpr int most_wrong_bits = 2;

/// Finds the code marks of a measuring sheet, upright or turned any way, mirrored ones too. Marks
/// are looked for whose sides take up 1.2 to 12 in 100 of the picture's longer side.
///
/// Dark is what is darker than four fifths of its surroundings' mean; each dark patch is taken as a
/// square by its farthest points, and its modules are read where a square seen in perspective has
/// them. Corners are good to about a pixel: enough to find the dots from.
[[nodiscard]] std::vector<CodeSeen> find_codes(const GreyImage& image);

}  // namespace quoin::press
