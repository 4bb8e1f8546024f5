#pragma once
#include "trace/photo/sides.h"

namespace quoin::trace {

/// The outline with those sides moved back to the edge of the card that had been laid along the
/// edge of its shadow.
///
/// Beside a card the colour makes a sharp step at its edge and, some pixels outside, a soft one
/// where its shadow ends; where card and ground are nearly alike the soft one is the stronger. Each
/// half of a side is averaged into one profile, and a step, or a step and a softer one, is fitted
/// to it. At most `reach` px are looked at inwards.
[[nodiscard]] Outline without_shadow(const View& view, Outline outline, double reach);

}  // namespace quoin::trace
