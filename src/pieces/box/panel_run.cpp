#include "pieces/box/panel_run.h"

#include <algorithm>
#include <cmath>

namespace quoin::pieces {
namespace {

const fold::Panel& panel_at(const PrintedNet& net, int panel) {
  return net.panels.at(static_cast<std::size_t>(panel));
}

Polygon moved_by(Polygon polygon, const Affine& map) {
  for (Point& corner : polygon) corner = map(corner);
  return polygon;
}

/// The panel's bounds as it reads upright, still measured from the net's origin.
Rect upright_bounds(const PrintedNet& net, int panel) {
  const fold::Panel& it = panel_at(net, panel);
  return bounds(moved_by(it.outline, Affine::turn(Angle{-it.upright.radians})));
}

bool read_alike(const PrintedNet& net, int a, int b) {
  const SinCos first = sin_cos(panel_at(net, a).upright),
               second = sin_cos(panel_at(net, b).upright);
  return std::abs(first.sin - second.sin) < 1e-9 && std::abs(first.cos - second.cos) < 1e-9;
}

bool is_creased(const PrintedNet& net, int a, int b) {
  const std::vector<int> near = creased_to(net, a);
  return std::find(near.begin(), near.end(), b) != near.end();
}

enum class Way { right, below, none };

/// Where b lies, seen from a; both read alike.
Way way_to(const PrintedNet& net, int a, int b) {
  const Rect from = upright_bounds(net, a), to = upright_bounds(net, b);
  if (to.left() >= from.right() - epsilon) return Way::right;
  return to.top() >= from.bottom() - epsilon ? Way::below : Way::none;
}

/// No panel that shows is creased to the right of a (or, with `left`, to the left of it).
enum class Flank { left, right };
bool is_free(const PrintedNet& net, int panel, Flank flank) {
  for (const int near : creased_to(net, panel)) {
    if (panel_at(net, near).seen == fold::Seen::hidden || !read_alike(net, panel, near)) continue;
    const Way way = flank == Flank::right ? way_to(net, panel, near) : way_to(net, near, panel);
    if (way == Way::right) return false;
  }
  return true;
}

bool meet_at_seam(const PrintedNet& net, int a, int b) {
  const auto joins = [&](const std::pair<int, int>& seam) {
    return seam == std::pair{a, b} || seam == std::pair{b, a};
  };
  return std::any_of(net.seams.begin(), net.seams.end(), joins) && is_free(net, a, Flank::right) &&
         is_free(net, b, Flank::left);
}

enum class Joint { crease, seam, none };

Joint joint_of(const PrintedNet& net, int a, int b) {
  if (a == b || !read_alike(net, a, b)) return Joint::none;
  if (is_creased(net, a, b)) return way_to(net, a, b) == Way::none ? Joint::none : Joint::crease;
  return meet_at_seam(net, a, b) ? Joint::seam : Joint::none;
}

std::vector<int> followers_of(const PrintedNet& net, int panel) {
  std::vector<int> all;
  for (int other = 0; other < static_cast<int>(net.panels.size()); ++other) {
    if (panel_at(net, other).seen == fold::Seen::hidden) continue;
    if (joint_of(net, panel, other) != Joint::none) all.push_back(other);
  }
  return all;
}

/// What two areas share.
std::vector<Region> shared_by(const std::vector<Region>& a, const std::vector<Region>& b) {
  std::vector<Region> shared;
  for (const Region& one : a) {
    for (const Region& other : b) {
      std::vector<Polygon> holes = one.holes;
      holes.insert(holes.end(), other.holes.begin(), other.holes.end());
      for (Region& part : without(common(one.outer, other.outer), holes)) {
        shared.push_back(std::move(part));
      }
    }
  }
  return shared;
}

/// The whole net and its bleed.
std::vector<Region> bled_net(const PrintedNet& net, Mm bleed) {
  std::vector<Polygon> all;
  for (const fold::Panel& panel : net.panels) all.push_back(panel.outline);
  std::vector<Region> whole = united(all);
  return bleed > Mm{} ? grown(whole, bleed) : whole;
}

bool is_corner_of(const Polygon& outline, Point p) {
  return std::any_of(outline.begin(), outline.end(),
                     [&](Point corner) { return length(corner - p) < epsilon; });
}

/// The bleed beyond a crease is the other panel's. Where the crease ends at a corner of this one it
/// is drawn on past it, so that two panels side by side each bleed over their own edge.
Polygon beyond_crease(const fold::Hinge& hinge, const Polygon& own, Mm bleed) {
  const Vec along = hinge.to - hinge.from;
  const Vec ahead = along * (1 / length(along).value);
  Vec outward{ahead.y, -ahead.x};
  const Vec inwards = centroid(own) - hinge.from;
  const double side = outward.x.value * inwards.x.value + outward.y.value * inwards.y.value;
  if (side > 0) outward = outward * -1;
  const double further = bleed.value * 2;
  const Point from = hinge.from - ahead * (is_corner_of(own, hinge.from) ? further : 0);
  const Point to = hinge.to + ahead * (is_corner_of(own, hinge.to) ? further : 0);
  const Vec near = outward * crease_trap.value, far = outward * (crease_trap.value + further);
  return {from + near, to + near, to + far, from + far};
}

/// A panel and its bleed, without what `kept_off` covers; holes count as covered.
std::vector<Region> bled_panel(const PrintedNet& net, int panel, const std::vector<int>& run,
                               Mm bleed, std::vector<Polygon> kept_off) {
  const Polygon& own = panel_at(net, panel).outline;
  for (const fold::Hinge& hinge : net.hinges) {
    if (hinge.parent != panel && hinge.child != panel) continue;
    const int other = hinge.parent == panel ? hinge.child : hinge.parent;
    if (std::find(run.begin(), run.end(), other) != run.end()) continue;
    if (bleed > Mm{}) kept_off.push_back(beyond_crease(hinge, own, bleed));
  }
  return without(grown({Region{own, {}}}, std::max(bleed, crease_trap)), kept_off);
}

std::vector<Region> ink_of(const PrintedNet& net, const std::vector<int>& panels, Mm bleed) {
  std::vector<Polygon> kept_off = net.glue;
  for (int i = 0; i < static_cast<int>(net.panels.size()); ++i) {
    if (std::find(panels.begin(), panels.end(), i) != panels.end()) continue;
    for (const Region& inner : grown({Region{panel_at(net, i).outline, {}}}, -crease_trap)) {
      kept_off.push_back(inner.outer);
    }
  }
  std::vector<Polygon> pieces;
  for (const int panel : panels) {
    for (Region& piece : bled_panel(net, panel, panels, bleed, kept_off)) {
      pieces.push_back(std::move(piece.outer));
    }
  }
  const std::vector<Region> ink = without(united(pieces), kept_off);
  // A panel alone has corners that the whole net has not, and mitres there reach past its bleed.
  return shared_by(ink, bled_net(net, bleed));
}

/// Panels in upright places, each moved by `shift` so that all follow each other.
struct Chain {
  std::vector<std::vector<int>> pieces;
  std::vector<Vec> shifts;  ///< of each piece
  Rect frame;
};

void add_link(const PrintedNet& net, int panel, Joint joint, Chain& chain) {
  const Rect place = upright_bounds(net, panel);
  if (joint == Joint::seam) {
    const Rect before = upright_bounds(net, chain.pieces.back().back());
    const Vec shift = chain.shifts.back() + Vec{before.right() - place.left(), Mm{}};
    chain.pieces.emplace_back();
    chain.shifts.push_back(shift);
  }
  chain.pieces.back().push_back(panel);
  const Rect moved{place.at + chain.shifts.back(), place.size};
  chain.frame = chain.frame.size == Size{} ? moved : covering(chain.frame, moved);
}

}  // namespace

std::vector<int> creased_to(const PrintedNet& net, int panel) {
  std::vector<int> near;
  for (const fold::Hinge& hinge : net.hinges) {
    if (hinge.parent == panel) near.push_back(hinge.child);
    if (hinge.child == panel) near.push_back(hinge.parent);
  }
  return near;
}

std::optional<PanelRun> lay_run(const PrintedNet& net, const std::vector<int>& panels, Mm bleed,
                                std::optional<PanelBreak>& gap) {
  Chain chain{{{}}, {Vec{}}, {}};
  for (std::size_t i = 0; i < panels.size(); ++i) {
    const Joint joint = i == 0 ? Joint::crease : joint_of(net, panels[i - 1], panels[i]);
    const bool again = std::find(panels.begin(), panels.begin() + static_cast<std::ptrdiff_t>(i),
                                 panels[i]) != panels.begin() + static_cast<std::ptrdiff_t>(i);
    if (joint == Joint::none || again) {
      gap = PanelBreak{panels[i - 1], panels[i], followers_of(net, panels[i - 1])};
      return std::nullopt;
    }
    add_link(net, panels[i], joint, chain);
  }
  PanelRun run{panels, chain.frame.size, {}, {}, {}};
  const Angle upright = panel_at(net, panels.front()).upright;
  for (std::size_t piece = 0; piece < chain.pieces.size(); ++piece) {
    const Vec back = Vec{chain.frame.at.x, chain.frame.at.y} + chain.shifts[piece] * -1;
    const Affine to_net = then(Affine::move(back), Affine::turn(upright));
    const Affine from_net = *inverse(to_net);
    for (const int panel : chain.pieces[piece]) {
      run.outlines.push_back(moved_by(panel_at(net, panel).outline, from_net));
      run.stretch_of.push_back(static_cast<int>(piece));
    }
    run.stretches.push_back({chain.pieces[piece], to_net, ink_of(net, chain.pieces[piece], bleed)});
  }
  return run;
}

}  // namespace quoin::pieces
