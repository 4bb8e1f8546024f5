#include "press/fit.h"

#include <algorithm>
#include <cmath>

namespace quoin::press {
namespace {

/// The plain mean of places.
Point centre_of(const std::vector<Pair>& pairs, const std::vector<bool>& kept, Point Pair::*which) {
  double x = 0, y = 0;
  int n = 0;
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    if (!kept[i]) continue;
    x += (pairs[i].*which).x.value;
    y += (pairs[i].*which).y.value;
    ++n;
  }
  return {Mm{x / n}, Mm{y / n}};
}

Mm miss(const Affine& map, const Pair& pair) { return length(map(pair.meant) - pair.found); }

struct Moments {
  double xx = 0, xy = 0, yy = 0;          ///< of meant places about their centre
  double xu = 0, yu = 0, xv = 0, yv = 0;  ///< with found ones about theirs
  double uu = 0;                          ///< of found ones: squared distances
  int n = 0;
};

Moments moments(const std::vector<Pair>& pairs, const std::vector<bool>& kept, Point meant,
                Point found) {
  Moments m;
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    if (!kept[i]) continue;
    const Vec a = pairs[i].meant - meant, b = pairs[i].found - found;
    m.xx += a.x.value * a.x.value;
    m.xy += a.x.value * a.y.value;
    m.yy += a.y.value * a.y.value;
    m.xu += a.x.value * b.x.value;
    m.yu += a.y.value * b.x.value;
    m.xv += a.x.value * b.y.value;
    m.yv += a.y.value * b.y.value;
    m.uu += b.x.value * b.x.value + b.y.value * b.y.value;
    ++m.n;
  }
  return m;
}

/// One fit of the kept pairs; nothing when they lie on a line.
std::optional<AffineFit> fit_once(const std::vector<Pair>& pairs, std::vector<bool> kept) {
  const auto n = std::count(kept.begin(), kept.end(), true);
  if (n < 3) return std::nullopt;
  AffineFit fit;
  fit.centre = centre_of(pairs, kept, &Pair::meant);
  const Point found = centre_of(pairs, kept, &Pair::found);
  const Moments m = moments(pairs, kept, fit.centre, found);
  const double det = m.xx * m.yy - m.xy * m.xy;
  // On a line the smaller eigenvalue is nothing beside the larger: det/trace² is their ratio.
  if (!(det > 1e-9 * (m.xx + m.yy) * (m.xx + m.yy))) return std::nullopt;
  Affine linear;
  linear.a = (m.yy * m.xu - m.xy * m.yu) / det;
  linear.c = (m.xx * m.yu - m.xy * m.xu) / det;
  linear.b = (m.yy * m.xv - m.xy * m.yv) / det;
  linear.d = (m.xx * m.yv - m.xy * m.xv) / det;
  const Point at = linear(fit.centre);
  linear.e = found.x - at.x;
  linear.f = found.y - at.y;
  fit.map = linear;
  fit.used = static_cast<int>(n);
  fit.spread = {1.0 / m.n, 0, 0, 0, m.yy / det, -m.xy / det, 0, -m.xy / det, m.xx / det};
  double squares = 0;
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    const double off = miss(fit.map, pairs[i]).value;
    if (kept[i]) squares += off * off;
  }
  fit.rms = Mm{std::sqrt(squares / m.n)};
  fit.deviation = m.n > 3 ? Mm{std::sqrt(squares / (2.0 * m.n - 6))} : Mm{};
  fit.kept = std::move(kept);
  return fit;
}

Mm median_miss(const AffineFit& fit, const std::vector<Pair>& pairs) {
  std::vector<Mm> misses;
  for (const Pair& pair : pairs) misses.push_back(miss(fit.map, pair));
  const auto middle = misses.begin() + static_cast<std::ptrdiff_t>(misses.size() / 2);
  std::nth_element(misses.begin(), middle, misses.end());
  return *middle;
}

}  // namespace

