#pragma once
#include <optional>
#include <vector>

#include "trace/photo/quad.h"
#include "trace/photo/view.h"

namespace quoin::trace {

/// A step of colour this steep is as good as any: what is on the card beside its edge must not
/// count for more than the edge itself.
inline constexpr double steep_enough = 12;

/// One side of a card, followed along its edge.
struct Side {
  Spot from, to;            ///< on the line that was fitted, lens straightened
  double support = 0;       ///< share of its length along which the edge was found on that line
  double strength = 0;      ///< how steep the colour is across it, on the average; at most 12
  double steepness = 0;     ///< the same without that limit
  double residual = 0;      ///< standard deviation of the edge from the line, px
  double other_step = 0;    ///< how far beside the line the step that fits best alone is, px
  std::vector<Spot> spots;  ///< of the edge, as they are seen
};

/// Where the lines of two sides meet; nothing when they are nearly parallel.
[[nodiscard]] std::optional<Spot> meeting(const Side& one, const Side& other);

/// Four sides and the corners where they meet, lens straightened.
struct Outline {
  Corners corners;
  std::array<Side, 4> sides;
  Lens lens;

  [[nodiscard]] Corners seen() const {
    Corners seen;
    for (std::size_t i = 0; i < 4; ++i) seen[i] = lens.as_seen(corners[i]);
    return seen;
  }
  [[nodiscard]] double least_support() const;
  [[nodiscard]] double least_strength() const;
};

/// Looks for the sides up to `band` px beside those of `corners` (lens straightened), by the steps
/// of colour that keep their direction along a line: what is noise or weave cancels out. Nothing
/// when a side is not to be seen.
[[nodiscard]] std::optional<Outline> follow_sides(const View& view, const Corners& corners,
                                                  const Lens& lens, double band);

/// The lens that makes all the sides straightest; the one given when none does so notably.
[[nodiscard]] Lens lens_of(const View& view, const std::vector<const Outline*>& outlines);

/// A step of colour that is more than noise, averaged over so many looks.
[[nodiscard]] double notable_step(const View& view, double looks);

}  // namespace quoin::trace
