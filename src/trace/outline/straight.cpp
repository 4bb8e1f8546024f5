#include "trace/outline/straight.h"

#include <cmath>

namespace quoin::trace {
namespace {

Spot mean_of(std::span<const Spot> points) {
  Spot sum;
  for (const Spot& p : points) sum = sum + p;
  return sum * (1.0 / static_cast<double>(points.size()));
}

}  // namespace

double length(Spot way) { return std::hypot(way.x, way.y); }

Spot unit(Spot way) {
  const double size = length(way);
  return size > 1e-12 ? way * (1 / size) : Spot{1, 0};
}

StraightLine best_line(std::span<const Spot> points) {
  const Spot middle = mean_of(points);
  double xx = 0, yy = 0, xy = 0;
  for (const Spot& p : points) {
    const Spot d = p - middle;
    xx += d.x * d.x;
    yy += d.y * d.y;
    xy += d.x * d.y;
  }
  const double angle = 0.5 * std::atan2(2 * xy, xx - yy);
  return {middle, {std::cos(angle), std::sin(angle)}};
}

std::optional<Spot> meeting(const StraightLine& a, const StraightLine& b) {
  const double sine = cross(a.way, b.way);
  if (std::abs(sine) <= 0.2) return std::nullopt;
  return a.at + a.way * (cross(b.at - a.at, b.way) / sine);
}

std::optional<Circle> best_circle(std::span<const Spot> points) {
  if (points.size() < 3) return std::nullopt;
  const Spot middle = mean_of(points);
  double xx = 0, yy = 0, xy = 0, xz = 0, yz = 0, z = 0;
  for (const Spot& p : points) {
    const Spot d = p - middle;
    const double square = dot(d, d);
    xx += d.x * d.x;
    yy += d.y * d.y;
    xy += d.x * d.y;
    xz += d.x * square;
    yz += d.y * square;
    z += square;
  }
  const double det = xx * yy - xy * xy;
  if (det <= 1e-9 * (xx + yy) * (xx + yy)) return std::nullopt;
  const Spot off{(xz * yy - yz * xy) / (2 * det), (yz * xx - xz * xy) / (2 * det)};
  const double mean_square = z / static_cast<double>(points.size());
  return Circle{middle + off, std::sqrt(dot(off, off) + mean_square)};
}

}  // namespace quoin::trace
