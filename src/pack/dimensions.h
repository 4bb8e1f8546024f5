#pragma once
#include "pack/net_lines.h"

namespace quoin::pack {

/// Dimension lines of a net in its own frame, on the layer `dimension`: how wide and high the whole
/// is, outside of it, and within each panel how wide and how high that is, from crease to crease or
/// edge. Arrows, and numbers in millimetres to a hundredth. A panel under 4 mm has the longer of
/// its two only. `off` is how far the outer lines keep from the net: clear of its bleed.
[[nodiscard]] std::vector<Item> dimensions(const fold::Net& net, Mm off);

/// How far outside of `off` the outer lines and their numbers reach.
inline constexpr Mm dimension_reach{5};

}  // namespace quoin::pack
