#include "trace/photo/quad.h"

#include <algorithm>
#include <numbers>

namespace quoin::trace {
namespace {

constexpr double least_focal = 0.65, most_focal = 6;  // halves of the longer side

}  // namespace

double area_of(const Corners& c) {
  double twice = 0;
  for (std::size_t i = 0; i < 4; ++i) twice += cross(c[i], c[(i + 1) % 4]);
  return twice / 2;
}

Corners clockwise(Corners c) {
  const Spot centre = mean(c);
  std::sort(c.begin(), c.end(), [&](Spot a, Spot b) {
    return std::atan2(a.y - centre.y, a.x - centre.x) < std::atan2(b.y - centre.y, b.x - centre.x);
  });
  // Turned least: the first side runs to the right more than the others do.
  std::size_t first = 0;
  double best = -1e9;
  for (std::size_t i = 0; i < 4; ++i) {
    const Spot across = unit(c[(i + 1) % 4] - c[i]) + unit(c[(i + 2) % 4] - c[(i + 3) % 4]);
    if (across.x > best + 1e-9) {
      best = across.x;
      first = i;
    }
  }
  std::rotate(c.begin(), c.begin() + std::ptrdiff_t(first), c.end());
  return c;
}

bool is_convex(const Corners& c) {
  for (std::size_t i = 0; i < 4; ++i) {
    if (cross(c[(i + 1) % 4] - c[i], c[(i + 2) % 4] - c[(i + 1) % 4]) <= 0) return false;
  }
  return true;
}

bool lies_in(Spot p, const Corners& c) {
  for (std::size_t i = 0; i < 4; ++i) {
    if (cross(c[(i + 1) % 4] - c[i], p - c[i]) < 0) return false;
  }
  return true;
}

double farthest_corner(const Corners& a, const Corners& b) {
  double worst = 0;
  for (const Spot p : a) {
    double nearest = 1e18;
    for (const Spot q : b) nearest = std::min(nearest, size(p - q));
    worst = std::max(worst, nearest);
  }
  return worst;
}

Homography from_unit_square(const Corners& c) {
  const Spot s = c[0] - c[1] + c[2] - c[3], a = c[1] - c[2], b = c[3] - c[2];
  const double whole = cross(a, b);
  const double g = cross(s, b) / whole, h = cross(a, s) / whole;
  const Spot u = c[1] - c[0] + c[1] * g, v = c[3] - c[0] + c[3] * h;
  return {{u.x, v.x, c[0].x, u.y, v.y, c[0].y, g, h, 1}};
}

Spot Lens::as_seen(Spot straight) const {
  if (bow == 0) return straight;
  Spot seen = straight;
  for (int i = 0; i < 12; ++i) seen = seen + (straight - straightened(seen));
  return seen;
}

Pose pose_of(const Corners& straight, double proportion, const Lens& lens) {
  Corners c;
  for (std::size_t i = 0; i < 4; ++i) c[i] = (straight[i] - lens.middle) * (1 / lens.half);
  const std::array<double, 9> m = from_unit_square(c).m;
  Pose best;
  best.misfit = 1e9;
  double suits = 1;
  const auto consider = [&](double f) {
    const auto inner = [&](std::size_t j, std::size_t k) {
      return (m[j] * m[k] + m[3 + j] * m[3 + k]) / (f * f) + m[6 + j] * m[6 + k];
    };
    const double a = inner(0, 0), b = inner(1, 1);
    const double seen = std::sqrt(a / b);
    const double off = 100 * std::log(seen / proportion);
    const double skew = 100 * inner(0, 1) / std::sqrt(a * b);
    const double misfit = std::hypot(off, skew);
    if (misfit >= best.misfit) return;
    best.misfit = misfit;
    best.proportion = seen;
    suits = f;
  };
  constexpr int steps = 14;
  for (int i = 0; i <= steps; ++i) {
    consider(least_focal * std::pow(most_focal / least_focal, double(i) / steps));
  }
  for (double stride = 1.09; stride > 1.003; stride = std::sqrt(stride)) {
    const double f = suits;
    consider(std::min(f * stride, most_focal));
    consider(std::max(f / stride, least_focal));
  }
  // The normal of the plane is the cross product of its two directions.
  const double u[3] = {m[0] / suits, m[3] / suits, m[6]}, v[3] = {m[1] / suits, m[4] / suits, m[7]};
  const double n[3] = {u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2],
                       u[0] * v[1] - u[1] * v[0]};
  const double upright = std::abs(n[2]) / std::sqrt(n[0] * n[0] + n[1] * n[1] + n[2] * n[2]);
  best.tilt = std::acos(std::min(1.0, upright)) * 180 / std::numbers::pi;
  return best;
}

}  // namespace quoin::trace
