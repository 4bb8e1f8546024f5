#include <cmath>
#include <stdexcept>

#include "formats/gltf/model.h"

namespace quoin::gltf {
namespace {

constexpr double skewness = 1e-6;

void expect_rotation(const std::array<double, 9>& m) {
  const auto product = [&](std::size_t a, std::size_t b) {
    return m[3 * a] * m[3 * b] + m[3 * a + 1] * m[3 * b + 1] + m[3 * a + 2] * m[3 * b + 2];
  };
  bool sound = true;
  for (std::size_t a = 0; a < 3; ++a) {
    for (std::size_t b = 0; b < 3; ++b) {
      sound = sound && std::abs(product(a, b) - (a == b ? 1 : 0)) <= skewness;
    }
  }
  const double volume = m[0] * (m[4] * m[8] - m[5] * m[7]) - m[1] * (m[3] * m[8] - m[5] * m[6]) +
                        m[2] * (m[3] * m[7] - m[4] * m[6]);
  if (!sound || !(volume > 0)) throw std::logic_error("a matrix that does more than turn");
}

}  // namespace

/// By the largest of the four parts, so that nothing is divided by almost nothing.
/// Source: S. W. Shepperd, "Quaternion from rotation matrix", J. Guidance and Control 1(3), 1978.
Turn turn_of(const std::array<double, 9>& rows) {
  expect_rotation(rows);
  const double trace = rows[0] + rows[4] + rows[8];
  const auto at = [&](int row, int column) {
    return rows[static_cast<std::size_t>(3 * (row % 3) + column % 3)];
  };
  Turn turn;
  double* const parts[3] = {&turn.x, &turn.y, &turn.z};
  int largest = 0;
  for (int i = 1; i < 3; ++i) {
    if (at(i, i) > at(largest, largest)) largest = i;
  }
  if (trace >= at(largest, largest)) {
    turn.w = std::sqrt(1 + trace) / 2;
    for (int i = 0; i < 3; ++i) *parts[i] = (at(i + 2, i + 1) - at(i + 1, i + 2)) / (4 * turn.w);
    return turn;
  }
  const int i = largest, j = (i + 1) % 3, k = (i + 2) % 3;
  const double own = std::sqrt(1 + at(i, i) - at(j, j) - at(k, k)) / 2;
  *parts[i] = own;
  *parts[j] = (at(j, i) + at(i, j)) / (4 * own);
  *parts[k] = (at(k, i) + at(i, k)) / (4 * own);
  turn.w = (at(k, j) - at(j, k)) / (4 * own);
  return turn;
}

}  // namespace quoin::gltf
