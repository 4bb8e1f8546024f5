#pragma once
#include "trace/outline/fit.h"
#include "trace/outline/settle.h"

namespace quoin::trace {

/// Fits all chains: borders in the same order, their faces the regions on either side.
///
/// Where three meet and two of them run on nearly straight (within 28 degrees), those two share
/// their direction. Rings that are circles to within the tolerance become circles.
[[nodiscard]] std::vector<Border> fit_borders(const CrackMap& map, const FitRules& rules);

}  // namespace quoin::trace
