#pragma once
#include <vector>

#include "fold/convex.h"
#include "fold/view.h"

namespace quoin::fold {

/// A piece of a face in the picture, with the rectangle round it, which is quickly compared.
struct Piece {
  int face = 0;
  Convex outline;
  Rect round;
};

/// Whether the rectangles round them meet.
[[nodiscard]] bool may_meet(const Piece& a, const Piece& b);

/// Pieces in an order of painting, put together by faces, in an order that paints the same picture:
/// where two share area, the later stays the later.
///
/// All pieces of a face are one bundle unless something would have to be both before and after it;
/// then the smallest faces of such a ring are taken apart until there is none.
[[nodiscard]] std::vector<Shown> bundled(const std::vector<Piece>& pieces);

}  // namespace quoin::fold
