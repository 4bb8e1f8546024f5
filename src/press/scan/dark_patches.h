#pragma once
#include <vector>

#include "press/scan/grey_image.h"

namespace quoin::press {

/// A stretch of dark pixels in one row: from `from` to before `to`.
struct DarkRun {
  int row = 0, from = 0, to = 0;
};

/// Dark pixels that touch, by a side or a corner.
struct DarkPatch {
  int left = 0, top = 0, right = 0, bottom = 0;  ///< bounds; right and bottom lie beyond the last
  std::vector<DarkRun> runs;                     ///< by rows, from the top
};

/// Sizes of patches that are wanted, in pixels: of the longer side of their bounds.
struct PatchSizes {
  int least = 1, most = 1;
};

/// All patches darker than `part` of the mean brightness within `reach` pixels round each, of sizes
/// that are wanted, in the order of their first pixels.
[[nodiscard]] std::vector<DarkPatch> dark_patches(const GreyImage& image, int reach, double part,
                                                  PatchSizes sizes);

}  // namespace quoin::press
