#include "geometry/geometry.h"

namespace quoin {

Affine Affine::turn_about(Point centre, Angle angle) {
  const Vec to_centre{centre.x, centre.y};
  return then(then(move(to_centre * -1), turn(angle)), move(to_centre));
}

std::optional<Affine> inverse(const Affine& map) {
  const double det = map.determinant();
  if (std::abs(det) < 1e-12) return std::nullopt;
  Affine back{map.d / det, -map.b / det, -map.c / det, map.a / det, {}, {}};
  const Point origin = back(Point{map.e, map.f});
  back.e = -origin.x;
  back.f = -origin.y;
  return back;
}

Rect bounds(const Affine& map, Rect rect) {
  const Point corners[] = {map(rect.at), map(Point{rect.right(), rect.top()}),
                           map(Point{rect.right(), rect.bottom()}),
                           map(Point{rect.left(), rect.bottom()})};
  Rect box{corners[0], {}};
  for (const Point p : corners) box = covering(box, Rect{p, {}});
  return box;
}

}  // namespace quoin
