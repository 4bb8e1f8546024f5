#pragma once
#include <vector>

#include "trace/photo/quad.h"
#include "trace/photo/view.h"

namespace quoin::trace {

/// Four corners that may be those of a card, some pixels off.
struct Guess {
  Corners corners;
  double score = 0;  ///< 0..1, to compare with others
};

inline constexpr int quick_glance = 640, close_glance = 1280;  // px along the longer side

/// Shapes with four sides in a view reduced to `longest` px, by edges at several contrasts and by
/// their colour differing from the picture's rim; the likeliest first, none twice, at most `most`.
/// They cover from `least_share` of the picture. `proportion`: shorter side over longer.
[[nodiscard]] std::vector<Guess> coarse_guesses(const View& view, double proportion,
                                                double least_share, std::size_t most,
                                                int longest = quick_glance);

}  // namespace quoin::trace
