#pragma once
#include "trace/pixels/ramp.h"
#include "trace/pixels/regions.h"

namespace quoin::trace {

/// Regions whose pixels have several colours: areas that were made one before their borders are
/// drawn.
struct MixedRegions {
  Grid<int> of;                ///< the region of each cell
  Grid<int> part;              ///< the part of a region that each cell lies in
  std::vector<Three> plain;    ///< of each part, sRGB 0..255
  std::vector<char> is_mixed;  ///< of each region: whether it has several parts
  int scale = 2;               ///< cells along one side of a pixel
  /// The colour of the region's parts that are nearest to a place of the picture, mixed where two
  /// meet there; nothing when the region is more than 3 pixels off.
  [[nodiscard]] std::optional<Three> at(int region, Spot place) const;
};

/// What each region is painted with, in sRGB 0..255; places are pixels of the picture.
struct SideColours {
  std::vector<Three> labels;               ///< of each colour of the palette
  std::vector<double> alpha;               ///< of each colour of the palette, 0..1
  std::vector<Three> plain;                ///< of each region
  std::vector<std::optional<Ramp>> ramps;  ///< of each region
  /// Where areas of several colours were made one: what the pixels have at each place.
  std::optional<MixedRegions> mixed;
  [[nodiscard]] Three of(int region, Spot place) const {
    const std::size_t i = std::size_t(region);
    if (ramps[i]) return ramps[i]->at(place);
    if (mixed && mixed->is_mixed[i]) return mixed->at(region, place).value_or(plain[i]);
    return plain[i];
  }
};

/// The colour of each label: of each channel the median over cells well inside its regions; the
/// palette's own where there are too few. In a noisy picture nearly white is white and nearly black
/// black.
[[nodiscard]] std::vector<Three> label_colours(const Regions& regions, const Coloured& picture,
                                               double noise);

}  // namespace quoin::trace
