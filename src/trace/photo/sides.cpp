#include "trace/photo/sides.h"

#include <algorithm>

namespace quoin::trace {
namespace {

constexpr int stretches = 8;    // of a side, each with a step of its own direction in colour
constexpr int groups_each = 3;  // spots of the edge to a segment
constexpr double inset = 0.08;  // of a side: round corners are left out

/// Steps of colour beside a side: `at(k, s)` is that at station k, s px outwards.
class Steps {
 public:
  Steps(const View& view, Spot from, Spot to, const Lens& lens, int band) : band_(band) {
    const double length = size(to - from);
    each_ = std::clamp(static_cast<int>(length / 4 / stretches), 3, 12) / groups_each * groups_each;
    stations_ = each_ * stretches;
    const Spot along = unit(to - from);
    outwards_ = {along.y, -along.x};
    const int wide = 2 * band + 3;
    std::vector<Three> line(static_cast<std::size_t>(wide));
    steps_.reserve(std::size_t(stations_) * std::size_t(2 * band + 1));
    for (int k = 0; k < stations_; ++k) {
      const double t = inset + (1 - 2 * inset) * (k + 0.5) / stations_;
      places_.push_back(from + (to - from) * t);
      const Spot middle = lens.as_seen(places_.back());
      for (int s = 0; s < wide; ++s) {
        const Spot p = middle + outwards_ * (s - band - 1);
        // Beyond the picture nothing steps: the last colour goes on.
        const Spot q{std::clamp(p.x, 0.5, view.width() - 0.51),
                     std::clamp(p.y, 0.5, view.height() - 0.51)};
        line[std::size_t(s)] = view.at(q);
      }
      for (int s = 0; s < 2 * band + 1; ++s) {
        steps_.push_back(line[std::size_t(s) + 2] - line[std::size_t(s)]);
      }
    }
  }
  [[nodiscard]] int band() const { return band_; }
  [[nodiscard]] int stations() const { return stations_; }
  [[nodiscard]] int each() const { return each_; }
  [[nodiscard]] const Three& at(int k, int s) const {
    return steps_[std::size_t(k) * std::size_t(2 * band_ + 1) + std::size_t(s + band_)];
  }
  [[nodiscard]] Spot place(double k, double s) const {
    const double i = std::clamp(k, 0.0, stations_ - 1.0);
    const int j = std::min(static_cast<int>(i), stations_ - 2);
    return places_[std::size_t(j)] * (1 - (i - j)) + places_[std::size_t(j) + 1] * (i - j) +
           outwards_ * s;
  }
  /// Along the line that is `first` outwards at the first station and `last` at the last one.
  [[nodiscard]] Three mean(int segment, double first, double last) const {
    Three sum;
    for (int k = segment * each_; k < (segment + 1) * each_; ++k) {
      sum = sum + at(k, offset(k, first, last));
    }
    return sum * (1.0F / static_cast<float>(each_));
  }
  [[nodiscard]] int offset(int k, double first, double last) const {
    const double s = first + (last - first) * k / (stations_ - 1);
    return std::clamp(static_cast<int>(std::lround(s)), -band_, band_);
  }

