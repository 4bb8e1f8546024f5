#pragma once
#include "trace/pixels/ramp.h"
#include "trace/pixels/regions.h"

namespace quoin::trace {

/// What each region is painted with, in sRGB 0..255; places are pixels of the picture.
struct SideColours {
  std::vector<Three> labels;               ///< of each colour of the palette
  std::vector<double> alpha;               ///< of each colour of the palette, 0..1
  std::vector<Three> plain;                ///< of each region
  std::vector<std::optional<Ramp>> ramps;  ///< of each region
  [[nodiscard]] Three of(int region, Spot place) const {
    const std::size_t i = std::size_t(region);
    if (ramps[i]) return ramps[i]->at(place);
    return plain[i];
  }
};

/// The colour of each label: of each channel the median over cells well inside its regions; the
/// palette's own where there are too few. In a noisy picture nearly white is white and nearly black
/// black.
[[nodiscard]] std::vector<Three> label_colours(const Regions& regions, const Coloured& picture,
                                               double noise);

}  // namespace quoin::trace
