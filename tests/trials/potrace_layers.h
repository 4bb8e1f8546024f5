#pragma once
#include <vector>

#include "geometry/path.h"
#include "trace/redraw.h"

namespace quoin::trials {

/// What libpotrace made of a picture.
struct PotraceDrawing {
  Bytes svg;
  int segments = 0;
};

/// A layer for each colour, the largest first, each reaching one pixel under those that follow: the
/// same areas of colour, outlined by libpotrace with its own optimisation of curves.
[[nodiscard]] PotraceDrawing potrace_layers(const trace::ColourAreas& areas);

/// The outlines that libpotrace draws round the cells of `colour`, in pixels of the picture (one
/// millimetre each).
[[nodiscard]] Path potrace_outline(const trace::ColourAreas& areas, int colour);

}  // namespace quoin::trials
