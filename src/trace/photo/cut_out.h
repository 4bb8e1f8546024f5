#pragma once
#include <string>
#include <vector>

#include "base/result.h"
#include "media/picture.h"

namespace quoin::trace {

/// What becomes of ground that the thing encloses: the hole of a ring.
enum class EnclosedGround { kept, cut_out };

struct CutOutWishes {
  /// 0..1: how far from the ground's colour still belongs to it. 0 takes only the very colour, 0.5
  /// is usual, 1 takes up to 30 units of CIE L*a*b*.
  double reach = 0.5;
  EnclosedGround enclosed = EnclosedGround::kept;
};

/// A picture without its ground.
struct CutOut {
  Raster picture;  ///< of the same size; the ground transparent, colours premultiplied
  /// Why it may not be what was meant, each as a diagnostic of the stage `cut-out`.
  Diagnostics doubts;
  double cut = 0;  ///< share of the pixels that became fully transparent, 0..1
};

inline constexpr int least_cut_out_side = 8;  // px

/// Makes the plain ground of a picture transparent.
///
/// The ground's colour is found at the rim and may shade gently over the picture (a polynomial of
/// the second degree is fitted). It is taken away from the rim inwards. Along the edge each pixel
/// is taken for a mixture, `c = a F + (1 - a) G` (T. Porter, T. Duff, "Compositing Digital Images",
/// SIGGRAPH 1984), of the thing's colour F beside it and the ground's G, and keeps `a` as its alpha
/// and `a F` as its colour, so that no fringe of the old ground shows on another one.
///
/// Fails with `cut-out.too-small` and `cut-out.nothing-left`. `doubts` has
/// `cut-out.ground-not-plain`, `cut-out.edge-like-ground`, `cut-out.nothing-cut` (the picture is
/// then as it was) and `cut-out.transparent-already` (its rim is transparent: left as it was).
/// Memory under 60 bytes for each pixel; time proportional to the pixels.
[[nodiscard]] Result<CutOut> cut_out(const Raster& picture, const CutOutWishes& wishes,
                                     const std::string& name, const Origin& origin);

}  // namespace quoin::trace
