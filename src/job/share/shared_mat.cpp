#include "job/share/shared_mat.h"

#include "pack/mat_files.h"

namespace quoin::job {

void make_shared_mat(Workshop& shop, SharedMat& mat, Diagnostics& found) {
  if (!shop.studio().game().mat) return;
  Checked<std::optional<pieces::Mat>> made = pieces::make_mat(shop.studio(), shop.typesetter());
  mat.mat = std::move(made.value);
  for (Diagnostic& problem : made.found) found.push_back(std::move(problem));
}

bool draw_shared_mat(Workshop& shop, LowInk& low_ink, SharedMat& mat, Diagnostics& found) {
  if (!mat.mat) return true;
  mat.low_mat = *mat.mat;
  mat.low_mat.scene = low_ink(mat.mat->scene, Rect{{}, mat.mat->plan.size});
  typeset(mat.low_mat.scene, shop.typesetter());
  const auto drawn = [&](const pieces::Mat& one) {
    return DrawnSymbols::draw(pack::mat_symbols(one), shop.shelf(), {}).or_report(found);
  };
  auto full = drawn(*mat.mat), low = drawn(mat.low_mat);
  if (!full || !low) return false;
  mat.full.emplace(std::move(*full));
  mat.low.emplace(std::move(*low));
  return true;
}

}  // namespace quoin::job
