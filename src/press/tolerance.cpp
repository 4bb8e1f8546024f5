#include "press/tolerance.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <random>

namespace quoin::press {
namespace {

/// The chance that a standard normal quantity is below x.
double phi(double x) { return 0.5 * std::erfc(-x / std::numbers::sqrt2); }

/// The chance that a normal error of that deviation stays below `room`.
double stays(double room, double deviation) {
  if (deviation <= 0) return room >= 0 ? 1 : 0;
  return phi(room / deviation);
}

/// The integral of f over the standard normal quantity z from `low` to `high`, by Simpson's rule: f
/// is smooth there, and 400 steps leave less than 1e-9.
template <class F>
double mean_between(double low, double high, F f) {
  constexpr int steps = 400;
  double sum = 0;
  for (int i = 0; i <= steps; ++i) {
    const double z = low + (high - low) * i / steps;
    const double simpson = i == 0 || i == steps ? 1 : i % 2 == 1 ? 4 : 2;
    sum += simpson * std::exp(-z * z / 2) * f(z);
  }
  return sum * (high - low) / (3 * steps) / std::sqrt(2 * std::numbers::pi);
}

/// One way across the card: its two cuts, and the print between them.
struct Way {
  double first, second, shift;
};

std::array<Way, 2> ways(const ErrorBudget& e, Size trim) {
  const auto with_turn = [&](Mm shift, Mm other_side) {
    return std::hypot(shift.value, e.turn.radians * other_side.value / 2);
  };
  return {Way{e.cut_left.value, e.cut_right.value, with_turn(e.shift_x, trim.height)},
          Way{e.cut_top.value, e.cut_bottom.value, with_turn(e.shift_y, trim.width)}};
}

/// The chance that neither cut of a way goes farther than `room` to its side of the print.
double keeps(const Way& way, double room) {
  if (way.shift <= 0) return stays(room, way.first) * stays(room, way.second);
  // An exact cut keeps up to a place and not beyond: the integral ends there.
  constexpr double reach = 8;
  const double edge = std::min(reach, room / way.shift);
  return mean_between(way.second > 0 ? -reach : -edge, way.first > 0 ? reach : edge, [&](double z) {
    const double s = z * way.shift;
    return (way.first > 0 ? stays(room - s, way.first) : 1) *
           (way.second > 0 ? stays(room + s, way.second) : 1);
  });
}

double lopsided(const Way& way, double border, double evenness) {
  const auto narrow = [&](double mine, double other) {
    const double deviation = std::sqrt(mine * mine + evenness * evenness * other * other +
                                       (1 + evenness) * (1 + evenness) * way.shift * way.shift);
    return 1 - stays((1 - evenness) * border, deviation);
  };
  return std::min(1.0, narrow(way.first, way.second) + narrow(way.second, way.first));
}

/// The smallest width, to 0.01 mm, at which a falling chance is not above `target`.
template <class F>
Mm smallest(double target, F chance_at) {
  int low = 0, high = 5000;
  while (low < high) {
    const int middle = (low + high) / 2;
    if (chance_at(middle / 100.0) <= target) {
      high = middle;
    } else {
      low = middle + 1;
    }
  }
  return Mm{low / 100.0};
}

/// How far the cuts of one card, and its print, are off.
struct Draw {
  double left, top, right, bottom, x, y, turn;
};

Draw draw(const ErrorBudget& e, std::mt19937_64& random, std::normal_distribution<double>& normal) {
  const auto one = [&](double deviation) { return deviation * normal(random); };
  return {one(e.cut_left.value),   one(e.cut_top.value), one(e.cut_right.value),
          one(e.cut_bottom.value), one(e.shift_x.value), one(e.shift_y.value),
          one(e.turn.radians)};
}

/// How far the cuts reach past the print's own trim on each side, and how much is left of it: the
/// largest and the smallest over the side, since a turned print is not parallel to the cut.
struct Sides {
  std::array<double, 4> past;  ///< left, right, top, bottom; positive: paper side
  std::array<double, 4> inside;
};
Sides sides(const Draw& d, Size trim) {
  const double x = std::abs(d.turn) * trim.height.value / 2;
  const double y = std::abs(d.turn) * trim.width.value / 2;
  // A cut that errs outwards (left < 0 on the page) shows what lies past the trim.
  const std::array<double, 4> out{-d.left + d.x, d.right - d.x, -d.top + d.y, d.bottom - d.y};
  return {{out[0] + x, out[1] + x, out[2] + y, out[3] + y},
          {-out[0] + x, -out[1] + x, -out[2] + y, -out[3] + y}};
}

bool any_over(const std::array<double, 4>& sides, double room) {
  return std::any_of(sides.begin(), sides.end(), [room](double side) { return side > room; });
}

bool looks_lopsided(const Draw& d, double border, double evenness) {
  const std::array<double, 4> width{border + (-d.left + d.x), border + (d.right - d.x),
                                    border + (-d.top + d.y), border + (d.bottom - d.y)};
  for (const std::size_t i : {std::size_t{0}, std::size_t{2}}) {
    const double a = width[i], b = width[i + 1];
    if (std::min(a, b) < evenness * std::max(a, b)) return true;
  }
  return false;
}

/// The chance of at least `wanted` good ones among `all`, each good with chance `good`.
double enough(int wanted, int all, double good) {
  double sum = 0;
  for (int k = wanted; k <= all; ++k) {
    const double log_ways = std::lgamma(all + 1) - std::lgamma(k + 1) - std::lgamma(all - k + 1);
    const double bad = all - k == 0 ? 0 : (all - k) * std::log1p(-good);
    sum += std::exp(log_ways + k * std::log(good) + bad);
  }
  return std::min(1.0, sum);
}

}  // namespace

Chances chances(const Margins& margins, const ErrorBudget& errors, double evenness) {
  const auto [across, along] = ways(errors, margins.trim);
  Chances result;
  result.white_edge = 1 - keeps(across, margins.bleed.value) * keeps(along, margins.bleed.value);
  result.clipped = 1 - keeps(across, margins.safe.value) * keeps(along, margins.safe.value);
  if (margins.border > Mm{}) {
    const double even = (1 - lopsided(across, margins.border.value, evenness)) *
                        (1 - lopsided(along, margins.border.value, evenness));
    result.lopsided = 1 - even;
  }
  return result;
}

Chances simulated_chances(const Margins& margins, const ErrorBudget& errors, Trials trials,
                          double evenness) {
  std::mt19937_64 random(trials.seed);
  std::normal_distribution<double> normal(0, 1);
  int white = 0, clipped = 0, uneven = 0;
  for (int i = 0; i < trials.count; ++i) {
    const Draw d = draw(errors, random, normal);
    const Sides at = sides(d, margins.trim);
    white += any_over(at.past, margins.bleed.value) ? 1 : 0;
    clipped += any_over(at.inside, margins.safe.value) ? 1 : 0;
    if (margins.border > Mm{}) {
      uneven += looks_lopsided(d, margins.border.value, evenness) ? 1 : 0;
    }
  }
  const double n = trials.count;
  return {white / n, clipped / n, uneven / n};
}

double rough_corner(Mm deviation, Mm step) {
  if (deviation <= Mm{}) return 0;
  constexpr int strays = 8;  // two edges at each of four corners
  const double lies = std::erf(step.value / (deviation.value * std::numbers::sqrt2));
  return 1 - std::pow(lies, strays);
}

Mm stray_in_pile(Mm feed, int sheets) {
  if (sheets <= 1) return {};
  return feed * std::sqrt(2.0 * (sheets - 1) / sheets);
}

Needed needed_for(double chance, const Margins& margins, const ErrorBudget& errors,
                  double evenness) {
  const auto with = [&](auto set, auto read) {
    return smallest(chance, [&](double width) {
      Margins tried = margins;
      set(tried, Mm{width});
      return read(chances(tried, errors, evenness));
    });
  };
  return {
      with([](Margins& m, Mm w) { m.bleed = w; }, [](const Chances& c) { return c.white_edge; }),
      with([](Margins& m, Mm w) { m.safe = w; }, [](const Chances& c) { return c.clipped; }),
      with([](Margins& m, Mm w) { m.border = std::max(w, Mm{0.001}); },
           [](const Chances& c) { return c.lopsided; })};
}

Spares spares(const PrintRun& run, double certainty) {
  Spares result;
  const double places = static_cast<double>(run.forms) * run.per_sheet;
  result.expected = places * run.copies * run.spoilt;
  if (run.spoilt <= 0) return result;
  constexpr int most = 1000;
  const double each = std::pow(certainty, 1 / places);
  while (result.of_each < most &&
         enough(run.copies, run.copies + result.of_each, 1 - run.spoilt) < each) {
    ++result.of_each;
  }
  return result;
}

}  // namespace quoin::press
