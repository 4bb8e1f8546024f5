#include "fold/collision.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "fold/figure.h"

namespace quoin::fold {
namespace {

constexpr double still_looked_at = 0.1;   // mm of motion between two looks at plates that touch
constexpr double looked_at_inside = 0.5;  // the same for plates that are in each other
static_assert(touching.value == touch);
const double let_off = 2 * std::atan(2.0);  // see collision.h

/// A plate's creases up to its root, and how far its farthest corner can be from each.
struct Chain {
  std::vector<int> plates;  ///< itself first
  std::vector<double>
      reach;  ///< mm from the crease of that plate; a bound along the panels between
};

std::vector<Chain> chains(const Figure& figure) {
  std::vector<Chain> all;
  for (const Plate& plate : figure.plates) {
    Chain chain;
    double reach = 0;
    for (const Prism& prism : plate.solid.pieces) {
      for (const Vec3& corner : prism.corners) {
        reach = std::max(reach, length(corner - plate.crease.at));
      }
    }
    for (int k = static_cast<int>(&plate - figure.plates.data()); k >= 0;) {
      const Plate& at = figure.plates[k];
      chain.plates.push_back(k);
      chain.reach.push_back(reach);
      if (at.parent >= 0) {
        reach += length(at.crease.at - figure.plates[at.parent].crease.at);
      }
      k = at.parent;
    }
    all.push_back(std::move(chain));
  }
  return all;
}

/// A stretch of the folding in which every crease turns evenly.
class Stretch {
 public:
  Stretch(const Figure& figure, const std::vector<Chain>& chains, double from, double to)
      : figure_(figure), chains_(chains), from_(from), to_(to) {
    for (const Plate& plate : figure.plates) {
      Motion motion;
      motion.from = angle_of(figure, plate, from);
      motion.to = angle_of(figure, plate, to);
      const bool turns = motion.from != motion.to;
      motion.moves =
          turns || (plate.parent >= 0 ? motions_[plate.parent].moves : slides(plate) > 0);
      motions_.push_back(motion);
      motions_.back().start = placed(plate, 0);
    }
  }

  [[nodiscard]] double from() const { return from_; }
  [[nodiscard]] double to() const { return to_; }
  [[nodiscard]] double progress(double part) const { return from_ + (to_ - from_) * part; }
  [[nodiscard]] bool moves(int plate) const { return motions_[plate].moves; }

  [[nodiscard]] Rigid place(int plate, double part) const {
    const Motion& motion = motions_[plate];
    return motion.moves && part > 0 ? placed(figure_.plates[plate], part) : motion.start;
  }

  /// How two plates move against each other.
  struct Relative {
    double most = 0;  ///< mm: no point of one moves farther against the other
    /// The direction of all creases that turn between the two when they are parallel: nothing moves
    /// along it.
    std::optional<Vec3> axis;
  };

  [[nodiscard]] Relative between_plates(int a, int b) const {
    Relative relative;
    bool parallel = true;
    add_turns(a, b, relative, parallel);
    add_turns(b, a, relative, parallel);
    const Plate &first = figure_.plates[a], &second = figure_.plates[b];
    if (first.panel.part != second.panel.part) {
      const double slide = slides(first) + slides(second);
      relative.most += slide;
      parallel &= slide == 0;
    }
    if (!parallel) relative.axis.reset();
    return relative;
  }

 private:
  struct Motion {
    Angle from, to;
    bool moves = false;
    Rigid start;  ///< its place at the start
  };

  /// The turns of creases above `plate` that `other` does not share.
  void add_turns(int plate, int other, Relative& relative, bool& parallel) const {
    const Chain &chain = chains_[plate], &shared = chains_[other];
    for (std::size_t k = 0; k < chain.plates.size(); ++k) {
      const int turning = chain.plates[k];
      const Motion& motion = motions_[turning];
      if (motion.from == motion.to) continue;
      if (std::find(shared.plates.begin(), shared.plates.end(), turning) != shared.plates.end()) {
        return;
      }
      relative.most += std::abs(motion.to.radians - motion.from.radians) * chain.reach[k];
      const Vec3 axis = motion.start.turned(figure_.plates[turning].crease.axis);
      parallel &= !relative.axis || length(cross(*relative.axis, axis)) < 1e-9;
      relative.axis = axis;
    }
  }

