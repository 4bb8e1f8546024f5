#pragma once
#include "fold/fold.h"

namespace quoin::fold {

/// A crease made ready for turning: a place on it and the axis about which a positive angle folds
/// the child away from the reader.
struct Crease {
  Vec3 at;       ///< the middle of the crease
  Vec3 axis;     ///< length 1
  Vec3 outward;  ///< in the net, square to the crease, from the parent to the child; length 1
};

/// The child lies on the side of its centroid.
[[nodiscard]] Crease crease_of(const Hinge& hinge, const Panel& child);

/// The value at a moment between `before` and `after`, both included.
[[nodiscard]] Angle between(Angle before, Angle after, double from, double to, double progress);

/// A part's place at a moment: home, and what is left of its way there.
[[nodiscard]] Rigid place_of(const Part& part, double progress);

}  // namespace quoin::fold
