#pragma once
#include <string>

#include "fold/fold.h"
#include "pieces/box/plan.h"

namespace quoin::pieces {

/// The body that cartons and sleeves share: glue flap, front, right, back and left side by side.
///
/// Allowances, t the board's thickness (all derived but where it says otherwise; checked by
/// folding):
/// - a panel from crease to crease: inside + t. Creases lie on the mid-plane of both panels, and
/// each
///   of the two walls takes t/2.
/// - the front, which carries the glue flap: t less, so inside. The flap lies against the inside of
/// the
///   left panel, one thickness further in than the left panel's own mid-plane; a front of full
///   width would push the seam out of square by t over the depth of the box.
/// - the left panel ends on the front's mid-plane, t/2 short of the front's face, so that its raw
/// edge
///   never stands proud (0.5 to 1 t short: common practice, no source).
/// - glue flap: its ends 15 degrees tapered and 1 mm short of the body at each end (10 to 15
/// degrees or
///   2 to 3 mm: common practice, no source), and at most D - t wide, clear of the back.
///
/// In two parts the back and the left side are a net of their own, with a joining flap on the back
/// that is glued inside the right side. The tube is then the same from its back as from its front:
/// the back too is `inside` wide, and lies over the middle of the room like the front.
///
/// In the closed box's frame the left panel's mid-plane is x = 0, the front's z = 0; the room
/// inside is x from t/2 to W + t/2, z from t/2 to D + t/2, y from 0 to H.
struct Tube {
  std::string name;  ///< put before the names of the panels: "sleeve "; may be empty
  std::string net;   ///< name of the net; in two parts "front" and "back" for "box", else with both
  game::NetParts parts = game::NetParts::one;
  Mm width, depth;           ///< inside: W and D
  Mm thickness;              ///< t
  Mm top, bottom;            ///< y of the ends of front and back
  Mm side_top, side_bottom;  ///< y of the ends of left and right
  Mm glue_flap;
  Mm notch_top, notch_bottom;            ///< radii in the front; 0: none
  Mm back_notch_top, back_notch_bottom;  ///< radii in the back
  int first_step = 0;                    ///< of `tube_steps`
};

/// The panels, and where they stand on the net that they are of.
struct TubePanels {
  fold::PanelRef front, right, back, left, flap;
  Mm front_from, front_to, back_from, back_to;  ///< x
  Mm right_from, right_to, left_from, left_to;
};

/// Adds the tube's net or nets to the model, which it may be the first of or not; the first of them
/// lies with its front at z = 0 of the closed box, left side at x = 0.
TubePanels add_tube(fold::Model& model, const Tube& tube);

/// The words of its steps: round, flap and seam, in two parts both flaps, both halves and two
/// seams.
[[nodiscard]] std::vector<fold::Step> tube_steps(game::NetParts parts);

}  // namespace quoin::pieces
