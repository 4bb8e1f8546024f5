#include "geometry/polygon.h"

#include <algorithm>
#include <numeric>

namespace quoin {
namespace {

using Corners = std::vector<int>;

/// Twice the area of the triangle, positive when it turns clockwise on the page.
double turn(Point a, Point b, Point c) {
  const Vec u = b - a, v = c - a;
  return u.x.value * v.y.value - u.y.value * v.x.value;
}

bool holds(Point a, Point b, Point c, Point p) {
  return turn(a, b, p) >= 0 && turn(b, c, p) >= 0 && turn(c, a, p) >= 0;
}

/// Whether the corner at `i` can be cut off: it points outwards and no other corner lies in it.
bool is_ear(const Polygon& shape, const Corners& left, std::size_t i) {
  const std::size_t n = left.size();
  const Point a = shape[left[(i + n - 1) % n]], b = shape[left[i]], c = shape[left[(i + 1) % n]];
  if (turn(a, b, c) <= 1e-12) return false;
  return std::none_of(left.begin(), left.end(), [&](int k) {
    const Point p = shape[k];
    return p != a && p != b && p != c && holds(a, b, c, p);
  });
}

/// Corners on the line between their neighbours give no triangle and go first.
bool drop_flat_corner(const Polygon& shape, Corners& left) {
  const std::size_t n = left.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Point a = shape[left[(i + n - 1) % n]], b = shape[left[i]], c = shape[left[(i + 1) % n]];
    if (std::abs(turn(a, b, c)) > 1e-12) continue;
    left.erase(left.begin() + static_cast<std::ptrdiff_t>(i));
    return true;
  }
  return false;
}

/// Cuts off one ear; false when there is none, which a simple polygon does not have.
bool cut_ear(const Polygon& shape, Corners& left, std::vector<std::array<int, 3>>& cut) {
  const std::size_t n = left.size();
  for (std::size_t i = 0; i < n; ++i) {
    if (!is_ear(shape, left, i)) continue;
    cut.push_back({left[(i + n - 1) % n], left[i], left[(i + 1) % n]});
    left.erase(left.begin() + static_cast<std::ptrdiff_t>(i));
    return true;
  }
  return drop_flat_corner(shape, left);
}

/// Corner numbers clockwise on the page.
Corners clockwise(const Polygon& polygon) {
  Corners order(polygon.size());
  std::iota(order.begin(), order.end(), 0);
  if (signed_area(polygon) < 0) std::reverse(order.begin(), order.end());
  return order;
}

bool is_convex(const Polygon& shape, const Corners& corners) {
  const std::size_t n = corners.size();
  for (std::size_t i = 0; i < n; ++i) {
    if (turn(shape[corners[i]], shape[corners[(i + 1) % n]], shape[corners[(i + 2) % n]]) < -1e-9) {
      return false;
    }
  }
  return true;
}

/// The two joined along a side they share, in opposite directions; empty when they share none.
Corners joined(const Corners& a, const Corners& b) {
  for (std::size_t i = 0; i < a.size(); ++i) {
    const int from = a[i], to = a[(i + 1) % a.size()];
    for (std::size_t k = 0; k < b.size(); ++k) {
      if (b[k] != to || b[(k + 1) % b.size()] != from) continue;
      Corners whole;
      for (std::size_t s = 1; s <= a.size(); ++s) whole.push_back(a[(i + s) % a.size()]);
      for (std::size_t s = 2; s < b.size(); ++s) whole.push_back(b[(k + s) % b.size()]);
      return whole;
    }
  }
  return {};
}

bool join_two(const Polygon& shape, std::vector<Corners>& pieces) {
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    for (std::size_t k = i + 1; k < pieces.size(); ++k) {
      Corners whole = joined(pieces[i], pieces[k]);
      if (whole.empty() || !is_convex(shape, whole)) continue;
      pieces[i] = std::move(whole);
      pieces.erase(pieces.begin() + static_cast<std::ptrdiff_t>(k));
      return true;
    }
  }
  return false;
}

void add_ring(Path& path, const Polygon& ring) { path.append(Path::polygon(ring)); }

}  // namespace

double signed_area(const Polygon& polygon) {
  double twice = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point a = polygon[i], b = polygon[(i + 1) % polygon.size()];
    twice += a.x.value * b.y.value - b.x.value * a.y.value;
  }
  return twice / 2;
}

double area(const Polygon& polygon) { return std::abs(signed_area(polygon)); }

double area(const std::vector<Region>& regions) {
  double sum = 0;
  for (const Region& region : regions) {
    sum += area(region.outer);
    for (const Polygon& hole : region.holes) sum -= area(hole);
  }
  return sum;
}

Point centroid(const Polygon& polygon) {
  double x = 0, y = 0, weight = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point a = polygon[0], b = polygon[i], c = polygon[(i + 1) % polygon.size()];
    const double w = turn(a, b, c);
    x += w * (a.x.value + b.x.value + c.x.value) / 3;
    y += w * (a.y.value + b.y.value + c.y.value) / 3;
    weight += w;
  }
  if (std::abs(weight) > 1e-12) return {Mm{x / weight}, Mm{y / weight}};
  Vec sum;
  for (const Point p : polygon) sum = sum + (p - Point{});
  return Point{} + sum * (polygon.empty() ? 0 : 1.0 / static_cast<double>(polygon.size()));
}

Rect bounds(const Polygon& polygon) {
  if (polygon.empty()) return {};
  Rect box{polygon.front(), {}};
  for (const Point p : polygon) box = covering(box, Rect{p, {}});
  return box;
}

std::vector<std::array<int, 3>> triangles(const Polygon& polygon) {
  std::vector<std::array<int, 3>> cut;
  if (polygon.size() < 3) return cut;
  Corners left = clockwise(polygon);
  while (left.size() >= 3 && cut_ear(polygon, left, cut)) {
  }
  if (signed_area(polygon) < 0) {
    for (std::array<int, 3>& t : cut) std::swap(t[0], t[2]);
  }
  return cut;
}

std::vector<Polygon> convex_parts(const Polygon& polygon) {
  if (polygon.size() >= 3 && is_convex(polygon, clockwise(polygon))) return {polygon};
  std::vector<Corners> pieces;
  for (const std::array<int, 3>& t : triangles(polygon)) {
    pieces.emplace_back(t.begin(), t.end());
    if (signed_area(polygon) < 0) std::reverse(pieces.back().begin(), pieces.back().end());
  }
  while (join_two(polygon, pieces)) {
  }
  std::vector<Polygon> parts;
  for (const Corners& piece : pieces) {
    Polygon& part = parts.emplace_back();
    for (const int corner : piece) part.push_back(polygon[corner]);
  }
  return parts;
}

Path to_path(const std::vector<Region>& regions) {
  Path path;
  for (const Region& region : regions) {
    add_ring(path, region.outer);
    for (const Polygon& hole : region.holes) add_ring(path, hole);
  }
  return path;
}

}  // namespace quoin
