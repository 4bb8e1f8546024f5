#include "fold/space.h"

namespace quoin::fold {

Rigid placed_in(const Rigid& outer, const Rigid& inner) {
  Rigid both;
  for (std::size_t row = 0; row < 3; ++row) {
    for (std::size_t column = 0; column < 3; ++column) {
      double sum = 0;
      for (std::size_t k = 0; k < 3; ++k) {
        sum += outer.turn[3 * row + k] * inner.turn[3 * k + column];
      }
      both.turn[3 * row + column] = sum;
    }
  }
  both.move = outer(inner.move);
  return both;
}

Rigid turn_about(Vec3 at, Vec3 axis, Angle angle) {
  const auto [s, c] = sin_cos(angle);
  const double d = 1 - c;
  const auto& [x, y, z] = axis;
  Rigid turned;
  turned.turn = {c + d * x * x,     d * x * y - s * z, d * x * z + s * y,
                 d * x * y + s * z, c + d * y * y,     d * y * z - s * x,
                 d * x * z - s * y, d * y * z + s * x, c + d * z * z};
  turned.move = at - turned.turned(at);
  return turned;
}

}  // namespace quoin::fold
