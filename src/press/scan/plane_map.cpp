#include "press/scan/plane_map.h"

#include <algorithm>
#include <cmath>

namespace quoin::press {
namespace {

using Matrix = std::array<double, 9>;

/// Solves a symmetric positive system in place by Gaussian elimination with pivots; false when it
/// is singular.
template <std::size_t N>
bool solve(std::array<std::array<double, N>, N>& a, std::array<double, N>& b) {
  for (std::size_t i = 0; i < N; ++i) {
    std::size_t pivot = i;
    for (std::size_t k = i + 1; k < N; ++k) {
      if (std::abs(a[k][i]) > std::abs(a[pivot][i])) pivot = k;
    }
    if (!(std::abs(a[pivot][i]) > 1e-12)) return false;
    std::swap(a[i], a[pivot]);
    std::swap(b[i], b[pivot]);
    for (std::size_t k = i + 1; k < N; ++k) {
      const double factor = a[k][i] / a[i][i];
      for (std::size_t j = i; j < N; ++j) a[k][j] -= factor * a[i][j];
      b[k] -= factor * b[i];
    }
  }
  for (std::size_t i = N; i-- > 0;) {
    for (std::size_t j = i + 1; j < N; ++j) b[i] -= a[i][j] * b[j];
    b[i] /= a[i][i];
  }
  return true;
}

/// Moves places to their middle and brings them to a mean distance of about one.
struct Frame {
  double x = 0, y = 0, scale = 1;
};

template <typename X, typename Y>
Frame frame_of(const std::vector<Sighting>& all, const std::vector<bool>& kept, X at_x, Y at_y) {
  Frame frame;
  double n = 0, spread = 0;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (!kept[i]) continue;
    frame.x += at_x(all[i]);
    frame.y += at_y(all[i]);
    ++n;
  }
  frame.x /= n;
  frame.y /= n;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (kept[i]) spread += std::hypot(at_x(all[i]) - frame.x, at_y(all[i]) - frame.y);
  }
  frame.scale = spread > 0 ? n / spread : 1;
  return frame;
}

/// A sighting in the two frames.
struct NormalEquations {
  double x, y, u, v;
};

/// One Gauss-Newton step on the eight parameters (the ninth is 1), or on the first six; false when
/// the places do not tell them.
template <std::size_t N>
bool step(const std::vector<NormalEquations>& all, std::array<double, 8>& h) {
  std::array<std::array<double, N>, N> normal{};
  std::array<double, N> right{};
  for (const NormalEquations& s : all) {
    const double w = h[6] * s.x + h[7] * s.y + 1;
    const double u = (h[0] * s.x + h[1] * s.y + h[2]) / w;
    const double v = (h[3] * s.x + h[4] * s.y + h[5]) / w;
    const std::array<double, 8> du{s.x / w, s.y / w, 1 / w, 0, 0, 0, -u * s.x / w, -u * s.y / w};
    const std::array<double, 8> dv{0, 0, 0, s.x / w, s.y / w, 1 / w, -v * s.x / w, -v * s.y / w};
    for (std::size_t i = 0; i < N; ++i) {
      for (std::size_t j = 0; j < N; ++j) normal[i][j] += du[i] * du[j] + dv[i] * dv[j];
      right[i] += du[i] * (s.u - u) + dv[i] * (s.v - v);
    }
  }
  if (!solve<N>(normal, right)) return false;
  for (std::size_t i = 0; i < N; ++i) h[i] += right[i];
  return true;
}

std::vector<NormalEquations> normalised(const std::vector<Sighting>& all,
                                        const std::vector<bool>& kept, const Frame& from,
                                        const Frame& to) {
  std::vector<NormalEquations> normal;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (!kept[i]) continue;
    const Sighting& s = all[i];
    normal.push_back({(s.place.x.value - from.x) * from.scale,
                      (s.place.y.value - from.y) * from.scale, (s.seen.x - to.x) * to.scale,
                      (s.seen.y - to.y) * to.scale});
  }
  return normal;
}

Matrix product(const Matrix& a, const Matrix& b) {
  Matrix c{};
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) {
      for (std::size_t k = 0; k < 3; ++k) c[i * 3 + j] += a[i * 3 + k] * b[k * 3 + j];
    }
  }
  return c;
}

/// Out of the two frames again.
PlaneMap in_pixels(const std::array<double, 8>& h, const Frame& from, const Frame& to) {
  const Matrix into{from.scale, 0, -from.x * from.scale, 0, from.scale, -from.y * from.scale, 0,
                    0,          1};
  const Matrix out{1 / to.scale, 0, to.x, 0, 1 / to.scale, to.y, 0, 0, 1};
  PlaneMap map;
  map.m = product(out, product({h[0], h[1], h[2], h[3], h[4], h[5], h[6], h[7], 1}, into));
  for (double& each : map.m) each /= map.m[8] == 0 ? 1 : map.m[8];
  return map;
}

