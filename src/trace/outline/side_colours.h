#pragma once
#include <optional>
#include <vector>

#include "trace/pixels/regions.h"
#include "trace/tracing.h"

namespace quoin::trace {

/// A colour that changes over a region: along a line or outwards from a point.
struct Ramp {
  bool radial = false;
  Spot from, to;                ///< linear: first and last stop; radial: `from` is the centre
  double radius = 0;            ///< radial: of the last stop
  std::vector<double> offsets;  ///< 0..1, rising
  std::vector<Three> colours;   ///< sRGB 0..255 at each
  [[nodiscard]] Three at(Spot place) const;
};

/// What each region is painted with, in sRGB 0..255; places are pixels of the picture.
struct SideColours {
  std::vector<Three> labels;               ///< of each colour of the palette
  std::vector<double> alpha;               ///< of each colour of the palette, 0..1
  std::vector<Three> plain;                ///< of each region
  std::vector<std::optional<Ramp>> ramps;  ///< of each region; empty: all are plain
  [[nodiscard]] Three of(int region, Spot place) const {
    const std::size_t i = std::size_t(region);
    if (!ramps.empty() && ramps[i]) return ramps[i]->at(place);
    return plain[i];
  }
};

/// The colour of each label: of each channel the median over cells well inside its regions; the
/// palette's own where there are too few. In a noisy picture nearly white is white and nearly black
/// black.
[[nodiscard]] std::vector<Three> label_colours(const Regions& regions, const Coloured& picture,
                                               double noise);

}  // namespace quoin::trace
