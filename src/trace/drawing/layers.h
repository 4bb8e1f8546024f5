#pragma once
#include "trace/drawing/exchange.h"
#include "trace/outline/side_colours.h"
#include "trace/outline/thin_lines.h"
#include "trace/pixels/areas.h"

namespace quoin::trace {

/// What the areas of each colour are painted with.
[[nodiscard]] Paints paints_of(const Areas& areas, const Source& source);

/// Gives the tracing a face for each region and a layer for each colour that is used, named in
/// words; what is transparent gets no layer. Answers what the regions have on the opaque ground
/// that the pixels are composited on.
[[nodiscard]] SideColours make_layers(Tracing& tracing, const Areas& areas, const Paints& paints);

/// Puts lines into layers of their own above all others, one for each colour.
void add_lines(Tracing& tracing, const std::vector<ThinLine>& lines);

}  // namespace quoin::trace
