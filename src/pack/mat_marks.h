#pragma once
#include <string>
#include <vector>

#include "pieces/mat/mat.h"
#include "sheets/tiles.h"

namespace quoin::pack {

/// What is drawn over the mat on one of its sheets, in the frame of the mat: the lines to trim to
/// on edges that lie over a neighbour, the arrows up to which a neighbour goes, half diamonds where
/// seams meet the outer edge, corners where four sheets meet, and the line round the mat. All of it
/// lies in what is cut off or covered in the end. Words are not set yet.
[[nodiscard]] std::vector<Item> tile_marks(const sheets::Tiling& tiling, const sheets::Tile& tile);

}  // namespace quoin::pack
