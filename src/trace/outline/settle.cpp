#include "trace/outline/settle.h"

#include "trace/outline/straight.h"

namespace quoin::trace {
namespace {

constexpr double line_from = 0.4, line_to = 2.6;  // pixels from the junction: its chain's line
constexpr double tie = 0.15;                      // weight of the corner between the cells
constexpr double farthest_junction = 1.2;         // pixels that a junction may move
constexpr double cleared_round = 0.45;            // pixels round it without points

/// The straight line along which a chain comes to its end; nothing when it is too short.
std::optional<StraightLine> line_at(const Chain& chain, bool first) {
  const std::size_t count = chain.points.size();
  std::vector<Spot> near;
  double run = 0;
  for (std::size_t i = 1; i < count; ++i) {
    const std::size_t a = first ? i - 1 : count - i, b = first ? i : count - 1 - i;
    run += length(chain.points[b] - chain.points[a]);
    if (run >= line_from && b > 0 && b + 1 < count) near.push_back(chain.points[b]);
    if (run > line_to) break;
  }
  if (near.size() < 3) return std::nullopt;
  return best_line(near);
}

/// Where the lines at a junction come nearest to each other; the junction when there are none.
Spot pulled(const CrackMap& map, const std::vector<ChainEnd>& ends, Spot at) {
  double xx = tie, xy = 0, yy = tie, x = tie * at.x, y = tie * at.y;
  bool any = false;
  for (const ChainEnd& end : ends) {
    const Chain& chain = map.chains[std::size_t(end.chain)];
    if (chain.picture_edge()) continue;
    const auto line = line_at(chain, end.first);
    if (!line) continue;
    const Spot normal{-line->way.y, line->way.x};
    const double offset = dot(normal, line->at);
    xx += normal.x * normal.x;
    xy += normal.x * normal.y;
    yy += normal.y * normal.y;
    x += normal.x * offset;
    y += normal.y * offset;
    any = true;
  }
  if (!any) return at;
  const double det = xx * yy - xy * xy;
  const Spot moved{(x * yy - y * xy) / det, (y * xx - x * xy) / det};
  const Spot way = moved - at;
  return length(way) > farthest_junction ? at + unit(way) * farthest_junction : moved;
}

void clear_ends(Chain& chain) {
  std::vector<Spot>& p = chain.points;
  if (p.size() <= 5) return;
  std::size_t first = 1;
  while (first + 3 < p.size() && length(p[first] - p.front()) < cleared_round) ++first;
  p.erase(p.begin() + 1, p.begin() + static_cast<std::ptrdiff_t>(first));
  std::size_t last = p.size() - 2;
  while (last > 2 && length(p[last] - p.back()) < cleared_round) --last;
  p.erase(p.begin() + static_cast<std::ptrdiff_t>(last) + 1, p.end() - 1);
}

}  // namespace

void smooth(CrackMap& map, int scale) {
  std::vector<Spot> before;
  for (Chain& chain : map.chains) {
    if (chain.picture_edge()) continue;
    const std::size_t count = chain.points.size();
    for (int round = 0; round < scale; ++round) {
      before = chain.points;
      for (std::size_t i = 0; i < count; ++i) {
        // Next to a junction nothing is moved: the junction still stands between four cells.
        const bool held = !chain.ring() &&
                          (i == 0 || i + 1 == count || ((i == 1 || i + 2 == count) && count > 3));
        if (held) continue;
        const Spot p = before[(i + count - 1) % count], n = before[(i + 1) % count];
        chain.points[i] = (p + before[i] * 2 + n) * 0.25;
      }
    }
  }
}

std::vector<std::vector<ChainEnd>> ends_at_junctions(const CrackMap& map) {
  std::vector<std::vector<ChainEnd>> ends(map.junctions.size());
  for (std::size_t i = 0; i < map.chains.size(); ++i) {
    const Chain& chain = map.chains[i];
    if (chain.from >= 0) ends[std::size_t(chain.from)].push_back({int(i), true});
    if (chain.to >= 0) ends[std::size_t(chain.to)].push_back({int(i), false});
  }
  return ends;
}

void place_junctions(CrackMap& map, double width, double height) {
  const auto ends = ends_at_junctions(map);
  std::vector<Spot> placed = map.junctions;
  for (std::size_t i = 0; i < placed.size(); ++i) {
    const Spot old = placed[i];
    Spot& now = placed[i];
    now = pulled(map, ends[i], old);
    if (old.x <= 0 || old.x >= width) now.x = old.x;
    if (old.y <= 0 || old.y >= height) now.y = old.y;
  }
  map.junctions = placed;
  for (Chain& chain : map.chains) {
    if (chain.ring()) continue;
    chain.points.front() = placed[std::size_t(chain.from)];
    chain.points.back() = placed[std::size_t(chain.to)];
    if (!chain.picture_edge()) clear_ends(chain);
  }
}

}  // namespace quoin::trace
