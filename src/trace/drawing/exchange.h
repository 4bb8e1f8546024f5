#pragma once
#include <utility>
#include <vector>

#include "trace/outline/side_colours.h"
#include "trace/outline/thin_lines.h"
#include "trace/pixels/areas.h"

namespace quoin::trace {

/// What the areas of each colour of the palette are painted with.
struct Paints {
  std::vector<Three> on_ground;  ///< sRGB 0..255, as on the opaque ground of the pixels
  std::vector<double> alpha;     ///< 0..1
  std::vector<Colour> drawn;     ///< as it stands in the drawing
};

/// What an exchange of colours did.
struct Exchange {
  std::vector<Colour> unknown;        ///< colours that the drawing does not have
  std::vector<Colour> known;          ///< those that it has, when some were unknown
  std::optional<MixedRegions> mixed;  ///< when areas were made one
};

/// Paints the areas, whose labels are places in `palette`, with just its colours, and each line
/// with the nearest of them (CIEDE2000). Where borders run follows from the pixels as before.
void keep_to(const std::vector<Colour>& palette, Paints& paints, std::vector<ThinLine>& lines);

/// Gives areas and lines of one colour another one: `instead` has pairs of what is there and what
/// takes its place. A colour is met when it is written as it is drawn, to 8 bits a channel, else by
/// the nearest within a CIEDE2000 of 1. All pairs speak of the colours before the exchange, so two
/// can change places. Areas that then have one colour are made one. Gradients stay.
[[nodiscard]] Exchange exchange_colours(const std::vector<std::pair<Colour, Colour>>& instead,
                                        Areas& areas, Paints& paints, std::vector<ThinLine>& lines);

}  // namespace quoin::trace
