#include <algorithm>

#include "media/canvas.h"
#include "pack/mat_files.h"

namespace quoin::pack {

std::vector<Symbol> mat_symbols(const pieces::Mat& mat) {
  return {{grown(Rect{{}, mat.plan.size}, mat.plan.ink()), [&mat] { return mat.scene; }}};
}

double mat_picture_ppi(const pieces::Mat& mat, int longer_side) {
  const Size size = mat.plan.size;
  return longer_side * mm_per_inch / std::max(size.width, size.height).value;
}

Raster mat_picture(const pieces::Mat& mat, int longer_side, PictureShelf& shelf,
                   Diagnostics& found) {
  ImageCanvas image(shelf, mat.plan.size, mat_picture_ppi(mat, longer_side),
                    ImageCanvas::Background::paper);
  draw(mat.scene, image.canvas());
  found.insert(found.end(), image.found().begin(), image.found().end());
  return image.raster();
}

}  // namespace quoin::pack
