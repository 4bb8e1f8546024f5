#pragma once
#include "trace/pixels/ramp.h"
#include "trace/pixels/regions.h"
#include "trace/pixels/source.h"

namespace quoin::trace {

/// Joins regions that are bands of one gradient and finds what they are painted with.
///
/// Two regions are bands of one when their border shows no step: the colour changes across 3 pixels
/// of it no more than the slopes on either side let expect. A ramp is taken when it fits clearly
/// better than plain bands; regions that do not fit are left out and tried on their own. Joined
/// regions have the label -1. Answers the ramp of each region, where it has one.
[[nodiscard]] std::vector<std::optional<Ramp>> join_bands(Regions& regions, const Coloured& picture,
                                                          const Source& source, double noise);

}  // namespace quoin::trace
