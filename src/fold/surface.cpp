#include "fold/surface.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "fold/crease.h"

namespace quoin::fold {
namespace {

constexpr double same_line = 1e-3;  // mm

Surface face_of(int number, const Panel& panel, const Rigid& place, double z) {
  Surface surface;
  surface.panel = number;
  surface.side = z < 0 ? Side::printed : Side::inside;
  surface.map = {place({0, 0, z}), place.turned({1, 0, 0}), place.turned({0, 1, 0})};
  surface.normal = place.normal() * (z < 0 ? -1 : 1);
  for (const Polygon& part : convex_parts(panel.outline)) {
    std::vector<Vec3>& corners = surface.parts.emplace_back();
    for (const Point p : part) corners.push_back(surface.map(p));
  }
  return surface;
}

/// A stretch of one side of an outline, as fractions of it.
struct EdgeStretch {
  double from = 0, to = 1;
};

/// The stretch of the side from a to b that a crease covers, or nothing.
std::optional<EdgeStretch> creased(Point a, Point b, const Hinge& hinge) {
  const Vec3 start = lifted(a), along = lifted(b) - start;
  const double size = length(along);
  const auto off_line = [&](Point p) { return std::abs(cross(along, lifted(p) - start).z) / size; };
  if (off_line(hinge.from) > same_line || off_line(hinge.to) > same_line) return std::nullopt;
  const auto at = [&](Point p) { return dot(lifted(p) - start, along) / (size * size); };
  const double one = at(hinge.from), other = at(hinge.to);
  const EdgeStretch stretch{std::max(0.0, std::min(one, other)),
                            std::min(1.0, std::max(one, other))};
  if (stretch.to - stretch.from < 1e-6) return std::nullopt;
  return stretch;
}

/// The side without its creases.
std::vector<EdgeStretch> cut_stretches(Point a, Point b, const std::vector<const Hinge*>& hinges) {
  std::vector<EdgeStretch> left{{}};
  for (const Hinge* hinge : hinges) {
    const std::optional<EdgeStretch> gone = creased(a, b, *hinge);
    if (!gone) continue;
    std::vector<EdgeStretch> still;
    for (const EdgeStretch& each : left) {
      const EdgeStretch before{each.from, std::min(each.to, gone->from)};
      const EdgeStretch after{std::max(each.from, gone->to), each.to};
      for (const EdgeStretch& rest : {before, after}) {
        if (rest.to - rest.from > 1e-6) still.push_back(rest);
      }
    }
    left = std::move(still);
  }
  return left;
}

void add_edges(std::vector<Surface>& all, int number, const Panel& panel, const Rigid& place,
               double half, const std::vector<const Hinge*>& hinges) {
  Polygon outline = panel.outline;
  if (signed_area(outline) < 0) std::reverse(outline.begin(), outline.end());
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Point a = outline[i], b = outline[(i + 1) % outline.size()];
    const double size = length(b - a).value;
    if (size == 0) continue;
    const Vec along = (b - a) * (1 / size);
    for (const EdgeStretch& each : cut_stretches(a, b, hinges)) {
      const Point from = a + (b - a) * each.from, to = a + (b - a) * each.to;
      Surface& edge = all.emplace_back();
      edge.panel = number;
      edge.side = Side::edge;
      edge.normal = place.turned({along.y.value, -along.x.value, 0});
      edge.parts = {{place(lifted(from, -half)), place(lifted(to, -half)), place(lifted(to, half)),
                     place(lifted(from, half))}};
    }
  }
}

/// A bent crease: in the parent's frame.
struct Bend {
  const Hinge& hinge;
  Crease crease;
  double angle = 0;  ///< positive, away from the side that shows
  double half = 0;
  Side side = Side::printed;

  /// From the crease's line to the outer side of the bend.
  [[nodiscard]] Vec3 reach(double at) const {
    const Vec3 start{0, 0, side == Side::printed ? -1.0 : 1.0};
    return start * (std::cos(at) * half) + crease.outward * (std::sin(at) * half);
  }
};

/// Where on the net the art of a strip lies, counted from the crease towards the child: that of the
/// nearer panel's rim, stretched.
double art_beside(const Bend& bend, double at, bool parents) {
  constexpr double taken = 0.15;  // of the strip's width: lines of the art go straight on
  return taken * bend.half * (parents ? -at : bend.angle - at);
}

Surface strip(const Bend& bend, const Rigid& place, double from, double to) {
  const bool parents = to <= bend.angle / 2 + 1e-9;
  const Vec3 a = lifted(bend.hinge.from), b = lifted(bend.hinge.to);
  const Vec3 at_from = bend.reach(from), at_to = bend.reach(to);
  const Vec3 along = (b - a) * (1 / length(b - a));
  const double art_from = art_beside(bend, from, parents), art_to = art_beside(bend, to, parents);
  // A net place n lies at: a + at_from + ((n - a).along) along + ((n - a).out - art_from) rise.
  const Vec3 out = bend.crease.outward, rise = (at_to - at_from) * (1 / (art_to - art_from));
  const Vec3 x = along * along.x + rise * out.x, y = along * along.y + rise * out.y;
  const Vec3 origin = a + at_from - along * dot(a, along) - rise * (dot(a, out) + art_from);
  Surface surface;
  surface.panel = parents ? bend.hinge.parent : bend.hinge.child;
  surface.side = bend.side;
  surface.map = {place(origin), place.turned(x), place.turned(y)};
  surface.normal = place.turned(bend.reach((from + to) / 2) * (1 / bend.half));
  surface.parts = {{place(a + at_from), place(b + at_from), place(b + at_to), place(a + at_to)}};
  return surface;
}

/// How far the child of a hinge is turned against its parent.
double angle_between(const Hinge& hinge, const Crease& crease, const std::vector<Rigid>& places) {
  const Vec3 out = places.at(hinge.parent).unturned(places.at(hinge.child).turned(crease.outward));
  return std::atan2(out.z, dot(out, crease.outward));
}

void add_bend(std::vector<Surface>& all, const Net& net, const Hinge& hinge,
              const std::vector<Rigid>& places) {
  const Crease crease = crease_of(hinge, net.panels.at(hinge.child));
  const double angle = angle_between(hinge, crease, places);
  if (std::abs(angle) < 1e-6) return;
  const Bend bend{hinge, crease, std::abs(angle), net.thickness.value / 2,
                  angle > 0 ? Side::printed : Side::inside};
  const int strips = 2 * static_cast<int>(std::ceil(bend.angle / (std::numbers::pi / 3) - 1e-9));
  for (int k = 0; k < strips; ++k) {
    all.push_back(strip(bend, places.at(hinge.parent), bend.angle * k / strips,
                        bend.angle * (k + 1) / strips));
  }
}

}  // namespace

std::vector<Surface> surfaces(const Net& net, const std::vector<Rigid>& places, Creases creases) {
  std::vector<Surface> all;
  const double half = net.thickness.value / 2;
  for (int i = 0; i < std::ssize(net.panels); ++i) {
    std::vector<const Hinge*> hinges;
    for (const Hinge& hinge : net.hinges) {
      const bool own = hinge.parent == i || hinge.child == i;
      if (own && creases == Creases::rounded) hinges.push_back(&hinge);
    }
    all.push_back(face_of(i, net.panels[i], places.at(i), -half));
    all.push_back(face_of(i, net.panels[i], places.at(i), half));
    add_edges(all, i, net.panels[i], places.at(i), half, hinges);
  }
  if (creases == Creases::open) return all;
  for (const Hinge& hinge : net.hinges) add_bend(all, net, hinge, places);
  return all;
}

}  // namespace quoin::fold