Mm AffineFit::error_at(Point meant) const {
  const double u[3] = {1, (meant - centre).x.value, (meant - centre).y.value};
  double h = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) h += u[i] * spread[i * 3 + j] * u[j];
  }
  return deviation * std::sqrt(h);
}

std::optional<AffineFit> fit_affine(const std::vector<Pair>& pairs, Rejection rejection) {
  std::optional<AffineFit> fit = fit_once(pairs, std::vector<bool>(pairs.size(), true));
  for (int round = 0; fit && round < 10; ++round) {
    const Mm limit = std::max(rejection.floor, median_miss(*fit, pairs) * (3 * 1.4826));
    std::vector<bool> kept;
    for (const Pair& pair : pairs) kept.push_back(miss(fit->map, pair) <= limit);
    if (kept == fit->kept) break;
    std::optional<AffineFit> next = fit_once(pairs, std::move(kept));
    if (!next) break;
    fit = std::move(next);
  }
  return fit;
}

std::optional<Similarity> fit_similarity(const std::vector<Pair>& pairs, Scaling scaling) {
  if (pairs.size() < 2) return std::nullopt;
  const std::vector<bool> all(pairs.size(), true);
  const Point meant = centre_of(pairs, all, &Pair::meant);
  const Point found = centre_of(pairs, all, &Pair::found);
  const Moments m = moments(pairs, all, meant, found);
  const double size = m.xx + m.yy;
  if (!(size > 1e-12)) return std::nullopt;
  const double dot = m.xu + m.yv, cross = m.xv - m.yu;
  const double both = std::hypot(dot, cross);
  Similarity fit;
  fit.turn = Angle{std::atan2(cross, dot)};
  fit.scale = scaling == Scaling::free ? both / size : 1;
  fit.map = Affine::turn(fit.turn);
  for (double* k : {&fit.map.a, &fit.map.b, &fit.map.c, &fit.map.d}) *k *= fit.scale;
  const Point at = fit.map(meant);
  fit.map.e = found.x - at.x;
  fit.map.f = found.y - at.y;
  fit.mean_square = std::max(0.0, m.uu - 2 * fit.scale * both + fit.scale * fit.scale * size) / m.n;
  return fit;
}

Parts parts_of(const Affine& map, Point centre) {
  Parts parts;
  parts.shift = map(centre) - centre;
  parts.turn = Angle{std::atan2(map.b, map.a)};
  parts.scale_x = std::hypot(map.a, map.b);
  parts.scale_y = std::hypot(map.c, map.d);
  const double dot = map.a * map.c + map.b * map.d;
  parts.skew = Angle{std::asin(std::clamp(dot / (parts.scale_x * parts.scale_y), -1.0, 1.0))};
  return parts;
}

Affine map_of(const Parts& parts, Point centre) {
  const SinCos x = sin_cos(parts.turn);
  const SinCos y = sin_cos(Angle{parts.turn.radians - parts.skew.radians});
  Affine map{parts.scale_x * x.cos,
             parts.scale_x * x.sin,
             -parts.scale_y * y.sin,
             parts.scale_y * y.cos,
             {},
             {}};
  const Vec home = centre + parts.shift - map(centre);
  map.e = home.x;
  map.f = home.y;
  return map;
}

std::optional<Mm> bound(const AffineFit& fit, const std::vector<Point>& corners, Known known) {
  const double own = std::max(0.0, 2.0 * fit.used - 6), m = own + known.worth;
  if (m <= 0 || corners.empty()) return std::nullopt;
  const double chance = 0.05 / static_cast<double>(corners.size());
  const double f = m / 2 * (std::pow(chance, -2 / m) - 1);
  const double squares = own * fit.deviation.value * fit.deviation.value +
                         known.worth * known.deviation.value * known.deviation.value;
  AffineFit pooled = fit;
  pooled.deviation = Mm{std::sqrt(squares / m)};
  Mm worst;
  for (const Point& corner : corners) worst = std::max(worst, pooled.error_at(corner));
  return worst * std::sqrt(2 * f);
}

}  // namespace quoin::press
