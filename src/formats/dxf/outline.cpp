#include "formats/dxf/outline.h"

#include <cmath>
#include <stdexcept>

namespace quoin::dxf {
namespace {

constexpr Mm no_length{1e-6};
constexpr double likeness = 1e-6;
constexpr int most_pieces = 10000;

double cross(Vec a, Vec b) { return a.x.value * b.y.value - a.y.value * b.x.value; }
double dot(Vec a, Vec b) { return a.x.value * b.x.value + a.y.value * b.y.value; }

Point on_curve(Point from, const Path::Step& curve, double t) {
  const double u = 1 - t, a = u * u * u, b = 3 * u * u * t, c = 3 * u * t * t, d = t * t * t;
  return {from.x * a + curve.p[0].x * b + curve.p[1].x * c + curve.p[2].x * d,
          from.y * a + curve.p[0].y * b + curve.p[1].y * c + curve.p[2].y * d};
}

/// Straight pieces that keep within `within`: a piece of 1/n of a curve leaves its chord by at most
/// 1/8·n^-2 of the largest second derivative, which is 6 times the larger second difference.
int pieces(Point from, const Path::Step& curve, Mm within) {
  const Vec a = (from - curve.p[0]) + (curve.p[1] - curve.p[0]);
  const Vec b = (curve.p[0] - curve.p[1]) + (curve.p[2] - curve.p[1]);
  const double bend = std::max(length(a), length(b)) / within;
  if (!std::isfinite(bend)) throw std::logic_error("a place on a drawing is not a number");
  return std::clamp(static_cast<int>(std::ceil(std::sqrt(0.75 * bend))), 1, most_pieces);
}

/// Follows a path and gathers its ways.
class Follower {
 public:
  explicit Follower(Mm within) : within_(within) {}

  void follow(const Path::Step& step) {
    switch (step.verb) {
      case Path::Verb::move:
        end();
        begin(step.p[0]);
        break;
      case Path::Verb::line:
        if (way_.corners.empty()) return;
        go_to(step.p[0], 0);
        break;
      case Path::Verb::curve:
        if (way_.corners.empty()) return;
        curve(step);
        break;
      case Path::Verb::close:
        close();
        break;
    }
  }

  [[nodiscard]] std::vector<Outline> ended() {
    end();
    return std::move(found_);
  }

 private:
  void begin(Point at) { way_ = {{{at, 0}}, false}; }

  void go_to(Point to, double bulge) {
    if (length(to - way_.corners.back().at) <= no_length) return;
    way_.corners.back().bulge = bulge;
    way_.corners.push_back({to, 0});
  }

  void curve(const Path::Step& step) {
    const Point from = way_.corners.back().at;
    if (const std::optional<Arc> arc = arc_of(from, step)) {
      go_to(step.p[2], std::tan(arc->sweep.radians / 4));
      return;
    }
    const int count = pieces(from, step, within_);
    for (int i = 1; i < count; ++i) go_to(on_curve(from, step, i / double(count)), 0);
    go_to(step.p[2], 0);
  }

  void close() {
    if (way_.corners.size() < 2) return;
    const Point start = way_.corners.front().at;
    way_.closed = true;
    if (length(way_.corners.back().at - start) <= no_length) way_.corners.pop_back();
    end();
    begin(start);  // what follows a close without a move starts there (SVG 1.1, 8.3.3)
  }

  void end() {
    if (way_.corners.size() >= 2) found_.push_back(std::move(way_));
    way_ = {};
  }

  Mm within_;
  Outline way_;
  std::vector<Outline> found_;
};

}  // namespace

std::optional<Arc> arc_of(Point from, const Path::Step& curve) {
  const Point to = curve.p[2];
  const Vec out = curve.p[0] - from, in = to - curve.p[1], chord = to - from;
  const double handle = length(out).value;
  if (!(handle > no_length.value) || !(length(in).value > no_length.value)) return std::nullopt;
  if (std::abs(length(in).value - handle) > likeness * handle) return std::nullopt;
  const double sweep = std::atan2(cross(out, in), dot(out, in));
  // Half the sweep lies between the chord and each tangent.
  const double first = std::atan2(cross(out, chord), dot(out, chord));
  const double steepest = std::numbers::pi / 2 + likeness;
  if (std::abs(sweep) < 1e-4 || std::abs(sweep) > steepest) return std::nullopt;
  if (std::abs(first - sweep / 2) > likeness) return std::nullopt;
  const double radius = length(chord).value / (2 * std::sin(std::abs(sweep) / 2));
  const double usual = radius * 4 / 3 * std::tan(std::abs(sweep) / 4);
  if (std::abs(handle - usual) > likeness * radius) return std::nullopt;
  const double turn = sweep > 0 ? 1 : -1;
  const Vec inwards{Mm{-out.y.value * turn / handle}, Mm{out.x.value * turn / handle}};
  return Arc{from + inwards * radius, Mm{radius}, Angle{sweep}};
}

std::vector<Outline> outlines(const Path& path, Mm within) {
  Follower follower(within);
  for (const Path::Step& step : path.steps()) follower.follow(step);
  return follower.ended();
}

}  // namespace quoin::dxf
