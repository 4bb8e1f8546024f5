#pragma once
#include "fold/fold.h"
#include "pieces/box/plan.h"

namespace quoin::pieces {

/// A tray that slides into a sleeve, end on. Allowances beside those of tray and tube; t the
/// board's thickness, f the air on each side (`fit`; 0.25 to 0.5 mm: common practice, no source):
/// - tray: inside as planned; outside it is W + 2t by H + 2t by D + t (derived);
/// - sleeve inside: W + 2t + 2f, and t for its glue flap (2t in two parts, for both flaps), by D +
/// t + 2f; as long as the tray (derived);
/// - half-round notches at the foot of the sleeve's front and back, so that a thumb can push the
/// tray.
[[nodiscard]] fold::Model draw_sleeve(const BoxPlan& plan);

}  // namespace quoin::pieces
