#pragma once
#include "fold/fold.h"
#include "pieces/box/plan.h"

namespace quoin::pieces {

/// A tuck carton: a tube whose two ends are closed by dust flaps, a lid and its tuck flap.
///
/// Allowances beside those of the tube; W, H, D inside, t board:
/// - dust flaps fold in first: their creases are H + t apart (derived);
/// - the lids lie on them, one layer further out at each end: their creases are H + 3t apart
/// (derived).
///   Front and back are as high as that, the sides as the dust creases: the stepped creases;
/// - lid from crease to tuck crease: D less `tuck_play` (derived: the side's D + t, less t since
/// the tuck
///   flap lies inside the panel; 0.2 to 0.5 mm play is common practice, no source);
/// - tuck flap: W - 2 t, since the glue flap may lie beside it, less 0.75 mm each side (0.5 to 1:
///   common practice, no source); drawn in by an eighth of its depth at each end;
/// - dust flaps: D - t less the play at most, for the tuck flap passes in front (derived);
/// - slits of 6 mm at the ends of the tuck crease (5 to 8: common practice, no source), a fifth of
/// the
///   tuck flap at most.
///
/// In two parts the tube is in two, with the lids, tuck flaps and dust flaps on the panels that
/// they hang on in one part; the allowances are the same.
///
/// Holds while every flap is longer than t and D is at least `least_tuck_depth`.
[[nodiscard]] fold::Model draw_tuck(const BoxPlan& plan);

/// 2 t + play + 1.2 mm: dust flaps half a millimetre wide and the lid over them.
[[nodiscard]] Mm least_tuck_depth(const BoxPlan& plan);

[[nodiscard]] Mm lid_length(const BoxPlan& plan);
[[nodiscard]] Mm tuck_width(const BoxPlan& plan);
/// 0 when the plan has no slits.
[[nodiscard]] Mm slit_length(const BoxPlan& plan);

}  // namespace quoin::pieces
