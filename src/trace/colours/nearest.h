#pragma once
#include <optional>
#include <vector>

#include "media/colour.h"

namespace quoin::trace {

/// The colour of the palette that is nearest to one, when it is nearer than `reach` (CIEDE2000).
[[nodiscard]] inline std::optional<Colour> nearest_within(const std::vector<Colour>& palette,
                                                          Colour colour, double reach) {
  const Lab lab = to_lab(colour);
  double least = reach;
  std::optional<Colour> nearest;
  for (const Colour& one : palette) {
    const double off = ciede2000(lab, to_lab(one));
    if (off >= least) continue;
    least = off;
    nearest = one;
  }
  return nearest;
}

}  // namespace quoin::trace
