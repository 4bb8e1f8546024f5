#pragma once
#include "trace/pixels/core.h"
#include "trace/pixels/palette.h"

namespace quoin::trace {

/// A picture with its colours found, on the way to areas.
struct Coloured {
  const Grid<Rgb>& pixels;    ///< as they are traced, noise taken away
  const Grid<Rgb>& enlarged;  ///< `scale` times as many along each side
  const Grid<Three>& lab;     ///< of `pixels`
  const Core& core;
  const Palette& palette;
  int scale = 2;
};

/// The colour of each cell of the enlarged picture, as an index into the palette.
///
/// Core pixels have their nearest colour, thin strokes the one that explains them best as a mixture
/// with their surroundings. Any other cell may choose only among colours met along its gradient, up
/// to 3 pixels away, else in a growing window: so that a mixture of two colours is never taken for
/// a third that happens to look like it.
[[nodiscard]] Grid<int> label_cells(const Coloured& picture);

}  // namespace quoin::trace
