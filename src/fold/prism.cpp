#include "fold/prism.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace quoin::fold {
namespace {

/// Long sides first: they part plates most often.
void sort_by_size(Prism& prism, const std::vector<double>& sizes) {
  std::vector<std::size_t> order(sizes.size());
  std::iota(order.begin(), order.end(), 0U);
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return sizes[a] > sizes[b]; });
  Prism sorted = prism;
  for (std::size_t i = 0; i < order.size(); ++i) {
    sorted.sides[i] = prism.sides[order[i]];
    sorted.squares[i] = prism.squares[order[i]];
  }
  prism = std::move(sorted);
}

Prism prism(const Polygon& convex, Mm thickness) {
  Prism made;
  made.half = thickness.value / 2;
  made.middle = lifted(centroid(convex));
  std::vector<double> sizes;
  for (const Point p : convex) made.corners.push_back(lifted(p));
  if (signed_area(convex) < 0) std::reverse(made.corners.begin(), made.corners.end());
  for (std::size_t i = 0; i < made.corners.size(); ++i) {
    const Vec3 a = made.corners[i], b = made.corners[(i + 1) % made.corners.size()];
    made.radius = std::max(made.radius, std::hypot(length(a - made.middle), made.half));
    const double size = length(b - a);
    if (size < 1e-9) continue;
    const Vec3 side = (b - a) * (1 / size);
    made.sides.push_back(side);
    made.squares.push_back({side.y, -side.x, 0});
    sizes.push_back(size);
  }
  sort_by_size(made, sizes);
  return made;
}

struct Extent {
  double low, high;
};

/// Of a prism along a direction of its own frame.
Extent extent(const Prism& prism, Vec3 along) {
  double low = std::numeric_limits<double>::infinity(), high = -low;
  for (const Vec3& corner : prism.corners) {
    const double at = along.x * corner.x + along.y * corner.y;
    low = std::min(low, at);
    high = std::max(high, at);
  }
  const double through = std::abs(along.z) * prism.half;
  return {low - through, high + through};
}

/// The gap between two prisms seen along directions of space; the widest so far is kept.
class Gauge {
 public:
  Gauge(const Prism& a, const Rigid& place_a, const Prism& b, const Rigid& place_b)
      : a_(a), place_a_(place_a), b_(b), place_b_(place_b) {}

  void look(Vec3 along) {
    const double shift = dot(along, place_b_.move - place_a_.move);
    const Extent a = extent(a_, place_a_.unturned(along)), b = extent(b_, place_b_.unturned(along));
    widest_ = std::max({widest_, b.low + shift - a.high, a.low - b.high - shift});
  }
  [[nodiscard]] double widest() const { return widest_; }

 private:
  const Prism& a_;
  const Rigid& place_a_;
  const Prism& b_;
  const Rigid& place_b_;
  double widest_ = -std::numeric_limits<double>::infinity();
};

void look_along_edges(Gauge& gauge, const Prism& a, const Rigid& place_a, const Prism& b,
                      const Rigid& place_b) {
  const auto look = [&](Vec3 u, Vec3 v) {
    const Vec3 across = cross(u, v);
    const double size = length(across);
    if (size > 1e-6) gauge.look(across * (1 / size));
  };
  for (const Vec3& u : a.sides) {
    const Vec3 side = place_a.turned(u);
    look(side, place_b.normal());
    for (const Vec3& v : b.sides) look(side, place_b.turned(v));
  }
  for (const Vec3& v : b.sides) look(place_a.normal(), place_b.turned(v));
}

void look_along_squares(Gauge& gauge, const Prism& prism, const Rigid& place, std::size_t from,
                        std::size_t to, double enough) {
  for (std::size_t i = from; i < std::min(to, prism.squares.size()); ++i) {
    if (gauge.widest() >= enough) return;
    gauge.look(place.turned(prism.squares[i]));
  }
}

/// A gap as wide as this is worth a step without looking for a wider one.
constexpr double wide_enough = 0.2;  // mm

