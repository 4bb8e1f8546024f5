#include <algorithm>

#include "pack/box_pictures.h"
#include "pack/previews.h"

namespace quoin::pack {
namespace {

constexpr Mm band_rim = 8_mm;

/// The pictures that stand on the row.
std::vector<pieces::BoxPicture> pictures_of(const BoxPictureWork& work) {
  return {drawn(pieces::closed_stage(work.look.box), work.look),
          drawn(pieces::open_stage(work.look.box), work.look), flat_nets(work.look)};
}

struct Row {
  std::vector<pieces::BoxPicture> pictures;
  Mm width, height;  ///< of the pictures side by side, without what is between them
};

Row row_of(const BoxPictureWork& work) {
  Row row{pictures_of(work), {}, {}};
  for (const pieces::BoxPicture& each : row.pictures) {
    row.width += each.bounds.size.width;
    row.height = std::max(row.height, each.bounds.size.height);
  }
  return row;
}

}  // namespace

Raster box_band(const BoxPictureWork& work, int width, Colour table, PictureShelf& shelf,
                Diagnostics& found) {
  const Row row = row_of(work);
  const Mm wide{(width - 0.5) * mm_per_inch / preview_ppi};  // the canvas rounds up
  const double scale = std::min(1.0, (wide - band_rim * 4) / row.width);
  const Size size{wide, row.height * scale + band_rim};
  const Mm between = (wide - row.width * scale) / (static_cast<double>(row.pictures.size()) + 1);
  ImageCanvas image(shelf, size, preview_ppi, ImageCanvas::Background::paper);
  image.canvas().fill(Path::rectangle(grown(Rect{{}, size}, band_rim)), table);
  Mm left = between;
  for (const pieces::BoxPicture& each : row.pictures) {
    const Mm top = (row.height - each.bounds.size.height) * scale / 2;
    image.canvas().save();
    image.canvas().transform(then(Affine::move(Point{} - each.bounds.at),
                                  then(Affine::scale(scale, scale), Affine::move({left, top}))));
    draw(each.scene, image.canvas());
    image.canvas().restore();
    left += each.bounds.size.width * scale + between;
  }
  found.insert(found.end(), image.found().begin(), image.found().end());
  return image.raster();
}

}  // namespace quoin::pack
