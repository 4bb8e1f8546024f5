#pragma once
#include "fold/fold.h"

namespace quoin::pieces {

/// Sets the turns of a lid and its tuck flap during `step`, as a hand does it: the lid is held
/// open, the flap bowed, and the lid swung shut while the flap slides in along the inside of the
/// panel.
///
/// A stiff flap cannot do that: its far edge would have to pass through the panel or the dust
/// flaps. Bent to the lid's own swing it can (derived): with the hinge as centre and the lid's
/// length L as radius, what has not gone in yet lies on the circle, which meets the panel's plane
/// just at the edge of the box and upright; what has gone in hangs straight down from there. A flap
/// longer than the quarter circle needs the lid swung back behind its hinge first.
///
/// Strips: chords of the circle of at most 0.2 rad and at least 6 in all; they leave the circle by
/// L d²/8 for chords of angle d, 0.09 mm for L = 17 mm.
void bow_in(fold::Net& net, int lid, int flap, Mm lid_length, Mm flap_depth, int step);

}  // namespace quoin::pieces
