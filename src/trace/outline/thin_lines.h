#pragma once
#include "trace/outline/fit.h"
#include "trace/pixels/areas.h"

namespace quoin::trace {

/// A thin line found in a picture, not yet part of a drawing.
struct ThinLine {
  StrokeLine stroke;
  Three colour;  ///< sRGB 0..255
};

/// Finds lines of even width up to 2.5 pixels that run over one ground, and closes the ground over
/// them in the regions of `areas`.
///
/// A line is followed along its ridge. Its middle and its width come from how much darker (or
/// lighter) the pixels across it are in all: so a line thinner than a pixel, which no pixel shows
/// in its own colour, keeps its weight. Its colour is the palette's nearest along the same mixture,
/// else the strongest that it shows. What is shorter than 10 pixels or six times its width, or
/// changes its width by more than a quarter, stays a face.
[[nodiscard]] std::vector<ThinLine> take_thin_lines(Areas& areas, const FitRules& rules);

}  // namespace quoin::trace