double distance(const PlaneMap& map, const Sighting& s) {
  const Pixel at = map(s.place);
  return std::hypot(at.x - s.seen.x, at.y - s.seen.y);
}

/// True when all places lie before the camera and the sheet is not folded over between them.
bool is_sound(const PlaneMap& map, const std::vector<Sighting>& all) {
  return std::all_of(all.begin(), all.end(), [&](const Sighting& s) {
    const double w = map.m[6] * s.place.x.value + map.m[7] * s.place.y.value + map.m[8];
    const Pixel at = map(s.place);
    return w > 1e-3 && std::isfinite(at.x) && std::isfinite(at.y);
  });
}

std::optional<PlaneSighted> fit_once(const std::vector<Sighting>& all, std::vector<bool> kept,
                                     Perspective perspective) {
  PlaneSighted fit;
  fit.used = static_cast<int>(std::count(kept.begin(), kept.end(), true));
  if (fit.used < (perspective == Perspective::free ? 4 : 3)) return std::nullopt;
  const Frame from = frame_of(
      all, kept, [](const Sighting& s) { return s.place.x.value; },
      [](const Sighting& s) { return s.place.y.value; });
  const Frame to = frame_of(
      all, kept, [](const Sighting& s) { return s.seen.x; },
      [](const Sighting& s) { return s.seen.y; });
  const std::vector<NormalEquations> normal = normalised(all, kept, from, to);
  std::array<double, 8> h{};
  if (!step<6>(normal, h)) return std::nullopt;
  for (int round = 0; perspective == Perspective::free && round < 12; ++round) {
    const std::array<double, 8> before = h;
    if (!step<8>(normal, h)) return std::nullopt;
    double change = 0;
    for (std::size_t i = 0; i < 8; ++i) change = std::max(change, std::abs(h[i] - before[i]));
    if (!(change < 10)) return std::nullopt;
    if (change < 1e-12) break;
  }
  fit.map = in_pixels(h, from, to);
  if (!is_sound(fit.map, all)) return std::nullopt;
  double squares = 0;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (kept[i]) squares += std::pow(distance(fit.map, all[i]), 2);
  }
  fit.rms = std::sqrt(squares / fit.used);
  fit.kept = std::move(kept);
  return fit;
}

double median_distance(const PlaneMap& map, const std::vector<Sighting>& all) {
  std::vector<double> distances;
  for (const Sighting& s : all) distances.push_back(distance(map, s));
  const auto middle = distances.begin() + static_cast<std::ptrdiff_t>(distances.size() / 2);
  std::nth_element(distances.begin(), middle, distances.end());
  return *middle;
}

}  // namespace

Pixel PlaneMap::operator()(Point p) const {
  const double x = p.x.value, y = p.y.value;
  const double w = m[6] * x + m[7] * y + m[8];
  return {(m[0] * x + m[1] * y + m[2]) / w, (m[3] * x + m[4] * y + m[5]) / w};
}

Point PlaneMap::place_of(Pixel p) const {
  // The adjugate takes pixels back, up to a factor that the division takes out.
  const double x = (m[4] * m[8] - m[5] * m[7]) * p.x + (m[2] * m[7] - m[1] * m[8]) * p.y +
                   (m[1] * m[5] - m[2] * m[4]);
  const double y = (m[5] * m[6] - m[3] * m[8]) * p.x + (m[0] * m[8] - m[2] * m[6]) * p.y +
                   (m[2] * m[3] - m[0] * m[5]);
  const double w = (m[3] * m[7] - m[4] * m[6]) * p.x + (m[1] * m[6] - m[0] * m[7]) * p.y +
                   (m[0] * m[4] - m[1] * m[3]);
  return {Mm{x / w}, Mm{y / w}};
}

double PlaneMap::pixels_per_mm(Point about) const {
  const Pixel at = (*this)(about), right = (*this)(about + Vec{Mm{1}, Mm{}}),
              down = (*this)(about + Vec{Mm{}, Mm{1}});
  const double area = (right.x - at.x) * (down.y - at.y) - (right.y - at.y) * (down.x - at.x);
  return std::sqrt(std::abs(area));
}

std::optional<PlaneSighted> fit_plane(const std::vector<Sighting>& sightings,
                                      Perspective perspective, double floor) {
  auto fit = fit_once(sightings, std::vector<bool>(sightings.size(), true), perspective);
  for (int round = 0; fit && round < 8; ++round) {
    const double limit = std::max(floor, median_distance(fit->map, sightings) * (3 * 1.4826));
    std::vector<bool> kept;
    for (const Sighting& s : sightings) kept.push_back(distance(fit->map, s) <= limit);
    if (kept == fit->kept) break;
    auto next = fit_once(sightings, std::move(kept), perspective);
    if (!next) break;
    fit = std::move(next);
  }
  return fit;
}

}  // namespace quoin::press
