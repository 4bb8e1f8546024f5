#include "trace/drawing/arrange.h"

#include <algorithm>
#include <map>
#include <numeric>

namespace quoin::trace {
namespace {

bool is_opaque(const Fill& fill) {
  if (const Colour* colour = std::get_if<Colour>(&fill)) return colour->alpha >= 1;
  return true;  // gradients are only made of opaque parts
}

struct FaceLoop {
  Loop uses;
  bool hole = false;
  std::vector<int> inside;  // faces that a hole holds
};

class Arranger {
 public:
  Arranger(Tracing& tracing, const CrackMap& map)
      : tracing_(tracing), map_(map), loops_(tracing.faces.size()) {}

  void run() {
    find_loops();
    find_neighbours();
    for (std::size_t f = 0; f < loops_.size(); ++f) {
      for (FaceLoop& loop : loops_[f]) {
        if (loop.hole) loop.inside = held_by(loop, static_cast<int>(f));
      }
    }
    order_layers();
    rank_faces();
    for (std::size_t f = 0; f < loops_.size(); ++f) draw(static_cast<int>(f));
  }

 private:
  [[nodiscard]] Face& face(int f) { return tracing_.faces[std::size_t(f)]; }
  [[nodiscard]] bool opaque(int f) const {
    const int layer = tracing_.faces[std::size_t(f)].layer;
    return layer >= 0 && is_opaque(tracing_.layers[std::size_t(layer)].fill);
  }
  [[nodiscard]] const Chain& chain(BorderUse use) const {
    return map_.chains[std::size_t(use.border)];
  }
  [[nodiscard]] int start(BorderUse use) const {
    return use.forward ? chain(use).from : chain(use).to;
  }
  [[nodiscard]] int end(BorderUse use) const {
    return use.forward ? chain(use).to : chain(use).from;
  }

  void find_loops() {
    std::vector<std::vector<BorderUse>> uses(loops_.size());
    for (std::size_t i = 0; i < map_.chains.size(); ++i) {
      const Chain& each = map_.chains[i];
      if (each.right >= 0) uses[std::size_t(each.right)].push_back({int(i), true});
      if (each.left >= 0) uses[std::size_t(each.left)].push_back({int(i), false});
    }
    for (std::size_t f = 0; f < uses.size(); ++f) loops_[f] = loops_of(uses[f]);
  }

  [[nodiscard]] std::vector<FaceLoop> loops_of(const std::vector<BorderUse>& uses) const {
    std::multimap<int, std::size_t> by_start;
    for (std::size_t i = 0; i < uses.size(); ++i) {
      if (start(uses[i]) >= 0) by_start.emplace(start(uses[i]), i);
    }
    std::vector<char> used(uses.size(), 0);
    std::vector<FaceLoop> loops;
    for (std::size_t i = 0; i < uses.size(); ++i) {
      if (used[i] != 0) continue;
      FaceLoop loop;
      const int first = start(uses[i]);
      for (std::size_t at = i;;) {
        used[at] = 1;
        loop.uses.push_back(uses[at]);
        const int here = end(uses[at]);
        if (here < 0 || here == first) break;
        auto [next, stop] = by_start.equal_range(here);
        while (next != stop && used[next->second] != 0) ++next;
        if (next == stop) break;
        at = next->second;
      }
      std::int64_t area = 0;
      for (const BorderUse& use : loop.uses) {
        area += use.forward ? chain(use).twice_area : -chain(use).twice_area;
      }
      loop.hole = area < 0;
      loops.push_back(std::move(loop));
    }
    return loops;
  }

  void find_neighbours() {
    neighbours_.resize(loops_.size());
    for (const Chain& each : map_.chains) {
      if (each.picture_edge()) continue;
      neighbours_[std::size_t(each.left)].push_back(each.right);
      neighbours_[std::size_t(each.right)].push_back(each.left);
    }
    mark_.assign(loops_.size(), 0);
  }

  /// All faces inside a hole: those along it and whatever is reached from them without crossing it.
  std::vector<int> held_by(const FaceLoop& hole, int owner) {
    ++marked_;
    mark_[std::size_t(owner)] = marked_;
    std::vector<int> found;
    const auto see = [&](int f) {
      if (f < 0 || mark_[std::size_t(f)] == marked_) return;
      mark_[std::size_t(f)] = marked_;
      found.push_back(f);
    };
    for (const BorderUse& use : hole.uses) see(use.forward ? chain(use).left : chain(use).right);
    for (std::size_t i = 0; i < found.size(); ++i) {
      for (const int next : neighbours_[std::size_t(found[i])]) see(next);
    }
    return found;
  }

