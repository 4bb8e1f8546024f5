#pragma once
#include "fold/fold.h"

namespace quoin::fold {

/// Two plates that would be in the same place.
struct Collision {
  PanelRef a, b;
  Mm depth;             ///< how far one must give way, along the shortest way out
  double progress = 0;  ///< when it is deepest; the step is the whole number below it
};

/// Plates that go into each other by no more than this only touch.
inline constexpr Mm touching{0.05};

/// The pairs of panels that pass through each other while the model is folded, each with its
/// deepest moment; those of the earliest steps first. Empty when it can be folded.
///
/// A pair is followed through every step without gaps: from a moment at which two plates are apart
/// by d, nothing is looked at until the first moment at which they could have come d nearer (their
/// fastest points counted); plates within `touching` of each other are looked at every 0.1 mm of
/// their motion. Plates are prisms on the convex parts of their outlines; whether two overlap, and
/// how deep, is found with the separating axis theorem over faces and edges (S. Gottschalk, M. Lin,
/// D. Manocha, OBBTree, SIGGRAPH 1996, for boxes; the same holds for convex prisms).
///
/// Panels joined by a crease are let off within one thickness of it: there the inside corner of the
/// board is squeezed in the bead of the crease. Beyond that two panels on their own sides of the
/// crease do not meet up to 126.8 degrees (2 atan 2, derived); past that, or when a panel reaches
/// over the line of its crease, they are followed like any others.
[[nodiscard]] std::vector<Collision> collisions(const Model& model);

}  // namespace quoin::fold
