#include "fold/view.h"

#include <algorithm>
#include <cmath>

#include "fold/bundles.h"

namespace quoin::fold {
namespace {

constexpr double in_plane = 1e-4;  // mm; nearer than that to a plane is on it

struct Plane {
  Vec3 normal;
  double offset = 0;

  [[nodiscard]] double beyond(Vec3 p) const { return dot(normal, p) - offset; }
};

Plane plane_of(const Facet& facet) {
  return {facet.normal, dot(facet.normal, facet.corners.front())};
}

enum class Lies { on, front, behind, across };

Lies lies(const Facet& facet, const Plane& plane) {
  double least = 0, most = 0;
  for (const Vec3 corner : facet.corners) {
    const double beyond = plane.beyond(corner);
    least = std::min(least, beyond);
    most = std::max(most, beyond);
  }
  if (most <= in_plane && least >= -in_plane) return Lies::on;
  if (least >= -in_plane) return Lies::front;
  return most <= in_plane ? Lies::behind : Lies::across;
}

/// The part of a facet on the side of the plane to which `sign` points.
Facet side_of(const Facet& facet, const Plane& plane, double sign) {
  Facet kept{facet.face, {}, facet.normal};
  for (std::size_t i = 0; i < facet.corners.size(); ++i) {
    const Vec3 a = facet.corners[i], b = facet.corners[(i + 1) % facet.corners.size()];
    const double at_a = plane.beyond(a) * sign, at_b = plane.beyond(b) * sign;
    if (at_a >= 0) kept.corners.push_back(a);
    if ((at_a > 0 && at_b < 0) || (at_a < 0 && at_b > 0)) {
      kept.corners.push_back(a + (b - a) * (at_a / (at_a - at_b)));
    }
  }
  return kept;
}

/// The facet along whose plane fewest others are cut, of up to 24 that are looked at.
std::size_t best_divider(const std::vector<Facet>& facets) {
  constexpr std::size_t looked_at = 24;
  const std::size_t stride = std::max<std::size_t>(1, facets.size() / looked_at);
  std::size_t best = 0;
  long best_cost = -1;
  for (std::size_t i = 0; i < facets.size(); i += stride) {
    const Plane plane = plane_of(facets[i]);
    long cut = 0, sides = 0;
    for (const Facet& other : facets) {
      const Lies where = lies(other, plane);
      cut += where == Lies::across ? 1 : 0;
      sides += where == Lies::front ? 1 : where == Lies::behind ? -1 : 0;
    }
    const long cost = cut * 8 + std::abs(sides);
    if (best_cost < 0 || cost < best_cost) {
      best_cost = cost;
      best = i;
    }
  }
  return best;
}

/// Adds the facets to `order`, those behind first. All are turned towards the viewer, so what lies
/// in front of a facet's plane is nearer than it.
void put_in_order(std::vector<Facet> facets, std::vector<Facet>& order) {
  if (facets.empty()) return;
  const Plane plane = plane_of(facets[best_divider(facets)]);
  std::vector<Facet> behind, on, front;
  for (Facet& facet : facets) {
    switch (lies(facet, plane)) {
      case Lies::on:
        on.push_back(std::move(facet));
        break;
      case Lies::front:
        front.push_back(std::move(facet));
        break;
      case Lies::behind:
        behind.push_back(std::move(facet));
        break;
      case Lies::across:
        front.push_back(side_of(facet, plane, 1));
        behind.push_back(side_of(facet, plane, -1));
        break;
    }
  }
  facets.clear();
  put_in_order(std::move(behind), order);
  for (Facet& facet : on) order.push_back(std::move(facet));
  put_in_order(std::move(front), order);
}

/// Without the pieces that later ones hide.
std::vector<Piece> uncovered(std::vector<Piece> pieces) {
  std::vector<Piece> kept;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    std::vector<const Convex*> covers;
    for (std::size_t k = pieces.size(); k-- > i + 1;) {
      if (may_meet(pieces[i], pieces[k])) covers.push_back(&pieces[k].outline);
    }
    if (!is_covered(pieces[i].outline, covers)) kept.push_back(pieces[i]);
  }
  return kept;
}

}  // namespace

View view_from(Angle to_the_right, Angle above) {
  const SinCos round = sin_cos(to_the_right), up = sin_cos(above);
  View view;
  view.right = {round.cos, 0, round.sin};
  view.away = {-round.sin * up.cos, up.sin, round.cos * up.cos};
  view.down = cross(view.away, view.right);
  return view;
}

Polygon seen(const View& view, const std::vector<Vec3>& outline) {
  Polygon shown;
  for (const Vec3 corner : outline) shown.push_back(seen(view, corner));
  return shown;
}

std::vector<Shown> back_to_front(const std::vector<Facet>& facets, const View& view) {
  constexpr double edge_on = 1e-6;
  std::vector<Facet> towards, order;
  for (const Facet& facet : facets) {
    if (dot(facet.normal, view.away) < -edge_on) towards.push_back(facet);
  }
  put_in_order(std::move(towards), order);
  std::vector<Piece> pieces;
  for (const Facet& facet : order) {
    Convex outline = clockwise_on_page(seen(view, facet.corners));
    if (outline.empty()) continue;
    const Rect round = bounds(outline);
    pieces.push_back({facet.face, std::move(outline), round});
  }
  return bundled(uncovered(std::move(pieces)));
}

}  // namespace quoin::fold
