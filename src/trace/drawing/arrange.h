#pragma once
#include "trace/outline/cracks.h"
#include "trace/tracing.h"

namespace quoin::trace {

/// Puts faces and layers in an order in which no renderer shows a gap.
///
/// `tracing` has borders (one for each chain of `map`, faces the numbers of regions), faces (layer
/// and area) and layers (name and fill). Layers are ordered so that, as far as they can be, what
/// surrounds comes before what it surrounds: then no hole is cut, and an edge is blended once.
/// Where a neighbour comes later otherwise, a face reaches beneath it along their border
/// (`trapped`). Nothing reaches beneath what is transparent, wholly or partly. (Anti-aliasing two
/// sides of a border apart lets the page through: measured on 1 % of pixels for a perfect planar
/// map.)
void arrange(Tracing& tracing, const CrackMap& map);

}  // namespace quoin::trace
