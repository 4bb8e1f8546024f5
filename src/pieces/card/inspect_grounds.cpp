#include "pieces/card/inspect_grounds.h"

#include <algorithm>

namespace quoin::pieces {
namespace {

/// Lines wider than this are never too thin, whatever the limits: their grounds are not kept.
constexpr Mm fine_line{0.6};

Point on_curve(Point a, const Path::Step& step, double t) {
  const double u = 1 - t;
  const auto mix = [&](Mm p0, Mm p1, Mm p2, Mm p3) {
    return p0 * (u * u * u) + p1 * (3 * u * u * t) + p2 * (3 * u * t * t) + p3 * (t * t * t);
  };
  return {mix(a.x, step.p[0].x, step.p[1].x, step.p[2].x),
          mix(a.y, step.p[0].y, step.p[1].y, step.p[2].y)};
}

/// Places along the path, eight to each of its steps: enough to know the ground it runs over.
std::vector<Point> places_along(const Path& path) {
  constexpr int each = 8;
  std::vector<Point> places;
  Point at, start;
  for (const Path::Step& step : path.steps()) {
    if (step.verb == Path::Verb::move) {
      at = start = step.p[0];
      continue;
    }
    const Point from = at;
    const Point end = step.verb == Path::Verb::line    ? step.p[0]
                      : step.verb == Path::Verb::curve ? step.p[2]
                                                       : start;
    for (int i = 0; i < each; ++i) {
      const double t = (i + 0.5) / each;
      places.push_back(step.verb == Path::Verb::curve ? on_curve(from, step, t)
                                                      : from + (end - from) * t);
    }
    at = end;
  }
  return places;
}

}  // namespace

bool needs_ground(const Leaf& leaf) {
  if (leaf.text() != nullptr) return true;
  const ShapeItem* shape = leaf.shape();
  if (shape == nullptr) return false;
  if (shape->stroke.width > Mm{0} && shape->stroke.width < fine_line) return true;
  const Size box = bounds(shape->path).size;
  return std::min(box.width, box.height) < fine_line;
}

std::vector<std::vector<std::uint32_t>> stretches_beneath(const Leaf& leaf, const Pixels& pixels) {
  std::vector<std::vector<std::uint32_t>> stretches;
  if (leaf.text() != nullptr) {
    for (const Quad& quad : line_quads(leaf)) {
      std::vector<std::uint32_t> line = pixels.inside(quad);
      if (!line.empty()) stretches.push_back(std::move(line));
    }
    return stretches;
  }
  std::vector<std::uint32_t> along;
  for (const Point place : places_along(leaf.shape()->path)) {
    along.push_back(pixels.at(leaf.map(place)));
  }
  if (!along.empty()) stretches.push_back(std::move(along));
  return stretches;
}

}  // namespace quoin::pieces
