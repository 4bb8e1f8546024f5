#pragma once
#include <vector>

#include "media/colour.h"
#include "media/picture.h"

namespace quoin::trace {

/// The picture with its plain areas in the colours of `palette`.
///
/// A plain area whose mean is within `reach` (CIEDE2000, 0 or more) of a colour of the palette
/// takes the nearest of them exactly. Pixels along an edge are mixed anew, in the same parts, from
/// the new colours on either side. Gradients, and areas out of reach, stay as they are; so does
/// alpha. An empty palette, or a reach of 0, changes nothing.
[[nodiscard]] Raster pull(const Raster& picture, const std::vector<Colour>& palette, double reach);

}  // namespace quoin::trace