  [[nodiscard]] Rigid placed(const Plate& plate, double part) const {
    if (plate.parent < 0) {
      return place_of(figure_.model->parts[plate.panel.part], progress(part));
    }
    const Motion& motion = motions_[&plate - figure_.plates.data()];
    const Angle angle = between(motion.from, motion.to, 0, 1, part);
    return placed_in(place(plate.parent, part),
                     turn_about(plate.crease.at, plate.crease.axis, angle));
  }

  /// How far the plate's part slides, in mm.
  [[nodiscard]] double slides(const Plate& plate) const {
    const Part& part = figure_.model->parts[plate.panel.part];
    return length(place_of(part, to_).move - place_of(part, from_).move);
  }

  const Figure& figure_;
  const std::vector<Chain>& chains_;
  double from_, to_;
  std::vector<Motion> motions_;
};

/// Two plates to be followed, without what lies at the crease that joins them.
struct Pair {
  int a, b;
  const Solid *solid_a, *solid_b;
};

class Search {
 public:
  explicit Search(const Model& model) : figure_(figure(model)), chains_(chains(figure_)) {}

  std::vector<Collision> run() {
    for (std::size_t k = 0; k + 1 < figure_.moments.size(); ++k) {
      follow_all(Stretch(figure_, chains_, figure_.moments[k], figure_.moments[k + 1]));
    }
    std::vector<Collision> found;
    for (const auto& [panels, collision] : deepest_) found.push_back(collision);
    std::stable_sort(found.begin(), found.end(), [](const Collision& a, const Collision& b) {
      return std::floor(a.progress) < std::floor(b.progress);
    });
    return found;
  }

 private:
  void follow_all(const Stretch& stretch) {
    const int count = static_cast<int>(figure_.plates.size());
    for (int b = 1; b < count; ++b) {
      if (!is_there(figure_.plates[b], stretch.from(), stretch.to())) continue;
      for (int a = 0; a < b; ++a) {
        if (!stretch.moves(a) && !stretch.moves(b)) continue;
        if (!is_there(figure_.plates[a], stretch.from(), stretch.to())) continue;
        if (figure_.plates[a].panel == figure_.plates[b].panel) continue;
        follow(stretch, a, b);
      }
    }
  }

  void follow(const Stretch& stretch, int a, int b) {
    const Plate &one = figure_.plates[a], &other = figure_.plates[b];
    Pair pair{a, b, &one.solid, &other.solid};
    if (other.parent == a) {
      if (is_let_off(stretch, other)) return;
      pair.solid_a = &other.parent_off_crease;
      pair.solid_b = &other.off_crease;
    }
    const Stretch::Relative relative = stretch.between_plates(a, b);
    if (relative.most == 0) return;
    if (relative.axis && apart_along(*relative.axis, *pair.solid_a, stretch.place(a, 0),
                                     *pair.solid_b, stretch.place(b, 0)) >= -touching.value) {
      return;  // beside each other, and nothing moves that way
    }
    follow(stretch, pair, relative.most);
  }

  [[nodiscard]] bool is_let_off(const Stretch& stretch, const Plate& plate) const {
    const auto within = [&](double progress) {
      return std::abs(angle_of(figure_, plate, progress).radians) <= let_off;
    };
    return plate.sides == Plate::Sides::own && within(stretch.from()) && within(stretch.to());
  }

  void follow(const Stretch& stretch, const Pair& pair, double motion) {
    for (double part = 0;;) {
      const double left = motion * (1 - part);
      const double gap = apart(*pair.solid_a, stretch.place(pair.a, part), *pair.solid_b,
                               stretch.place(pair.b, part), left);
      if (gap < -touching.value) keep(pair, -gap, stretch.progress(part));
      const double safe = gap + touching.value;
      if (safe >= left || part >= 1) return;
      const double least = gap < -touching.value ? looked_at_inside : still_looked_at;
      part = std::min(1.0, part + std::max(safe, least) / motion);
    }
  }

  void keep(const Pair& pair, double depth, double progress) {
    const PanelRef a = figure_.plates[pair.a].panel, b = figure_.plates[pair.b].panel;
    Collision& deepest = deepest_[{{a.part, a.panel}, {b.part, b.panel}}];
    if (depth > deepest.depth.value) deepest = {a, b, Mm{depth}, progress};
  }

  using Key = std::pair<int, int>;
  Figure figure_;
  std::vector<Chain> chains_;
  std::map<std::pair<Key, Key>, Collision> deepest_;
};

}  // namespace

std::vector<Collision> collisions(const Model& model) { return Search(model).run(); }

}  // namespace quoin::fold