 private:
  int band_ = 0, stations_ = 0, each_ = 0;
  Spot outwards_;
  std::vector<Spot> places_;
  std::vector<Three> steps_;
};

struct Line {
  double first = 0, last = 0, score = -1;
};

double score_of(const Steps& steps, double first, double last) {
  double sum = 0;
  for (int j = 0; j < stretches; ++j) {
    const double step = std::sqrt(squared(steps.mean(j, first, last)));
    // Where all are steep enough the steepest line is still the edge.
    sum += std::min(step, steep_enough) + 0.02 * step;
  }
  return sum / stretches;
}

Line best_line(const Steps& steps) {
  Line best;
  const int band = steps.band(), stride = band > 9 ? 2 : 1;
  const auto consider = [&](int first, int last) {
    // Of two edges as strong the outer one: what is printed lies inside.
    const double outer = band > 9 ? 0.02 * (first + last) / 2.0 : 0;
    const double score = score_of(steps, first, last) + outer;
    if (score > best.score) best = {double(first), double(last), score};
  };
  for (int first = -band; first <= band; first += stride) {
    for (int last = -band; last <= band; last += stride) consider(first, last);
  }
  if (stride > 1) {
    const Line rough = best;
    for (int i = -1; i <= 1; ++i) {
      for (int j = -1; j <= 1; ++j) {
        consider(std::clamp(int(rough.first) + i, -band, band),
                 std::clamp(int(rough.last) + j, -band, band));
      }
    }
  }
  return best;
}

struct EdgeSpot {
  double station = 0, offset = 0, step = 0;
};

/// Where the colour steps most within 3 px of the line, a spot for each group of stations.
std::vector<EdgeSpot> spots_near(const Steps& steps, const Line& line) {
  std::vector<EdgeSpot> spots;
  const int group = steps.each() / groups_each;
  for (int j = 0; j < stretches; ++j) {
    const Three whole = steps.mean(j, line.first, line.last);
    const Three direction = whole * (1 / std::max(1e-6F, std::sqrt(squared(whole))));
    for (int g = 0; g < groups_each; ++g) {
      const int start = j * steps.each() + g * group;
      const int centre = steps.offset(start + group / 2, line.first, line.last);
      const auto step = [&](int s) {
        Three sum;
        for (int k = start; k < start + group; ++k) {
          const int own = steps.offset(k, line.first, line.last) + s - centre;
          sum = sum + steps.at(k, std::clamp(own, -steps.band(), steps.band()));
        }
        return double(dot(sum, direction)) / group;
      };
      const int least = std::max(centre - 3, -steps.band() + 1);
      const int most = std::min(centre + 3, steps.band() - 1);
      int top = std::clamp(centre, least, most);
      for (int s = least; s <= most; ++s) {
        if (step(s) > step(top)) top = s;
      }
      const double a = step(top - 1), b = step(top), c = step(top + 1), bend = a - 2 * b + c;
      const double part = bend < -1e-9 ? std::clamp(0.5 * (a - c) / bend, -1.0, 1.0) : 0;
      // Stations of a group follow the line by whole pixels; the spot keeps what they left over.
      double rounded = 0;
      for (int k = start; k < start + group; ++k) {
        rounded += steps.offset(k, line.first, line.last);
      }
      spots.push_back({start + (group - 1) / 2.0, rounded / group + top - centre + part, b});
    }
  }
  return spots;
}

/// A line through spots, those far from it counting less and less (Tukey's biweight).
struct Fit {
  double at = 0, slope = 0, residual = 0;
};
Fit robust_line(const std::vector<EdgeSpot>& spots, Fit fit, double reach) {
  for (int round = 0; round < 12; ++round) {
    double w0 = 0, w1 = 0, w2 = 0, v0 = 0, v1 = 0, square = 0;
    for (const EdgeSpot& spot : spots) {
      const double off = spot.offset - fit.at - fit.slope * spot.station;
      if (std::abs(off) >= reach || spot.step <= 0) continue;
      const double near = 1 - off * off / (reach * reach);
      const double w = near * near * std::min(spot.step, steep_enough);
      w0 += w;
      w1 += w * spot.station;
      w2 += w * spot.station * spot.station;
      v0 += w * spot.offset;
      v1 += w * spot.offset * spot.station;
      square += w * off * off;
    }
    const double whole = w0 * w2 - w1 * w1;
    if (whole < 1e-9) break;
    fit = {(v0 * w2 - v1 * w1) / whole, (v1 * w0 - v0 * w1) / whole, std::sqrt(square / w0)};
    reach = std::max(1.2, reach * 0.8);
  }
  return fit;
}

std::optional<Side> follow(const View& view, Spot from, Spot to, const Lens& lens, int band) {
  const Steps steps(view, from, to, lens, band);
  const Line line = best_line(steps);
  const double notable = notable_step(view, steps.each() / double(groups_each));
  if (line.score < notable_step(view, steps.each())) return std::nullopt;
  const std::vector<EdgeSpot> spots = spots_near(steps, line);
  const Fit start{line.first, (line.last - line.first) / (steps.stations() - 1), 0};
  const Fit fit = robust_line(spots, start, 2.5);
  Side side;
  side.residual = fit.residual;
  for (const EdgeSpot& spot : spots) {
    const double off = spot.offset - fit.at - fit.slope * spot.station;
    side.strength += std::clamp(spot.step, 0.0, steep_enough) / double(spots.size());
    side.steepness += std::max(spot.step, 0.0) / double(spots.size());
    if (spot.step < notable || std::abs(off) > 3) continue;
    side.spots.push_back(lens.as_seen(steps.place(spot.station, spot.offset)));
    if (std::abs(off) < 1.2) side.support += 1.0 / double(spots.size());
  }
  const double last = steps.stations() - 1.0;
  side.from = steps.place(0, fit.at);
  side.to = steps.place(last, fit.at + fit.slope * last);
  if (side.support < 0.3) return std::nullopt;
  return side;
}

/// The sum over a side's spots of their squared distance from one line, each at most 1.
double unevenness(const std::vector<Spot>& spots, const Lens& lens) {
  std::vector<Spot> straight;
  for (const Spot p : spots) straight.push_back(lens.straightened(p));
  std::vector<double> weights(straight.size(), 1);
  double sum = 0;
  for (int round = 0; round < 4; ++round) {
    double w = 0, xx = 0, xy = 0, yy = 0;
    Spot centre;
    for (std::size_t i = 0; i < straight.size(); ++i) {
      centre = centre + straight[i] * weights[i];
      w += weights[i];
    }
    if (w < 3) return double(spots.size());
    centre = centre * (1 / w);
    for (std::size_t i = 0; i < straight.size(); ++i) {
      const Spot d = straight[i] - centre;
      xx += weights[i] * d.x * d.x;
      xy += weights[i] * d.x * d.y;
      yy += weights[i] * d.y * d.y;
    }
    const double turn = 0.5 * std::atan2(2 * xy, xx - yy);
    const Spot across{-std::sin(turn), std::cos(turn)};
    sum = 0;
    for (std::size_t i = 0; i < straight.size(); ++i) {
      const double off = dot(straight[i] - centre, across);
      weights[i] = 1 / (1 + off * off * 4);
      sum += std::min(off * off, 1.0);
    }
  }
  return sum;
}

}  // namespace

std::optional<Spot> meeting(const Side& one, const Side& other) {
  const Spot a = one.to - one.from, b = other.to - other.from;
  const double whole = cross(a, b);
  if (std::abs(whole) < 0.2 * size(a) * size(b)) return std::nullopt;
  return one.from + a * (cross(other.from - one.from, b) / whole);
}

double notable_step(const View& view, double looks) {
  return std::max(0.8, 3 * view.grain / std::sqrt(std::max(looks, 1.0)));
}

double Outline::least_support() const {
  double least = 1;
  for (const Side& side : sides) least = std::min(least, side.support);
  return least;
}

double Outline::least_strength() const {
  double least = steep_enough;
  for (const Side& side : sides) least = std::min(least, side.strength);
  return least;
}

std::optional<Outline> follow_sides(const View& view, const Corners& corners, const Lens& lens,
                                    double band) {
  Outline outline;
  outline.lens = lens;
  for (std::size_t i = 0; i < 4; ++i) {
    const Spot from = corners[i], to = corners[(i + 1) % 4];
    const double most = std::min({band, 0.2 * size(to - from), 40.0});
    auto side = follow(view, from, to, lens, std::max(2, static_cast<int>(most)));
    if (!side) return std::nullopt;
    outline.sides[i] = std::move(*side);
  }
  for (std::size_t i = 0; i < 4; ++i) {
    const auto corner = meeting(outline.sides[(i + 3) % 4], outline.sides[i]);
    if (!corner || size(*corner - corners[i]) > 4 * band + 4) return std::nullopt;
    outline.corners[i] = *corner;
  }
  if (!is_convex(outline.corners)) return std::nullopt;
  return outline;
}

Lens lens_of(const View& view, const std::vector<const Outline*>& outlines) {
  const auto uneven = [&](double bow) {
    const Lens lens{view.middle(), view.longer() / 2.0, bow};
    double sum = 0;
    for (const Outline* outline : outlines) {
      for (const Side& side : outline->sides) sum += unevenness(side.spots, lens);
    }
    return sum;
  };
  Lens best{view.middle(), view.longer() / 2.0, 0};
  const double straight = uneven(0);
  double least = straight;
  for (double reach = 0.004; reach > 0.0004; reach /= 4) {
    const double around = best.bow;
    const int steps = reach > 0.003 ? 25 : 4;
    for (int i = -steps; i <= steps; ++i) {
      const double bow = around + i * reach;
      const double sum = uneven(bow);
      if (sum < least) {
        least = sum;
        best.bow = bow;
      }
    }
  }
  double spots = 0;
  for (const Outline* outline : outlines) {
    for (const Side& side : outline->sides) spots += double(side.spots.size());
  }
  const bool notable = least < 0.6 * straight && straight - least > 0.02 * spots;
  if (!notable) best.bow = 0;
  return best;
}

}  // namespace quoin::trace
