#pragma once
#include <string>

#include "fold/fold.h"

namespace quoin::pieces {

/// A place on a net from two numbers of millimetres.
[[nodiscard]] constexpr Point spot(Mm x, Mm y) { return {x, y}; }

/// A quarter turn away from the reader, the fold of nearly every crease of a box.
inline constexpr Angle square_fold = Angle::degrees(90);

/// Adds a panel and gives its number.
int add_panel(fold::Net& net, std::string name, Polygon outline, Angle upright = {},
              fold::Seen seen = fold::Seen::outside);

/// Adds a crease that is folded square during the step of that number.
fold::Hinge& add_crease(fold::Net& net, int parent, int child, Point from, Point to, int step);

/// A rectangle between two x and two y, clockwise from the top left.
[[nodiscard]] Polygon block(Mm left, Mm top, Mm right, Mm bottom);

/// Corners of an arc from `from` to `to` about a centre, both ends included, in chords that stay
/// within 0.02 mm of it. Angles run clockwise on the page from "to the right".
void add_arc(Polygon& outline, Point centre, Mm radius, Angle from, Angle to);

/// A flap that hangs on the side from `a` to `b` and reaches `depth` to the left of the way from a
/// to b (up from a side drawn to the right), its far end `taper` shorter at each end. Its corners
/// are rounded by `radius`, or by what there is room for: four fifths of the depth, half the far
/// end.
[[nodiscard]] Polygon flap(Point a, Point b, Mm depth, Mm taper, Mm radius);

/// A rectangle with half-round notches of these radii in the middle of its top and bottom sides; no
/// notch for 0.
struct Notches {
  Mm top, bottom;
};
[[nodiscard]] Polygon notched(Mm left, Mm top, Mm right, Mm bottom, Notches notches);

}  // namespace quoin::pieces
