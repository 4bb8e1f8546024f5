#include "trace/outline/borders.h"

#include <algorithm>
#include <map>
#include <numbers>

#include "trace/outline/corners.h"
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

std::vector<Curve> fit_chain(const CrackMap& map, std::size_t number, const FitRules& rules,
                             const Tangents& shared) {
  const Chain& chain = map.chains[number];
  if (chain.picture_edge() || chain.points.size() < 3) {
    return {straight_between(chain.points.front(), chain.points.back())};
  }
  const CornerRow row = with_corners(chain);
  if (row.smooth_ring) return fit_smooth_ring(row, rules);
  std::vector<std::size_t> stops{0};
  stops.insert(stops.end(), row.corners.begin(), row.corners.end());
  stops.push_back(row.points.size() - 1);
  const auto tangent = [&](bool first) -> std::optional<Spot> {
    const auto found = shared.find({static_cast<int>(number), first});
    return found == shared.end() ? std::nullopt : std::optional(found->second);
  };
  std::vector<Curve> curves;
  for (std::size_t k = 0; k + 1 < stops.size(); ++k) {
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
    border.circle = circle_of(chain, rules);
    if (border.circle) {
      border.curves = quarters(*border.circle);
      if (chain.twice_area < 0) {
        std::reverse(border.curves.begin(), border.curves.end());
        for (Curve& curve : border.curves) curve = turned(curve);
      }
    } else {
      border.curves = fit_chain(map, i, rules, shared);
    }
    borders.push_back(std::move(border));
  }
  return borders;
}

}  // namespace quoin::trace
