#pragma once
#include "trace/outline/cracks.h"
#include "trace/tracing.h"

namespace quoin::trace {

/// Makes circles of small round spots: those under 40 square pixels whose pixels say so. Centre and
/// size come from how much of the spot's colour each pixel has, so that a dot of one pixel keeps
/// its place and its weight.
void round_dots(std::vector<Border>& borders, const CrackMap& map, const Regions& regions,
                const Coloured& picture, const SideColours& colours);

/// Draws a border as a circle, in the direction in which its chain runs.
void make_circle(Border& border, const Chain& chain, const Circle& circle);

}  // namespace quoin::trace
