#pragma once
#include <array>
#include <cmath>

#include "geometry/geometry.h"

namespace quoin::fold {

/// A place or a direction in space. Places are in millimetres; the numbers are bare because
/// directions and their products have no length unit. x runs right and y down as on the net, z away
/// from whoever looks at the printed side: a right-handed frame.
struct Vec3 {
  double x = 0, y = 0, z = 0;
  constexpr bool operator==(const Vec3&) const = default;
};

constexpr Vec3 operator+(Vec3 a, Vec3 b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
constexpr Vec3 operator-(Vec3 a, Vec3 b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
constexpr Vec3 operator*(Vec3 v, double k) { return {v.x * k, v.y * k, v.z * k}; }
[[nodiscard]] constexpr double dot(Vec3 a, Vec3 b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
[[nodiscard]] constexpr Vec3 cross(Vec3 a, Vec3 b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
[[nodiscard]] inline double length(Vec3 v) { return std::sqrt(dot(v, v)); }

/// A place of the net, lifted off the board's mid-plane by `z`.
[[nodiscard]] constexpr Vec3 lifted(Point p, double z = 0) { return {p.x.value, p.y.value, z}; }

/// Where a rigid thing lies: turned, then moved. The turn's rows are orthonormal to 1e-12 and its
/// determinant is 1: nothing is ever mirrored.
struct Rigid {
  std::array<double, 9> turn{1, 0, 0, 0, 1, 0, 0, 0, 1};  ///< row after row
  Vec3 move;

  [[nodiscard]] constexpr Vec3 turned(Vec3 v) const {
    return {turn[0] * v.x + turn[1] * v.y + turn[2] * v.z,
            turn[3] * v.x + turn[4] * v.y + turn[5] * v.z,
            turn[6] * v.x + turn[7] * v.y + turn[8] * v.z};
  }
  [[nodiscard]] constexpr Vec3 operator()(Vec3 p) const { return turned(p) + move; }
  /// The turn undone.
  [[nodiscard]] constexpr Vec3 unturned(Vec3 v) const {
    return {turn[0] * v.x + turn[3] * v.y + turn[6] * v.z,
            turn[1] * v.x + turn[4] * v.y + turn[7] * v.z,
            turn[2] * v.x + turn[5] * v.y + turn[8] * v.z};
  }
  /// Turn and move undone: from space back to the net.
  [[nodiscard]] constexpr Vec3 back(Vec3 p) const { return unturned(p - move); }
  /// Of the side of the board that is turned away from the printed side.
  [[nodiscard]] constexpr Vec3 normal() const { return {turn[2], turn[5], turn[8]}; }
};

/// `inner` first, then `outer`.
[[nodiscard]] Rigid placed_in(const Rigid& outer, const Rigid& inner);

/// A turn by `angle` about the line through `at` along `axis` (of length 1), right-handed; exact at
/// quarter turns about the axes of the frame. (Rodrigues' formula.)
[[nodiscard]] Rigid turn_about(Vec3 at, Vec3 axis, Angle angle);

}  // namespace quoin::fold