  /// Takes next the layer that the fewest holes of layers still to come have to hold; of several
  /// the one with the largest area.
  void order_layers() {
    const std::size_t count = tracing_.layers.size();
    std::vector<std::vector<double>> before(count, std::vector<double>(count, 0));
    std::vector<double> area(count, 0);
    for (std::size_t f = 0; f < loops_.size(); ++f) {
      const int layer = tracing_.faces[f].layer;
      if (layer < 0) continue;
      area[std::size_t(layer)] += tracing_.faces[f].area;
      for (const FaceLoop& loop : loops_[f]) {
        std::vector<char> seen(count, 0);
        for (const int inner : loop.inside) {
          const int other = tracing_.faces[std::size_t(inner)].layer;
          if (other < 0 || other == layer || seen[std::size_t(other)] != 0) continue;
          seen[std::size_t(other)] = 1;
          before[std::size_t(layer)][std::size_t(other)] += double(loop.uses.size());
        }
      }
    }
    std::vector<char> taken(count, 0);
    place_.assign(count, 0);
    for (std::size_t step = 0; step < count; ++step) {
      std::size_t best = count;
      double least = 0;
      for (std::size_t i = 0; i < count; ++i) {
        if (taken[i] != 0) continue;
        double held = 0;
        for (std::size_t j = 0; j < count; ++j) {
          if (taken[j] == 0 && j != i) held += before[j][i] - 0.001 * before[i][j];
        }
        if (best == count || held < least || (held == least && area[i] > area[best])) {
          best = i;
          least = held;
        }
      }
      taken[best] = 1;
      place_[best] = static_cast<int>(step);
    }
    reorder();
  }

  void reorder() {
    std::vector<Layer> ordered(tracing_.layers.size());
    for (std::size_t i = 0; i < place_.size(); ++i) {
      ordered[std::size_t(place_[i])] = std::move(tracing_.layers[i]);
    }
    tracing_.layers = std::move(ordered);
    for (Face& each : tracing_.faces) {
      if (each.layer >= 0) each.layer = place_[std::size_t(each.layer)];
    }
  }

  /// By layer, then by how deep a face lies in others of its layer, then the larger first.
  void rank_faces() {
    std::vector<int> depth(loops_.size(), 0);
    for (std::size_t f = 0; f < loops_.size(); ++f) {
      for (const FaceLoop& loop : loops_[f]) {
        for (const int inner : loop.inside) ++depth[std::size_t(inner)];
      }
    }
    std::vector<int> order(loops_.size());
    std::iota(order.begin(), order.end(), 0);
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
      const Face &p = face(a), &q = face(b);
      if (p.layer != q.layer) return p.layer < q.layer;
      if (depth[std::size_t(a)] != depth[std::size_t(b)]) {
        return depth[std::size_t(a)] < depth[std::size_t(b)];
      }
      return p.area > q.area;
    });
    rank_.assign(loops_.size(), -1);
    int next = 0;
    for (const int f : order) {
      if (face(f).layer < 0) continue;  // transparent: never painted
      rank_[std::size_t(f)] = next++;
      tracing_.layers[std::size_t(face(f).layer)].faces.push_back(f);
    }
  }

  [[nodiscard]] bool painted_over(int f, int later) const {
    return opaque(later) && rank_[std::size_t(later)] > rank_[std::size_t(f)];
  }

  void draw(int f) {
    if (face(f).layer < 0) return;
    for (const FaceLoop& loop : loops_[std::size_t(f)]) {
      const bool swallowed =
          loop.hole && std::all_of(loop.inside.begin(), loop.inside.end(),
                                   [&](int inner) { return painted_over(f, inner); });
      if (swallowed) continue;
      face(f).drawn.push_back(loop.uses);
      if (!opaque(f)) continue;
      for (Loop& run : trapped_runs(f, loop.uses)) face(f).trapped.push_back(std::move(run));
    }
  }

  /// The runs of a loop whose other side is painted later; in one piece where two of them meet, so
  /// that no gap is left in the corner between them.
  [[nodiscard]] std::vector<Loop> trapped_runs(int f, const Loop& uses) const {
    const std::size_t count = uses.size();
    std::vector<char> trapped(count, 0);
    std::size_t start = 0;
    for (std::size_t i = 0; i < count; ++i) {
      const int other = uses[i].forward ? chain(uses[i]).left : chain(uses[i]).right;
      trapped[i] = other >= 0 && painted_over(f, other) ? 1 : 0;
      if (trapped[i] == 0) start = i + 1;
    }
    std::vector<Loop> runs;
    bool open = false;
    for (std::size_t k = 0; k < count; ++k) {
      const std::size_t i = (start + k) % count;
      if (trapped[i] != 0 && !open) runs.emplace_back();
      open = trapped[i] != 0;
      if (open) runs.back().push_back(uses[i]);
    }
    return runs;
  }

  Tracing& tracing_;
  const CrackMap& map_;
  std::vector<std::vector<FaceLoop>> loops_;
  std::vector<std::vector<int>> neighbours_;
  std::vector<int> mark_;
  int marked_ = 0;
  std::vector<int> place_;  // of each layer in the order
  std::vector<int> rank_;   // of each face in the order of painting
};

}  // namespace

void arrange(Tracing& tracing, const CrackMap& map) { Arranger(tracing, map).run(); }

}  // namespace quoin::trace
