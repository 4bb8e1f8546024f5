#include "trace/pixels/ramp.h"

#include <array>
#include <numbers>
#include <numeric>

namespace quoin::trace {
namespace {

constexpr int search_bins = 48;
constexpr std::size_t most_stops = 12;

/// Where along a ramp a place lies, in pixels.
using Along = std::array<double, 3>;  // linear: cosine, sine, unused; radial: centre x, y, unused

double position(bool radial, const Along& at, Spot p) {
  return radial ? std::hypot(p.x - at[0], p.y - at[1]) : p.x * at[0] + p.y * at[1];
}

/// How unlike the colours of one position are: the mean squared distance from the line through the
/// means of neighbouring bins.
double unlikeness(const std::vector<ColourSample>& samples, bool radial, const Along& at) {
  double low = 1e18, high = -1e18;
  for (const ColourSample& s : samples) {
    const double t = position(radial, at, s.at);
    low = std::min(low, t);
    high = std::max(high, t);
  }
  if (high - low < 1) return 1e18;
  struct ProfileBin {
    double count = 0, t = 0, tt = 0;
    std::array<double, 3> c{}, ct{}, cc{};
  };
  std::array<ProfileBin, search_bins> bins{};
  for (const ColourSample& s : samples) {
    const double share = (position(radial, at, s.at) - low) / (high - low);
    const auto i = std::min<std::size_t>(search_bins - 1, std::size_t(share * search_bins));
    ProfileBin& bin = bins[i];
    const double t = share * search_bins - double(i) - 0.5;
    const std::array<double, 3> c{s.colour.x, s.colour.y, s.colour.z};
    bin.count += 1;
    bin.t += t;
    bin.tt += t * t;
    for (std::size_t k = 0; k < 3; ++k) {
      bin.c[k] += c[k];
      bin.ct[k] += c[k] * t;
      bin.cc[k] += c[k] * c[k];
    }
  }
  double sum = 0;
  for (const ProfileBin& bin : bins) {
    if (bin.count < 1) continue;
    const double vt = bin.tt - bin.t * bin.t / bin.count;
    for (std::size_t k = 0; k < 3; ++k) {
      const double vc = bin.cc[k] - bin.c[k] * bin.c[k] / bin.count;
      const double vct = bin.ct[k] - bin.c[k] * bin.t / bin.count;
      sum += std::max(0.0, vt > 1e-9 ? vc - vct * vct / vt : vc);
    }
  }
  return sum / static_cast<double>(samples.size());
}

/// The direction in which colours change most.
double main_angle(const std::vector<ColourSample>& samples) {
  double xx = 0, yy = 0, xy = 0;
  for (const ColourSample& s : samples) {
    xx += dot(s.across, s.across);
    yy += dot(s.down, s.down);
    xy += dot(s.across, s.down);
  }
  return 0.5 * std::atan2(2 * xy, xx - yy);
}

double best_angle(const std::vector<ColourSample>& samples) {
  const auto badness = [&](double angle) {
    return unlikeness(samples, false, {std::cos(angle), std::sin(angle), 0});
  };
  double angle = main_angle(samples), least = badness(angle);
  for (double step = 0.12; step > 0.001; step /= 2) {
    for (bool moved = true; moved;) {
      moved = false;
      for (const double next : {angle - step, angle + step}) {
        const double found = badness(next);
        if (found >= least * 0.9999) continue;
        least = found;
        angle = next;
        moved = true;
      }
    }
  }
  return angle;
}

/// Where the lines along which colours change meet, by least squares.
std::optional<Spot> first_centre(const std::vector<ColourSample>& samples) {
  double xx = 0, xy = 0, yy = 0, x = 0, y = 0;
  for (const ColourSample& s : samples) {
    for (const auto& [gx, gy] :
         {std::pair{s.across.x, s.down.x}, {s.across.y, s.down.y}, {s.across.z, s.down.z}}) {
      const double nx = -gy, ny = gx, offset = nx * s.at.x + ny * s.at.y;
      xx += nx * nx;
      xy += nx * ny;
      yy += ny * ny;
      x += nx * offset;
      y += ny * offset;
    }
  }
  const double det = xx * yy - xy * xy;
  if (det <= 1e-6 * (xx + yy) * (xx + yy)) return std::nullopt;
  return Spot{(x * yy - y * xy) / det, (y * xx - x * xy) / det};
}

Spot best_centre(const std::vector<ColourSample>& samples, Spot centre, double extent) {
  const auto badness = [&](Spot c) { return unlikeness(samples, true, {c.x, c.y, 0}); };
  double least = badness(centre);
  int rounds = 0;
  for (double step = extent / 8; step > 0.2; step /= 2) {
    for (bool moved = true; moved && rounds < 200; ++rounds) {
      moved = false;
      for (const Spot& way : {Spot{step, 0}, {-step, 0}, {0, step}, {0, -step}}) {
        const double found = badness(centre + way);
        if (found >= least * 0.9999) continue;
        least = found;
        centre = centre + way;
        moved = true;
      }
    }
  }
  return centre;
}

/// Mean colours in even steps along the ramp, each where its samples are on the average.
struct ProfilePoint {
  double offset = 0;
  Three colour;
};
std::vector<ProfilePoint> profile_of(const Ramp& ramp, const std::vector<ColourSample>& samples,
                                     std::size_t count) {
  std::vector<ProfilePoint> sums(count);
  std::vector<double> weight(count, 0);
  for (const ColourSample& s : samples) {
    const double t = std::clamp(ramp.offset_of(s.at), 0.0, 1.0);
    const auto i = std::min(count - 1, static_cast<std::size_t>(t * double(count)));
    sums[i].offset += t;
    sums[i].colour = sums[i].colour + s.colour;
    weight[i] += 1;
  }
  std::vector<ProfilePoint> profile;
  for (std::size_t i = 0; i < count; ++i) {
    if (weight[i] < 1) continue;
    profile.push_back({sums[i].offset / weight[i], sums[i].colour * float(1 / weight[i])});
  }
  return profile;
}

/// The points of the profile that straight lines between them follow to within the tolerance.
void keep_bends(const std::vector<ProfilePoint>& profile, std::size_t first, std::size_t last,
                float tolerance, std::vector<std::size_t>& kept) {
  std::size_t worst = first;
  float far = tolerance;
  const ProfilePoint &a = profile[first], &b = profile[last];
  for (std::size_t i = first + 1; i < last; ++i) {
    const auto share = static_cast<float>((profile[i].offset - a.offset) / (b.offset - a.offset));
    const float off = distance(profile[i].colour, a.colour * (1 - share) + b.colour * share);
    if (off <= far) continue;
    far = off;
    worst = i;
  }
  if (worst == first) return;
  keep_bends(profile, first, worst, tolerance, kept);
  kept.push_back(worst);
  keep_bends(profile, worst, last, tolerance, kept);
}

/// Moves the colours of the stops to where they fit all samples best (tridiagonal least squares).
void refit_colours(Ramp& ramp, const std::vector<ColourSample>& samples) {
  const std::size_t count = ramp.offsets.size();
  std::vector<double> diagonal(count, 1e-6), above(count, 0);
  std::vector<std::array<double, 3>> right(count);
  for (std::size_t i = 0; i < count; ++i) {
    const Three c = ramp.colours[i] * 1e-6F;
    right[i] = {c.x, c.y, c.z};
  }
  for (const ColourSample& s : samples) {
    const double t = std::clamp(ramp.offset_of(s.at), 0.0, 1.0);
    std::size_t i = 0;
    while (i + 2 < count && t > ramp.offsets[i + 1]) ++i;
    const double share = (t - ramp.offsets[i]) / (ramp.offsets[i + 1] - ramp.offsets[i]);
    const std::array<double, 3> c{s.colour.x, s.colour.y, s.colour.z};
    diagonal[i] += (1 - share) * (1 - share);
    diagonal[i + 1] += share * share;
    above[i] += share * (1 - share);
    for (std::size_t k = 0; k < 3; ++k) {
      right[i][k] += (1 - share) * c[k];
      right[i + 1][k] += share * c[k];
    }
  }
  for (std::size_t i = 1; i < count; ++i) {
    const double factor = above[i - 1] / diagonal[i - 1];
    diagonal[i] -= factor * above[i - 1];
    for (std::size_t k = 0; k < 3; ++k) right[i][k] -= factor * right[i - 1][k];
  }
  for (std::size_t i = count; i-- > 0;) {
    for (std::size_t k = 0; k < 3; ++k) {
      if (i + 1 < count) right[i][k] -= above[i] * right[i + 1][k];
      right[i][k] /= diagonal[i];
    }
    const auto part = [&](std::size_t k) {
      return static_cast<float>(std::clamp(right[i][k], 0.0, 255.0));
    };
    ramp.colours[i] = {part(0), part(1), part(2)};
  }
}

FittedRamp finished(Ramp ramp, const std::vector<ColourSample>& samples, double span,
                    double noise) {
  const auto count = static_cast<std::size_t>(std::clamp(span / 2, 8.0, 96.0));
  const std::vector<ProfilePoint> profile = profile_of(ramp, samples, count);
  std::vector<std::size_t> kept;
  for (float tolerance = static_cast<float>(1.5 + 3 * noise);; tolerance *= 1.5F) {
    kept.clear();
    keep_bends(profile, 0, profile.size() - 1, tolerance, kept);
    if (kept.size() + 2 <= most_stops) break;
  }
  const auto add = [&](double offset, Three colour) {
    ramp.offsets.push_back(offset);
    ramp.colours.push_back(colour);
  };
  add(0, profile.front().colour);
  for (const std::size_t i : kept) add(profile[i].offset, profile[i].colour);
  add(1, profile.back().colour);
  refit_colours(ramp, samples);
  FittedRamp fitted{std::move(ramp), 0};
  for (const ColourSample& s : samples) fitted.misfit += distance(fitted.ramp.at(s.at), s.colour);
  fitted.misfit /= static_cast<double>(samples.size());
  return fitted;
}

FittedRamp linear_ramp(const std::vector<ColourSample>& samples, double noise) {
  const double angle = best_angle(samples);
  const Spot way{std::cos(angle), std::sin(angle)};
  double low = 1e18, high = -1e18;
  Spot middle;
  for (const ColourSample& s : samples) {
    const double t = s.at.x * way.x + s.at.y * way.y;
    low = std::min(low, t);
    high = std::max(high, t);
    middle = middle + s.at * (1.0 / double(samples.size()));
  }
  // The line runs through the middle of the samples.
  const double here = middle.x * way.x + middle.y * way.y;
  Ramp ramp;
  ramp.from = middle + way * (low - here);
  ramp.to = middle + way * (high - here);
  return finished(std::move(ramp), samples, high - low, noise);
}

std::optional<FittedRamp> radial_ramp(const std::vector<ColourSample>& samples, double noise) {
  const auto first = first_centre(samples);
  if (!first) return std::nullopt;
  Spot low = samples.front().at, high = low;
  for (const ColourSample& s : samples) {
    low = {std::min(low.x, s.at.x), std::min(low.y, s.at.y)};
    high = {std::max(high.x, s.at.x), std::max(high.y, s.at.y)};
  }
  const double extent = std::max(high.x - low.x, high.y - low.y);
  const Spot middle = (low + high) * 0.5;
  if (std::hypot(first->x - middle.x, first->y - middle.y) > 3 * extent) return std::nullopt;
  Ramp ramp;
  ramp.radial = true;
  ramp.from = best_centre(samples, *first, extent);
  for (const ColourSample& s : samples) {
    ramp.radius = std::max(ramp.radius, std::hypot(s.at.x - ramp.from.x, s.at.y - ramp.from.y));
  }
  const double span = ramp.radius;
  return finished(std::move(ramp), samples, span, noise);
}

}  // namespace

double Ramp::offset_of(Spot place) const {
  if (radial) return radius > 0 ? std::hypot(place.x - from.x, place.y - from.y) / radius : 0;
  const Spot way = to - from, there = place - from;
  const double length = way.x * way.x + way.y * way.y;
  return length > 0 ? (there.x * way.x + there.y * way.y) / length : 0;
}

Three Ramp::at(Spot place) const {
  const double offset = offset_of(place);
  if (offset <= offsets.front()) return colours.front();
  for (std::size_t i = 1; i < offsets.size(); ++i) {
    if (offset > offsets[i]) continue;
    const double span = offsets[i] - offsets[i - 1];
    const float share = span > 0 ? static_cast<float>((offset - offsets[i - 1]) / span) : 1;
    return colours[i - 1] * (1 - share) + colours[i] * share;
  }
  return colours.back();
}

std::optional<FittedRamp> fit_ramp(const std::vector<ColourSample>& samples, double noise) {
  if (samples.size() < 60) return std::nullopt;
  double change = 0;
  for (const ColourSample& s : samples) change += dot(s.across, s.across) + dot(s.down, s.down);
  if (change <= 0) return std::nullopt;
  FittedRamp best = linear_ramp(samples, noise);
  auto radial = radial_ramp(samples, noise);
  if (radial && radial->misfit < 0.85 * best.misfit) return radial;
  return best;
}

}  // namespace quoin::trace
