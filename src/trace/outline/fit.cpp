#include "trace/outline/fit.h"

#include <algorithm>
#include <cmath>

#include "trace/outline/straight.h"

namespace quoin::trace {
namespace {

constexpr int rounds = 6;    // of reparametrisation
constexpr int deepest = 30;  // splits inside each other

/// Part of a row of points that one curve is to follow, with the directions at its ends.
struct Stretch {
  std::size_t first = 0, last = 0;
  Spot leaves, arrives;  // both point inwards
};

struct Attempt {
  Curve curve;
  double worst = 0;       // squared distance
  std::size_t where = 0;  // of the worst point
};

class Fitter {
 public:
  Fitter(const std::vector<Spot>& points, const FitRules& rules) : points_(points), rules_(rules) {}

  void cover(const Stretch& stretch, int depth = 0) {
    const auto [first, last, leaves, arrives] = stretch;
    if (last - first == 1) {
      const double third = length(points_[last] - points_[first]) / 3;
      add({{points_[first], points_[first] + leaves * third, points_[last] + arrives * third,
            points_[last]}},
          last);
      return;
    }
    const Attempt attempt = one_curve(stretch);
    if (attempt.worst <= limit() || depth > deepest) {
      add(attempt.curve, last);
      return;
    }
    const std::size_t split = std::clamp(attempt.where, first + 1, last - 1);
    const Spot through = direction_at(split, first, last);
    cover({first, split, leaves, through}, depth + 1);
    cover({split, last, through * -1, arrives}, depth + 1);
  }

  /// Joins neighbours that one curve can follow.
  void join(std::size_t start) {
    ends_.insert(ends_.begin(), start);
    for (std::size_t i = 0; i + 1 < curves_.size();) {
      const Curve &a = curves_[i], &b = curves_[i + 1];
      const Attempt both =
          one_curve({ends_[i], ends_[i + 2], unit(a.p[1] - a.p[0]), unit(b.p[2] - b.p[3])});
      if (both.worst > limit()) {
        ++i;
        continue;
      }
      curves_[i] = both.curve;
      curves_.erase(curves_.begin() + static_cast<std::ptrdiff_t>(i) + 1);
      ends_.erase(ends_.begin() + static_cast<std::ptrdiff_t>(i) + 1);
      if (i > 0) --i;
    }
  }

  std::vector<Curve> take() { return std::move(curves_); }

 private:
  [[nodiscard]] double limit() const { return rules_.tolerance * rules_.tolerance; }

  void add(const Curve& curve, std::size_t end) {
    curves_.push_back(curve);
    ends_.push_back(end);
  }

  /// Backwards along the run at a point inside it.
  [[nodiscard]] Spot direction_at(std::size_t at, std::size_t first, std::size_t last) const {
    std::size_t before = at, after = at;
    for (double run = 0; before > first && run < rules_.tangent_length; --before) {
      run += length(points_[before] - points_[before - 1]);
    }
    for (double run = 0; after < last && run < rules_.tangent_length; ++after) {
      run += length(points_[after + 1] - points_[after]);
    }
    return unit(points_[before] - points_[after]);
  }

  [[nodiscard]] Attempt one_curve(const Stretch& stretch) {
    const std::size_t count = stretch.last - stretch.first + 1;
    at_.assign(count, 0);
    for (std::size_t i = 1; i < count; ++i) {
      at_[i] = at_[i - 1] + length(points_[stretch.first + i] - points_[stretch.first + i - 1]);
    }
    const double whole = at_.back() > 0 ? at_.back() : 1;
    for (double& t : at_) t /= whole;
    Attempt best = measured(stretch, least_squares(stretch));
    Attempt now = best;
    for (int round = 0; round < rounds && now.worst > limit() && now.worst < 30 * limit();
         ++round) {
      reparametrise(stretch, now.curve);
      now = measured(stretch, least_squares(stretch));
      if (now.worst < best.worst) best = now;
    }
    return best;
  }

  [[nodiscard]] Curve least_squares(const Stretch& stretch) const {
    const Spot start = points_[stretch.first], end = points_[stretch.last];
    double c00 = 0, c01 = 0, c11 = 0, x0 = 0, x1 = 0;
    for (std::size_t i = 0; i < at_.size(); ++i) {
      const double t = at_[i], s = 1 - t;
      const double b0 = s * s * s, b1 = 3 * t * s * s, b2 = 3 * t * t * s, b3 = t * t * t;
      const Spot a1 = stretch.leaves * b1, a2 = stretch.arrives * b2;
      const Spot rest = points_[stretch.first + i] - (start * (b0 + b1) + end * (b2 + b3));
      c00 += dot(a1, a1);
      c01 += dot(a1, a2);
      c11 += dot(a2, a2);
      x0 += dot(a1, rest);
      x1 += dot(a2, rest);
    }
    const double det = c00 * c11 - c01 * c01, chord = length(end - start);
    double first = 0, last = 0;
    if (std::abs(det) > 1e-12) {
      first = (x0 * c11 - x1 * c01) / det;
      last = (c00 * x1 - c01 * x0) / det;
    }
    const double most = 3 * chord + 2;
    if (first < 1e-3 * chord || last < 1e-3 * chord || first > most || last > most) {
      first = last = chord / 3;
    }
    return {{start, start + stretch.leaves * first, end + stretch.arrives * last, end}};
  }

