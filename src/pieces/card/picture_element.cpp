#include "pieces/card/element.h"

namespace quoin::pieces {

Rect fitted(const PictureFacts& facts, Rect box, PictureFit fit, Vec focus) {
  if (fit == PictureFit::stretch || facts.width <= 0 || facts.height <= 0) return box;
  const double across = box.size.width.value / facts.width;
  const double down = box.size.height.value / facts.height;
  const double scale = fit == PictureFit::cover ? std::max(across, down) : std::min(across, down);
  const Size size{Mm{facts.width * scale}, Mm{facts.height * scale}};
  // The same fraction of what is too much (cover) or too little (contain) falls on either side.
  const Mm left = (box.size.width - size.width) * focus.x.value;
  const Mm top = (box.size.height - size.height) * focus.y.value;
  return {{box.at.x + left, box.at.y + top}, size};
}

Drawn draw_picture(const Properties& properties, Rect box) {
  const std::optional<std::string> path = properties.text("picture");
  if (!path) return std::nullopt;
  const PicturePtr picture = open_picture(properties, *path, properties.origin("picture"));
  if (!picture) return std::nullopt;
  const PictureFit fit = properties
                             .word<PictureFit>("fit", {{"contain", PictureFit::contain},
                                                       {"cover", PictureFit::cover},
                                                       {"stretch", PictureFit::stretch}})
                             .value_or(PictureFit::contain);
  const Vec focus = properties.pair("focus").value_or(Vec{Mm{0.5}, Mm{0.5}});
  return PictureItem{picture, fitted(picture->facts(), box, fit, focus), box,
                     fit == PictureFit::cover};
}

}  // namespace quoin::pieces
