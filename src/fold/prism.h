#pragma once
#include <vector>

#include "fold/space.h"
#include "geometry/polygon.h"

namespace quoin::fold {

/// A convex piece of a plate: a convex outline on the net and half the board's thickness either
/// way.
struct Prism {
  std::vector<Vec3> corners;  ///< on the mid-plane, z = 0; clockwise on the page
  std::vector<Vec3> squares;  ///< of each side, outwards, in the plane, length 1
  std::vector<Vec3> sides;    ///< direction of each side, length 1
  double half = 0;            ///< half the thickness
  Vec3 middle;
  double radius = 0;  ///< of the ball round `middle` that holds it
};

/// The convex pieces of an outline.
[[nodiscard]] std::vector<Prism> prisms(const Polygon& outline, Mm thickness);

/// The part of a convex or simple outline that lies at least `from` beyond the line through `at`,
/// on the side to which `outward` (length 1) points, and at most `to` beyond it.
[[nodiscard]] Polygon clipped(const Polygon& outline, Vec3 at, Vec3 outward, double from,
                              double to);

/// How far two prisms are apart, in millimetres; negative: how far they are in each other, along
/// the shortest way out (separating axes: faces, sides, and their products). Above 0 it is a lower
/// bound of the true distance. Gives up looking for a wider gap once one of `enough` is found.
[[nodiscard]] double apart(const Prism& a, const Rigid& place_a, const Prism& b,
                           const Rigid& place_b, double enough);

/// The least over all pairs of pieces.
[[nodiscard]] double apart(const std::vector<Prism>& a, const Rigid& place_a,
                           const std::vector<Prism>& b, const Rigid& place_b, double enough);

}  // namespace quoin::fold
