#include "formats/pdf/numbers.h"

#include <fmt/format.h>

#include "formats/decimal.h"

namespace quoin::pdf {
std::string length_text(double points) { return decimal(points, 4); }

std::string ratio_text(double ratio) { return decimal(ratio, 8); }

std::string Matrix::text() const {
  return fmt::format("{} {} {} {} {} {}", ratio_text(a), ratio_text(b), ratio_text(c),
                     ratio_text(d), length_text(e), length_text(f));
}

Matrix matrix_on_page(const Affine& map, Rect bounds, Mm page_height) {
  // The drawing's bottom left is the origin of its PDF frame; both frames turn y over, which
  // changes the sign of the two skewing parts and leaves the others.
  const Point corner = map(Point{bounds.left(), bounds.bottom()});
  return {map.a, -map.b, -map.c, map.d, in_points(corner.x), in_points(page_height - corner.y)};
}

std::string rectangle_text(Rect rect, Mm page_height) {
  return fmt::format("{} {} {} {}", length_text(in_points(rect.left())),
                     length_text(in_points(page_height - rect.bottom())),
                     length_text(in_points(rect.size.width)),
                     length_text(in_points(rect.size.height)));
}

}  // namespace quoin::pdf
