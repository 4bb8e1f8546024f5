#pragma once
#include <optional>
#include <vector>

#include "trace/pixels/grid.h"
#include "trace/tracing.h"

namespace quoin::trace {

/// A colour that changes over a region: along a line or outwards from a point.
struct Ramp {
  bool radial = false;
  Spot from, to;                ///< linear: first and last stop; radial: `from` is the centre
  double radius = 0;            ///< radial: of the last stop, pixels
  std::vector<double> offsets;  ///< 0..1, rising
  std::vector<Three> colours;   ///< sRGB 0..255 at each
  [[nodiscard]] double offset_of(Spot place) const;
  [[nodiscard]] Three at(Spot place) const;
};

/// A place and its colour in sRGB 0..255, and how the colour changes there along x and y.
struct ColourSample {
  Spot at;
  Three colour;
  Three across, down;  ///< for each pixel
};

/// A ramp through samples, with the mean distance of their colours from it.
struct FittedRamp {
  Ramp ramp;
  double misfit = 0;  ///< sRGB 0..255
};

/// The linear or radial ramp that fits best; radial only when it is clearly the better one. The
/// direction (or the centre) comes from how the colours change, and is then moved until colours of
/// one offset are as alike as they can be; stops are as few as keep within about a step of the mean
/// colours. Nothing for fewer than 60 samples or colours that do not change.
[[nodiscard]] std::optional<FittedRamp> fit_ramp(const std::vector<ColourSample>& samples,
                                                 double noise);

}  // namespace quoin::trace
