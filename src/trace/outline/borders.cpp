#include "trace/outline/borders.h"

#include <map>
#include <numbers>

#include "trace/outline/corners.h"
#include "trace/outline/dots.h"
#include "trace/outline/straight.h"

namespace quoin::trace {
namespace {

using Tangents = std::map<ChainEnd, Spot>;

/// Directions that two chains share which run on through a junction of three.
Tangents shared_tangents(const CrackMap& map) {
  const double straight_on = std::cos((180 - 28) * std::numbers::pi / 180);
  Tangents shared;
  for (const std::vector<ChainEnd>& ends : ends_at_junctions(map)) {
    if (ends.size() != 3) continue;
    std::vector<Spot> ways;
    for (const ChainEnd& end : ends) {
      const Chain& chain = map.chains[std::size_t(end.chain)];
      if (chain.picture_edge() || chain.points.size() < 4) break;
      ways.push_back(leaving(chain.points, 0, chain.points.size() - 1, 3, end.first));
    }
    if (ways.size() != 3) continue;
    std::size_t a = 0, b = 1;
    for (const auto& [i, j] : {std::pair{0, 1}, {0, 2}, {1, 2}}) {
      const std::size_t p = std::size_t(i), q = std::size_t(j);
      if (dot(ways[p], ways[q]) < dot(ways[a], ways[b])) {
        a = p;
        b = q;
      }
    }
    if (dot(ways[a], ways[b]) >= straight_on) continue;
    const Spot way = unit(ways[a] - ways[b]);
    shared[ends[a]] = way;
    shared[ends[b]] = way * -1;
  }
  return shared;
}

/// A ring without corners: both ends of it in the same direction, and a break half way round, so
/// that no curve has to come back to itself.
std::vector<Curve> fit_smooth_ring(const CornerRow& row, const FitRules& rules) {
  const std::vector<Spot>& p = row.points;
  const std::size_t end = p.size() - 1, half = end / 2;
  const auto step = static_cast<std::size_t>(std::max(1L, std::lround(2 / row.step)));
  const std::size_t reach = std::min(step, end / 4 + 1);
  const Spot seam = unit(p[reach] - p[end - reach]);
  const Spot middle = unit(p[std::min(half + reach, end)] - p[half > reach ? half - reach : 0]);
  std::vector<Curve> curves = fit_run(p, 0, half, rules, {seam, middle * -1});
  for (const Curve& curve : fit_run(p, half, end, rules, {middle, seam * -1})) {
    curves.push_back(curve);
  }
  for (Curve& curve : curves) curve.straight = false;
  return curves;
}

/// The circle that a ring is, to within the tolerance. A ring of a few pixels says too little:
/// those are looked at elsewhere.
std::optional<Circle> circle_of(const Chain& chain, const FitRules& rules) {
  if (!chain.ring() || chain.points.size() < 24) return std::nullopt;
  const auto circle = best_circle(chain.points);
  if (!circle || circle->radius > 5000) return std::nullopt;
  double sum = 0;
  for (const Spot& p : chain.points) {
    const double off = length(p - circle->centre) - circle->radius;
    if (std::abs(off) > 1.5 * rules.tolerance) return std::nullopt;
    sum += off * off;
  }
  const double mean = std::sqrt(sum / static_cast<double>(chain.points.size()));
  return mean <= 0.6 * rules.tolerance ? circle : std::nullopt;
}

/// The line of a run between corners when it is straight, seen from the points that its corners do
/// not round; upright or level when it is so to within a tenth of a pixel.
std::optional<StraightLine> straight_run(const std::vector<Spot>& points, std::size_t first,
                                         std::size_t last, const FitRules& rules) {
  constexpr double rounded = 1.3, least_length = 2;  // pixels
  std::vector<Spot> inner;
  for (std::size_t i = first + 1; i < last; ++i) {
    const bool clear =
        length(points[i] - points[first]) > rounded && length(points[i] - points[last]) > rounded;
    if (clear) inner.push_back(points[i]);
  }
  if (inner.size() < 3 || length(inner.back() - inner.front()) < least_length) return std::nullopt;
  StraightLine line = best_line(inner);
  const double run = length(inner.back() - inner.front());
  if (std::abs(line.way.x) * run < 0.1) line.way = {0, 1};
  if (std::abs(line.way.y) * run < 0.1) line.way = {1, 0};
  for (const Spot& p : inner) {
    if (std::abs(cross(p - line.at, line.way)) > 0.9 * rules.tolerance) return std::nullopt;
  }
  return line;
}

/// Puts corners between two straight runs where their lines meet.
void square_corners(CornerRow& row, bool ring, const std::vector<std::size_t>& stops,
                    const FitRules& rules) {
  std::vector<std::optional<StraightLine>> lines;
  for (std::size_t k = 0; k + 1 < stops.size(); ++k) {
    lines.push_back(straight_run(row.points, stops[k], stops[k + 1], rules));
  }
  constexpr double farthest_corner = 1.3;  // pixels
  const auto place = [&](std::size_t before, std::size_t after, std::size_t at) {
    if (!lines[before] || !lines[after]) return false;
    const auto met = meeting(*lines[before], *lines[after]);
    if (!met || length(*met - row.points[at]) > farthest_corner) return false;
    row.points[at] = *met;
    return true;
  };
  for (std::size_t k = 1; k + 1 < stops.size(); ++k) (void)place(k - 1, k, stops[k]);
  if (ring && lines.size() > 1 && place(lines.size() - 1, 0, 0)) {
    row.points.back() = row.points.front();
  }
}

std::vector<Curve> fit_chain(const CrackMap& map, std::size_t number, const FitRules& rules,
                             const Tangents& shared) {
  const Chain& chain = map.chains[number];
  if (chain.picture_edge() || chain.points.size() < 3) {
    return {straight_between(chain.points.front(), chain.points.back())};
  }
  CornerRow row = with_corners(chain);
  if (row.smooth_ring) return fit_smooth_ring(row, rules);
  std::vector<std::size_t> stops{0};
  stops.insert(stops.end(), row.corners.begin(), row.corners.end());
  stops.push_back(row.points.size() - 1);
  square_corners(row, chain.ring(), stops, rules);
  const auto tangent = [&](bool first) -> std::optional<Spot> {
    const auto found = shared.find({static_cast<int>(number), first});
    return found == shared.end() ? std::nullopt : std::optional(found->second);
  };
  std::vector<Curve> curves;
  for (std::size_t k = 0; k + 1 < stops.size(); ++k) {
    const auto line = straight_run(row.points, stops[k], stops[k + 1], rules);
    const auto on_line = [&](std::size_t stop) {
      return std::abs(cross(row.points[stop] - line->at, line->way)) <= rules.tolerance;
    };
    if (line && on_line(stops[k]) && on_line(stops[k + 1])) {
      curves.push_back(straight_between(row.points[stops[k]], row.points[stops[k + 1]]));
      continue;
    }
    EndTangents ends;
    if (!chain.ring() && k == 0) ends.first = tangent(true);
    if (!chain.ring() && k + 2 == stops.size()) ends.last = tangent(false);
    for (const Curve& curve : fit_run(row.points, stops[k], stops[k + 1], rules, ends)) {
      curves.push_back(curve);
    }
  }
  return curves;
}

}  // namespace

std::vector<Border> fit_borders(const CrackMap& map, const FitRules& rules) {
  const Tangents shared = shared_tangents(map);
  std::vector<Border> borders;
  borders.reserve(map.chains.size());
  for (std::size_t i = 0; i < map.chains.size(); ++i) {
    const Chain& chain = map.chains[i];
    Border border;
    border.left = chain.left;
    border.right = chain.right;
    border.closed = chain.ring();
    if (const auto circle = circle_of(chain, rules)) {
      make_circle(border, chain, *circle);
    } else {
      border.curves = fit_chain(map, i, rules, shared);
    }
    borders.push_back(std::move(border));
  }
  return borders;
}

}  // namespace quoin::trace
