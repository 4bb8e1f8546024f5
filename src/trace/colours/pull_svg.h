#pragma once
#include <vector>

#include "base/world.h"
#include "media/colour.h"

namespace quoin::trace {

/// An SVG with its colours pulled to others.
struct PulledSvg {
  Bytes svg;
  int changed = 0;  ///< colours in its text
};

/// Changes each colour that an SVG writes as #rgb, #rrggbb or rgb(r, g, b) in `fill`, `stroke`,
/// `color`, `stop-color`, `flood-color` or `lighting-color`, as an attribute or in a style, to the
/// nearest of the palette when that is nearer than `reach` (CIEDE2000). Nothing else of the text is
/// touched; colours called by a name stay. `reach` from 0, which changes nothing, to 100.
[[nodiscard]] PulledSvg pull_svg(const Bytes& svg, const std::vector<Colour>& palette,
                                 double reach);

}  // namespace quoin::trace
