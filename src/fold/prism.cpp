#include "fold/prism.h"

#include <algorithm>
#include <limits>

namespace quoin::fold {
namespace {

Prism prism(const Polygon& convex, Mm thickness) {
  Prism made;
  made.half = thickness.value / 2;
  made.middle = lifted(centroid(convex));
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
  }
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

}  // namespace

std::vector<Prism> prisms(const Polygon& outline, Mm thickness) {
  std::vector<Prism> pieces;
  for (const Polygon& part : convex_parts(outline)) pieces.push_back(prism(part, thickness));
  return pieces;
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

double apart(const Prism& a, const Rigid& place_a, const Prism& b, const Rigid& place_b,
             double enough) {
  const double balls = length(place_b(b.middle) - place_a(a.middle)) - a.radius - b.radius;
  if (balls >= enough) return balls;
  Gauge gauge(a, place_a, b, place_b);
  gauge.look(place_a.normal());
  gauge.look(place_b.normal());
  for (const Vec3& square : a.squares) {
    if (gauge.widest() >= enough) return gauge.widest();
    gauge.look(place_a.turned(square));
  }
  for (const Vec3& square : b.squares) {
    if (gauge.widest() >= enough) return gauge.widest();
    gauge.look(place_b.turned(square));
  }
  if (gauge.widest() <= 0) look_along_edges(gauge, a, place_a, b, place_b);
  return std::max(gauge.widest(), balls);
}

double apart(const std::vector<Prism>& a, const Rigid& place_a, const std::vector<Prism>& b,
             const Rigid& place_b, double enough) {
  double least = std::numeric_limits<double>::infinity();
  for (const Prism& one : a) {
    for (const Prism& other : b) {
      least = std::min(least, apart(one, place_a, other, place_b, enough));
    }
  }
  return least;
}

}  // namespace quoin::fold
