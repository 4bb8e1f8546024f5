#pragma once
#include "trace/pixels/regions.h"
#include "trace/tracing.h"

namespace quoin::trace {

/// Lines of lettering too small to be followed, and the labels without them.
struct Lettering {
  std::vector<SmallText> lines;
  Grid<int> labels;  ///< empty when there are no lines
};

/// Finds small lettering: spots of at most 12 pixels' height side by side on one ground, four or
/// more to a line, with outlines as long for their area as those of letters are and of windows or
/// dots are not. The ground closes over them.
[[nodiscard]] Lettering find_lettering(const Regions& regions, int scale);

}  // namespace quoin::trace
