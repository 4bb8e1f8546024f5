#pragma once
#include "fold/fold.h"
#include "pieces/box/plan.h"

namespace quoin::pieces {

/// A base with a lid over it: two trays. Allowances beside those of the tray; t the board's
/// thickness, f the air on each side (`fit`; 0.25 to 0.5 mm: common practice, no source):
/// - base: inside as planned; outside it is W + 2t by H + 2t (derived);
/// - lid inside, across: W + 2t + 2f; along: H + 2t + 2f + 2t, for the lid's own tabs lie inside
/// its end
///   walls and the base passes between them (derived);
/// - the lid's top lies on the edges of the base's walls; its walls come down by `lid_height`.
[[nodiscard]] fold::Model draw_lid(const BoxPlan& plan);

}  // namespace quoin::pieces
