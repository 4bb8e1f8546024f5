#pragma once
#include <string>
#include <vector>

#include "trace/photo/find_cards.h"
#include "trace/photo/sides.h"

namespace quoin::trace {

/// What speaks for an outline being the edge of a card of the shape that is looked for.
struct Weighed {
  Outline outline;
  Pose pose;
  double roundness = 0;  ///< share of its corners at which the ground reaches in, as at round ones
  double even_border = 0;  ///< 0..1: just inside, all four sides have one colour each
  double share = 0;        ///< of the picture
  double score = 0;        ///< 0..1, to compare with others in the same picture
};

[[nodiscard]] Weighed weigh(const View& view, Outline outline, const CardShape& shape);

/// Outlines that run along other steps of colour beside these sides: the edge of the card, when
/// what was found is a frame printed on it, or the other way round. At most `most`, best first.
[[nodiscard]] std::vector<Corners> neighbours(const View& view, const Weighed& found,
                                              const CardShape& shape, std::size_t most);

/// The proportion of a card as it lies in the picture: first side over second.
[[nodiscard]] double proportion_as_lying(const Corners& straight, const CardShape& shape);

}  // namespace quoin::trace
