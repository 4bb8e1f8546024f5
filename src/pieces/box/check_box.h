#pragma once
#include "pieces/box/box.h"

namespace quoin::pieces {

/// Reads lengths and names findings of a box: what the checks share.
struct BoxInspection {
  const Box& box;
  const game::BoxWishes& wishes;
  Diagnostics& found;
};

/// What keeps a box from being drawn at all, before anything is drawn: `box.impossible-size`.
[[nodiscard]] Diagnostics contents_problems(const Contents& contents, const game::BoxWishes& wishes,
                                            Mm board);
/// The same of a plan: `box.impossible-size`, `box.caliper-exceeds-flap`.
[[nodiscard]] Diagnostics plan_problems(const BoxPlan& plan, const BoxKind& kind,
                                        const game::BoxWishes& wishes);

/// Whether the deck goes in and lies still, whether the box folds and stays shut, whether seams
/// hold.
void check_fit(const BoxInspection& inspection);
/// Whether the board suits the box; grain and crease widths.
void check_board(const BoxInspection& inspection);

/// What a channel for creasing this board is wide: 1.5 calipers and the thickness of the rule, 0.71
/// mm for a rule of 2 points (two tool-makers' public sheets; the rule from memory).
[[nodiscard]] Mm crease_width(Mm caliper);

/// "17.2 mm": one decimal; two below 1 mm.
[[nodiscard]] std::string length_words(Mm length);

}  // namespace quoin::pieces
