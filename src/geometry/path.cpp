#include "geometry/path.h"

#include <array>

namespace quoin {
namespace {

/// Handle length over radius for a quarter circle by one cubic: 4/3·(√2 − 1). The curve leaves the
/// circle by 2.7e-4 of the radius at most, always outwards.
constexpr double quarter_circle = 0.5522847498307936;

struct Box {
  double left = 0, top = 0, right = 0, bottom = 0;
  bool any = false;
  void add(Point p) {
    const double x = p.x.value, y = p.y.value;
    if (!any) {
      *this = {x, y, x, y, true};
      return;
    }
    left = std::min(left, x);
    right = std::max(right, x);
    top = std::min(top, y);
    bottom = std::max(bottom, y);
  }
};

double along(double t, const std::array<double, 4>& v) {
  const double u = 1 - t;
  return u * u * u * v[0] + 3 * u * u * t * v[1] + 3 * u * t * t * v[2] + t * t * t * v[3];
}

/// Where the derivative of a cubic vanishes inside (0, 1); at most two places.
struct Turns {
  std::array<double, 2> t{};
  int count = 0;
  void add(double value) {
    if (value > 0 && value < 1) t[static_cast<std::size_t>(count++)] = value;
  }
};

Turns turning_places(const std::array<double, 4>& v) {
  const double a = -v[0] + 3 * v[1] - 3 * v[2] + v[3];
  const double b = 2 * (v[0] - 2 * v[1] + v[2]);
  const double c = v[1] - v[0];
  Turns turns;
  const double largest = std::max({std::abs(a), std::abs(b), std::abs(c)});
  if (std::abs(a) <= 1e-12 * largest) {
    if (b != 0) turns.add(-c / b);
    return turns;
  }
  const double discriminant = b * b - 4 * a * c;
  if (discriminant < 0) return turns;
  // The form that does not subtract nearly equal numbers.
  const double q = -0.5 * (b + std::copysign(std::sqrt(discriminant), b));
  turns.add(q / a);
  if (q != 0) turns.add(c / q);
  return turns;
}

void add_curve(Box& box, Point from, const Path::Step& step) {
  box.add(step.p[2]);
  const std::array<double, 4> x{from.x.value, step.p[0].x.value, step.p[1].x.value,
                                step.p[2].x.value};
  const std::array<double, 4> y{from.y.value, step.p[0].y.value, step.p[1].y.value,
                                step.p[2].y.value};
  for (const auto& axis : {x, y}) {
    const Turns turns = turning_places(axis);
    for (int i = 0; i < turns.count; ++i) {
      const double t = turns.t[static_cast<std::size_t>(i)];
      box.add({Mm{along(t, x)}, Mm{along(t, y)}});
    }
  }
}

}  // namespace

Path& Path::move_to(Point p) {
  steps_.push_back({Verb::move, {p, {}, {}}});
  return *this;
}

Path& Path::line_to(Point p) {
  steps_.push_back({Verb::line, {p, {}, {}}});
  return *this;
}

Path& Path::curve_to(Point handle_a, Point handle_b, Point end) {
  steps_.push_back({Verb::curve, {handle_a, handle_b, end}});
  return *this;
}

Path& Path::close() {
  steps_.push_back({Verb::close, {}});
  return *this;
}

Path& Path::append(const Path& other) {
  const std::vector<Step> steps = other.steps_;  // `other` may be this path
  steps_.insert(steps_.end(), steps.begin(), steps.end());
  return *this;
}

Path Path::rectangle(Rect r) {
  return polygon({r.at, {r.right(), r.top()}, {r.right(), r.bottom()}, {r.left(), r.bottom()}});
}

Path Path::rounded_rectangle(Rect r, Mm radius) {
  const Mm corner = std::min({radius, r.size.width / 2, r.size.height / 2});
  if (corner <= Mm{0}) return rectangle(r);
  const Mm near = corner * (1 - quarter_circle);  // from the corner to the handle
  const Mm left = r.left(), top = r.top(), right = r.right(), bottom = r.bottom();
  Path path;
  path.move_to({left + corner, top}).line_to({right - corner, top});
  path.curve_to({right - near, top}, {right, top + near}, {right, top + corner});
  path.line_to({right, bottom - corner});
  path.curve_to({right, bottom - near}, {right - near, bottom}, {right - corner, bottom});
  path.line_to({left + corner, bottom});
  path.curve_to({left + near, bottom}, {left, bottom - near}, {left, bottom - corner});
  path.line_to({left, top + corner});
  path.curve_to({left, top + near}, {left + near, top}, {left + corner, top});
  return path.close();
}

Path Path::ellipse(Rect r) {
  const Point c = r.centre();
  const Mm x = r.size.width / 2, y = r.size.height / 2;
  const Mm hx = x * quarter_circle, hy = y * quarter_circle;
  Path path;
  path.move_to({c.x + x, c.y});
  path.curve_to({c.x + x, c.y + hy}, {c.x + hx, c.y + y}, {c.x, c.y + y});
  path.curve_to({c.x - hx, c.y + y}, {c.x - x, c.y + hy}, {c.x - x, c.y});
  path.curve_to({c.x - x, c.y - hy}, {c.x - hx, c.y - y}, {c.x, c.y - y});
  path.curve_to({c.x + hx, c.y - y}, {c.x + x, c.y - hy}, {c.x + x, c.y});
  return path.close();
}

Path Path::polygon(const std::vector<Point>& corners) {
  Path path;
  if (corners.empty()) return path;
  path.move_to(corners.front());
  for (std::size_t i = 1; i < corners.size(); ++i) path.line_to(corners[i]);
  return path.close();
}

Path mapped(const Path& path, const Affine& map) {
  Path out;
  for (const Path::Step& step : path.steps()) {
    switch (step.verb) {
      case Path::Verb::move:
        out.move_to(map(step.p[0]));
        break;
      case Path::Verb::line:
        out.line_to(map(step.p[0]));
        break;
      case Path::Verb::curve:
        out.curve_to(map(step.p[0]), map(step.p[1]), map(step.p[2]));
        break;
      case Path::Verb::close:
        out.close();
        break;
    }
  }
  return out;
}

Rect bounds(const Path& path) {
  Box box;
  Point here, start;
  for (const Path::Step& step : path.steps()) {
    switch (step.verb) {
      case Path::Verb::move:
        box.add(start = here = step.p[0]);
        break;
      case Path::Verb::line:
        box.add(here = step.p[0]);
        break;
      case Path::Verb::curve:
        add_curve(box, here, step);
        here = step.p[2];
        break;
      case Path::Verb::close:
        here = start;
        break;
    }
  }
  return {{Mm{box.left}, Mm{box.top}}, {Mm{box.right - box.left}, Mm{box.bottom - box.top}}};
}

}  // namespace quoin
