#pragma once
#include "trace/pixels/core.h"

namespace quoin::trace {

/// The colours of a picture.
struct Palette {
  std::vector<Three> lab, srgb;
  double radius = 6;  ///< dE76 within which shades were taken for one colour
  [[nodiscard]] int size() const { return static_cast<int>(lab.size()); }
  /// The colour nearest to one in L*a*b*.
  [[nodiscard]] int nearest(Three colour) const;
};

/// Finds the peaks among the colours of the core pixels, at most `most` of them; noise widens what
/// counts as one.
[[nodiscard]] Palette find_palette(const Grid<Three>& lab, const Core& core, double noise,
                                   int most);

/// The palette of a picture without noise, where one of its colours stands for several that large
/// parts of the picture have exactly (white and nearly white, say): those in its place, when they
/// are 2 or more apart (dE76). At most `most` in all.
[[nodiscard]] Palette with_exact_colours(const Palette& palette, const Grid<Rgb>& pixels,
                                         const Core& core, int most);

/// These colours and no others.
[[nodiscard]] Palette palette_of(const std::vector<Three>& srgb);

/// The palette with its nearest colours merged until there are `count`.
[[nodiscard]] Palette reduced(const Palette& palette, const Grid<Three>& lab, const Core& core,
                              int count);

}  // namespace quoin::trace
