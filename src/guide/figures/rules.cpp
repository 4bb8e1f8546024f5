#include "guide/figures/figures.h"

namespace quoin::guide {

Figure rules_step(const rules::FoldingStep& step) {
  constexpr Size room{Mm{80}, Mm{56}};
  const Rect& seen = step.picture.bounds;
  const double scale = std::min(room.width / seen.size.width, room.height / seen.size.height);
  Item all;
  all.map = then(Affine::move(Point{} - seen.at), Affine::scale(scale, scale));
  all.what = GroupItem{step.picture.scene.items};
  Figure figure;
  figure.size = {seen.size.width * scale, seen.size.height * scale};
  figure.scene.items.push_back(std::move(all));
  return figure;
}

}  // namespace quoin::guide
