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

/// A plate: its convex pieces, and the prism on the convex hull of its outline, which holds them
/// all.
struct Solid {
  Prism hull;
  std::vector<Prism> pieces;  ///< one, the hull itself, for a convex outline
};
[[nodiscard]] Solid solid(const Polygon& outline, Mm thickness);

/// The part of a simple outline that lies at least `from` beyond the line through `at`,
/// on the side to which `outward` (length 1) points, and at most `to` beyond it.
[[nodiscard]] Polygon clipped(const Polygon& outline, Vec3 at, Vec3 outward, double from,
                              double to);

/// Plates that go into each other by no more than this only touch.
inline constexpr double touch = 0.05;  // mm

/// How far two plates are apart, in millimetres; negative: how far they are in each other, along
/// the shortest way out (separating axes: faces, sides, and their products). Above 0 it is a lower
/// bound of the true distance. It stops looking at a gap of `enough`, or at one that is worth a
/// step of the check (0.2 mm); with `enough` infinite it is the widest gap that faces and sides
/// show. Products of sides are looked along only when faces and sides do not show that the plates
/// at most touch.
[[nodiscard]] double apart(const Solid& a, const Rigid& place_a, const Solid& b,
                           const Rigid& place_b, double enough);

/// How far they are apart along one direction (of length 1); negative when they overlap that way.
[[nodiscard]] double apart_along(Vec3 direction, const Solid& a, const Rigid& place_a,
                                 const Solid& b, const Rigid& place_b);

}  // namespace quoin::fold
