#pragma once
#include <vector>

#include "fold/convex.h"
#include "fold/view.h"
#include "pieces/box/stage.h"
#include "scene/scene.h"

namespace quoin::pieces {

/// Board without print, as pictures show it: a warm white outside, a little darker inside, and the
/// cut through it.
inline constexpr Colour board_outside{0.957, 0.941, 0.906, 1};
inline constexpr Colour board_inside{0.902, 0.871, 0.816, 1};
inline constexpr Colour board_edge{0.800, 0.757, 0.678, 1};
inline constexpr Colour card_edge{0.965, 0.955, 0.930, 1};
/// What lines and shadows are drawn in.
inline constexpr Colour shade_ink{0.105, 0.100, 0.125, 1};

/// A translucent paint that makes a face with this normal (on the stage) as light or dark as the
/// light on it asks, a little more so towards its lower right: laid over the face. `round` is the
/// rectangle round the face in the picture.
using Shading = LinearGradient;
[[nodiscard]] Shading shading(fold::Vec3 normal, Rect round);

/// A colour with that light on it: opaque.
[[nodiscard]] Shading lit(Colour plain, const Shading& light);

/// The soft shadow that what stands on a stage throws on the ground, of translucent shapes.
[[nodiscard]] std::vector<Item> ground_shadow(const Stage& stage);

/// The colour at another opacity.
[[nodiscard]] constexpr Colour thinned(Colour colour, double alpha) {
  colour.alpha = alpha;
  return colour;
}

/// A shape without a line.
[[nodiscard]] Item filled(Path path, Paint fill);

}  // namespace quoin::pieces
