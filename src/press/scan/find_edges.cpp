#include "press/scan/find_edges.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace quoin::press {
namespace {

constexpr double reach_mm = 4.5;
constexpr int lines_across = 200;
constexpr double least_contrast = 30;  // levels between paper and what lies behind
constexpr double most_bent_mm = 0.2;   // median distance of an edge's places from its line

/// A line through points: a·x + b·y = c with a² + b² = 1.
struct Line {
  double a = 0, b = 0, c = 0;
  [[nodiscard]] double off(Pixel p) const { return a * p.x + b * p.y - c; }
};

/// Total least squares with weights.
Line line_through(const std::vector<Pixel>& points, const std::vector<double>& weights) {
  double w = 0, mx = 0, my = 0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    w += weights[i];
    mx += weights[i] * points[i].x;
    my += weights[i] * points[i].y;
  }
  mx /= w;
  my /= w;
  double xx = 0, xy = 0, yy = 0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const double x = points[i].x - mx, y = points[i].y - my;
    xx += weights[i] * x * x;
    xy += weights[i] * x * y;
    yy += weights[i] * y * y;
  }
  const double along = 0.5 * std::atan2(2 * xy, xx - yy);
  const double a = -std::sin(along), b = std::cos(along);
  return {a, b, a * mx + b * my};
}

/// The line that most points lie on: weights after P. J. Huber fall with the distance beyond
/// 1.345 deviations, eight rounds. Nothing when half of the points lie off it.
std::optional<Line> robust_line(const std::vector<Pixel>& points, double most_off) {
  if (points.size() < lines_across * 6 / 10) return std::nullopt;
  std::vector<double> weights(points.size(), 1);
  Line line;
  double median = 0;
  for (int round = 0; round < 8; ++round) {
    line = line_through(points, weights);
    std::vector<double> off;
    for (const Pixel p : points) off.push_back(std::abs(line.off(p)));
    const auto middle = off.begin() + static_cast<std::ptrdiff_t>(off.size() / 2);
    std::nth_element(off.begin(), middle, off.end());
    median = *middle;
    const double limit = std::max(0.05, 1.345 * 1.4826 * median);
    for (std::size_t i = 0; i < points.size(); ++i) {
      const double distance = std::abs(line.off(points[i]));
      weights[i] = distance <= limit ? 1 : limit / distance;
    }
  }
  return median <= most_off ? std::optional(line) : std::nullopt;
}

double mean_of(const std::vector<double>& profile, std::size_t from, std::size_t to) {
  double sum = 0;
  for (std::size_t i = from; i < to; ++i) sum += profile[i];
  return sum / static_cast<double>(to - from);
}

/// Where the sheet ends on a line from outside of it (profile's start) inwards, in samples.
std::optional<double> crossing(const std::vector<double>& profile) {
  const std::size_t quarter = profile.size() / 4;
  const double outside = mean_of(profile, 0, quarter);
  const double paper = mean_of(profile, profile.size() - quarter, profile.size());
  if (!(paper - outside > least_contrast)) return std::nullopt;
  const double middle = (paper + outside) / 2;
  for (std::size_t i = 1; i < profile.size(); ++i) {
    if (profile[i] < middle) continue;
    if (profile[i - 1] >= middle) return std::nullopt;  // light from the first: no end here
    return static_cast<double>(i - 1) + (middle - profile[i - 1]) / (profile[i] - profile[i - 1]);
  }
  return std::nullopt;
}

/// The line of the edge from `a` to `b` (page frame), `outwards` a unit step away from the sheet.
std::optional<Line> edge_line(const GreyImage& image, const PlaneMap& sheet, Point a, Point b,
                              Vec outwards) {
  const Point middle = a + (b - a) * 0.5;
  const double per_mm = sheet.pixels_per_mm(middle);
  const int samples = static_cast<int>(std::ceil(2 * reach_mm * per_mm)) + 1;
  std::vector<Pixel> points;
  for (int i = 0; i < lines_across; ++i) {
    const Point on_edge = a + (b - a) * (0.05 + 0.9 * i / (lines_across - 1));
    const Pixel from = sheet(on_edge + outwards * reach_mm);
    const Pixel to = sheet(on_edge - outwards * reach_mm);
    const auto at = [&](double k) {
      const double t = k / (samples - 1);
      return Pixel{from.x + (to.x - from.x) * t, from.y + (to.y - from.y) * t};
    };
    std::vector<double> profile;
    for (int k = 0; k < samples; ++k) {
      const Pixel p = at(k);
      const bool inside = p.x >= 0 && p.y >= 0 && p.x <= image.width && p.y <= image.height;
      if (inside) {
        profile.push_back(brightness(image, p));
      } else if (!profile.empty()) {
        break;
      }
    }
    const int missing = samples - static_cast<int>(profile.size());
    if (profile.size() < static_cast<std::size_t>(samples) * 6 / 10) continue;
    if (const auto k = crossing(profile)) points.push_back(at(*k + missing));
  }
  return robust_line(points, most_bent_mm * per_mm);
}

std::optional<Pixel> meeting(const Line& one, const Line& other) {
  const double det = one.a * other.b - one.b * other.a;
  if (!(std::abs(det) > 1e-6)) return std::nullopt;
  return Pixel{(one.c * other.b - one.b * other.c) / det,
               (one.a * other.c - one.c * other.a) / det};
}

}  // namespace

std::optional<std::array<Pixel, 4>> find_corners(const GreyImage& image, const PlaneMap& sheet,
                                                 Size paper) {
  const std::array<Point, 4> corners{
      Point{}, {paper.width, Mm{}}, {paper.width, paper.height}, {Mm{}, paper.height}};
  const std::array<Vec, 4> outwards{
      Vec{Mm{}, Mm{-1}}, {Mm{1}, Mm{}}, {Mm{}, Mm{1}}, {Mm{-1}, Mm{}}};
  std::array<Line, 4> lines;
  for (std::size_t i = 0; i < 4; ++i) {
    const auto line = edge_line(image, sheet, corners[i], corners[(i + 1) % 4], outwards[i]);
    if (!line) return std::nullopt;
    lines[i] = *line;
  }
  std::array<Pixel, 4> found;
  for (std::size_t i = 0; i < 4; ++i) {
    const auto corner = meeting(lines[(i + 3) % 4], lines[i]);
    if (!corner) return std::nullopt;
    found[i] = *corner;
  }
  return found;
}

}  // namespace quoin::press
