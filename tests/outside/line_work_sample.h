#pragma once
#include "formats/drawing.h"

namespace quoin::outside {

/// A small net, 120 x 80 mm with its origin at (-10, -10): a rounded outline with a slit and a
/// round hole, two creases and a glue area, all of known lengths.
struct LineWorkSample {
  [[nodiscard]] static Drawing drawing();
  static constexpr Mm corner{6}, hole{8};  ///< radii
  /// Outline 100 x 60 mm, slit 20 mm, hole.
  [[nodiscard]] static double cut_length();
  static constexpr double crease_length = 120, glue_length = 140;
};

}  // namespace quoin::outside
