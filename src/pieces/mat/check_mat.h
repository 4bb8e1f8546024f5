#pragma once
#include "pieces/mat/mat.h"

namespace quoin::pieces {

/// What the checks of a mat share.
struct MatInspection {
  const game::Game& game;
  const Mat& mat;
  Diagnostics& found;
};

/// Cards on their places: `mat.place-too-small`, `mat.places-overlap`, `mat.place-near-edge`.
void check_places(const MatInspection& inspection);
/// What is printed: the checks of a card's face that hold for a mat, with limits that follow from
/// the viewing distance, and `mat.small-type`. Gives the part of the mat and its bleed that each
/// plate covers.
std::array<double, 4> check_mat_print(const MatInspection& inspection, PictureShelf& shelf);

}  // namespace quoin::pieces
