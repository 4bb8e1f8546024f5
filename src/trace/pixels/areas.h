#pragma once
#include "trace/pixels/noise.h"
#include "trace/pixels/ramp.h"
#include "trace/pixels/regions.h"
#include "trace/pixels/source.h"
#include "trace/redraw.h"

namespace quoin::trace {

/// A picture cut into regions of one colour, with all that was found on the way.
struct Areas {
  int scale = 2;
  Noise noise;
  Grid<Rgb> pixels, enlarged;  ///< noise taken away
  Grid<Three> lab;
  Core core;
  Palette palette;
  Regions regions;
  std::vector<SmallText> small_text;
  bool has_alpha = false;                  ///< some of it is transparent
  std::vector<std::optional<Ramp>> ramps;  ///< of each region

  [[nodiscard]] Coloured coloured() const { return {pixels, enlarged, lab, core, palette, scale}; }
};

[[nodiscard]] Areas find_areas(const Source& source, const TraceWishes& wishes, int scale);

/// Joins the bands of gradients (see join_bands).
void join_shades(Areas& areas, const Source& source);

}  // namespace quoin::trace
