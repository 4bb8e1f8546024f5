#pragma once
#include "trace/pixels/labels.h"

namespace quoin::trace {

/// Moves cells to other colours where a pixel is not what its cells would mix to.
///
/// A cell that is a pixel's quarter can be a stripe between two dark lines, or a dot, that no pixel
/// shows in its own colour: only the sum tells. The energy is the squared error of each pixel's
/// mixture (sRGB, area-weighted as renderers average) and a price for each side between cells of
/// two colours; it is lowered cell by cell among the colours round the cell (iterated conditional
/// modes: Besag, "On the Statistical Analysis of Dirty Pictures", Journal of the Royal Statistical
/// Society B 48(3), 1986). Pixels that are explained well already, and their cells, stay as they
/// are. For pictures without noise.
void explain_pixels(Grid<int>& cells, const Coloured& picture);

/// Colours in L*a*b* that pixels have in eight places or more and that neither the palette has nor
/// two colours round the pixel can mix: those of stripes and dots too narrow for a pixel of their
/// own. At most `most`.
[[nodiscard]] std::vector<Three> missing_colours(const Grid<int>& cells, const Coloured& picture,
                                                 int most);

}  // namespace quoin::trace