double apart(const Prism& a, const Rigid& place_a, const Prism& b, const Rigid& place_b,
             double enough) {
  const double balls = length(place_b(b.middle) - place_a(a.middle)) - a.radius - b.radius;
  if (balls >= enough) return balls;
  Gauge gauge(a, place_a, b, place_b);
  gauge.look(place_a.normal());
  gauge.look(place_b.normal());
  const double worth = std::isinf(enough) ? enough : std::min(enough, wide_enough);
  if (gauge.widest() >= worth) return gauge.widest();
  constexpr std::size_t main_sides = 4;
  look_along_squares(gauge, a, place_a, 0, main_sides, enough);
  look_along_squares(gauge, b, place_b, 0, main_sides, enough);
  if (gauge.widest() >= worth) return gauge.widest();
  look_along_squares(gauge, a, place_a, main_sides, a.squares.size(), enough);
  look_along_squares(gauge, b, place_b, main_sides, b.squares.size(), enough);
  if (gauge.widest() <= -touch) look_along_edges(gauge, a, place_a, b, place_b);
  return std::max(gauge.widest(), balls);
}

/// The corners of the convex hull, by Andrew's monotone chain.
Polygon hull(Polygon corners) {
  const auto turn = [](Point a, Point b, Point c) {
    const Vec u = b - a, v = c - a;
    return u.x.value * v.y.value - u.y.value * v.x.value;
  };
  std::sort(corners.begin(), corners.end(),
            [](Point a, Point b) { return a.x != b.x ? a.x < b.x : a.y < b.y; });
  Polygon around;
  for (int way = 0; way < 2; ++way) {
    const std::size_t first = around.size();
    for (const Point p : corners) {
      while (around.size() >= first + 2 && turn(around.end()[-2], around.back(), p) <= 0) {
        around.pop_back();
      }
      around.push_back(p);
    }
    around.pop_back();
    std::reverse(corners.begin(), corners.end());
  }
  return around;
}

}  // namespace

Solid solid(const Polygon& outline, Mm thickness) {
  const std::vector<Polygon> parts = convex_parts(outline);
  Solid made;
  if (parts.empty()) return made;
  for (const Polygon& part : parts) made.pieces.push_back(prism(part, thickness));
  made.hull = parts.size() == 1 ? made.pieces.front() : prism(hull(outline), thickness);
  return made;
}

Polygon clipped(const Polygon& outline, Vec3 at, Vec3 outward, double from, double to) {
  const auto cut = [&](const Polygon& shape, double line, double way) {
    Polygon kept;
    for (std::size_t i = 0; i < shape.size(); ++i) {
      const Point a = shape[i], b = shape[(i + 1) % shape.size()];
      const double u = (dot(lifted(a) - at, outward) - line) * way;
      const double v = (dot(lifted(b) - at, outward) - line) * way;
      if (u >= 0) kept.push_back(a);
      if ((u > 0 && v < 0) || (u < 0 && v > 0)) kept.push_back(a + (b - a) * (u / (u - v)));
    }
    return kept;
  };
  return cut(cut(outline, from, 1), to, -1);
}

double apart(const Solid& a, const Rigid& place_a, const Solid& b, const Rigid& place_b,
             double enough) {
  if (a.pieces.empty() || b.pieces.empty()) return enough;
  const double hulls = apart(a.hull, place_a, b.hull, place_b, enough);
  if (hulls > -touch || (a.pieces.size() == 1 && b.pieces.size() == 1)) return hulls;
  double least = std::numeric_limits<double>::infinity();
  for (const Prism& one : a.pieces) {
    for (const Prism& other : b.pieces) {
      least = std::min(least, apart(one, place_a, other, place_b, enough));
    }
  }
  return least;
}

double apart_along(Vec3 direction, const Solid& a, const Rigid& place_a, const Solid& b,
                   const Rigid& place_b) {
  if (a.pieces.empty() || b.pieces.empty()) return 0;
  Gauge gauge(a.hull, place_a, b.hull, place_b);
  gauge.look(direction);
  return gauge.widest();
}

}  // namespace quoin::fold
