#pragma once
#include <optional>

#include "formats/pdf/pdf.h"
#include "job/workshop.h"
#include "pieces/mat/mat.h"
#include "scene/low_ink.h"

namespace quoin::job {

/// The mat in both inks, drawn once for all papers. Stays where it is: what is drawn refers to it.
struct SharedMat {
  std::optional<pieces::Mat> mat;  ///< in full colour; nothing when the game has none
  pieces::Mat low_mat;
  std::optional<DrawnSymbols> full, low;
};

/// Makes the mat of the shop's game, when it has one. Finds what `pieces::make_mat` finds.
void make_shared_mat(Workshop& shop, SharedMat& mat, Diagnostics& found);

/// Draws it in both inks, ready to be placed. False, with the reasons in `found`, when a picture of
/// it could not be drawn.
[[nodiscard]] bool draw_shared_mat(Workshop& shop, LowInk& low_ink, SharedMat& mat,
                                   Diagnostics& found);

}  // namespace quoin::job