  [[nodiscard]] Attempt measured(const Stretch& stretch, const Curve& curve) const {
    Attempt attempt{curve, 0, (stretch.first + stretch.last) / 2};
    for (std::size_t i = 1; i + 1 < at_.size(); ++i) {
      const Spot off = on_curve(curve, at_[i]) - points_[stretch.first + i];
      const double far = dot(off, off);
      if (far <= attempt.worst) continue;
      attempt.worst = far;
      attempt.where = stretch.first + i;
    }
    return attempt;
  }

  /// One Newton step towards the nearest place on the curve for each point.
  void reparametrise(const Stretch& stretch, const Curve& curve) {
    const Spot* p = curve.p;
    for (std::size_t i = 0; i < at_.size(); ++i) {
      const double t = at_[i], s = 1 - t;
      const Spot off = on_curve(curve, t) - points_[stretch.first + i];
      const Spot speed =
          ((p[1] - p[0]) * (s * s) + (p[2] - p[1]) * (2 * s * t) + (p[3] - p[2]) * (t * t)) * 3;
      const Spot turn = ((p[2] - p[1] * 2 + p[0]) * s + (p[3] - p[2] * 2 + p[1]) * t) * 6;
      const double below = dot(speed, speed) + dot(off, turn);
      if (std::abs(below) <= 1e-9) continue;
      const double moved = t - dot(off, speed) / below;
      if (moved >= 0 && moved <= 1) at_[i] = moved;
    }
  }

  const std::vector<Spot>& points_;
  const FitRules& rules_;
  std::vector<double> at_;  // where on the curve each point of the stretch is, 0..1
  std::vector<Curve> curves_;
  std::vector<std::size_t> ends_;
};

bool is_straight(const std::vector<Spot>& points, std::size_t first, std::size_t last,
                 double tolerance) {
  const Spot way = unit(points[last] - points[first]);
  for (std::size_t i = first + 1; i < last; ++i) {
    if (std::abs(cross(points[i] - points[first], way)) > tolerance) return false;
  }
  return true;
}

}  // namespace

std::vector<Curve> fit_run(const std::vector<Spot>& points, std::size_t first, std::size_t last,
                           const FitRules& rules, const EndTangents& ends) {
  if (last <= first) return {};
  if (is_straight(points, first, last, 0.9 * rules.tolerance)) {
    return {straight_between(points[first], points[last])};
  }
  const Spot leaves =
      ends.first ? *ends.first : leaving(points, first, last, rules.tangent_length, true);
  const Spot arrives =
      ends.last ? *ends.last : leaving(points, first, last, rules.tangent_length, false);
  Fitter fitter(points, rules);
  fitter.cover({first, last, leaves, arrives});
  fitter.join(first);
  return fitter.take();
}

Spot leaving(const std::vector<Spot>& points, std::size_t first, std::size_t last, double reach,
             bool forward) {
  const Spot from = forward ? points[first] : points[last];
  Spot sum;
  double run = 0;
  for (std::size_t i = forward ? first : last; forward ? i < last : i > first;) {
    const std::size_t next = forward ? i + 1 : i - 1;
    run += length(points[next] - points[i]);
    sum = sum + (points[next] - from);
    i = next;
    if (run >= reach) break;
  }
  return unit(sum);
}

Curve straight_between(Spot from, Spot to) {
  return {{from, from + (to - from) * (1.0 / 3), from + (to - from) * (2.0 / 3), to}, true};
}

Spot on_curve(const Curve& curve, double t) {
  const double s = 1 - t;
  return curve.p[0] * (s * s * s) + curve.p[1] * (3 * s * s * t) + curve.p[2] * (3 * s * t * t) +
         curve.p[3] * (t * t * t);
}

Curve turned(const Curve& curve) {
  return {{curve.p[3], curve.p[2], curve.p[1], curve.p[0]}, curve.straight};
}

std::vector<Curve> quarters(const Circle& circle) {
  const double r = circle.radius, handle = r * 0.5522847498;  // 4/3 (sqrt 2 - 1)
  const Spot c = circle.centre;
  const Spot east{c.x + r, c.y}, south{c.x, c.y + r}, west{c.x - r, c.y}, north{c.x, c.y - r};
  return {{{east, {east.x, east.y + handle}, {south.x + handle, south.y}, south}},
          {{south, {south.x - handle, south.y}, {west.x, west.y + handle}, west}},
          {{west, {west.x, west.y - handle}, {north.x - handle, north.y}, north}},
          {{north, {north.x + handle, north.y}, {east.x, east.y - handle}, east}}};
}

}  // namespace quoin::trace
