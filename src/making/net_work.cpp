#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "making/cutting.h"

namespace quoin::making {
namespace {

/// A side shorter than this is a step along a curve, as arcs are drawn on nets; turning by more
/// than this between two sides ends a stretch.
constexpr Mm longest_curve_step{4};
constexpr double most_turn_on_curve = 30 * std::numbers::pi / 180;
constexpr double least_turn = 0.5 * std::numbers::pi / 180;

double turn_between(Vec a, Vec b) {
  const double cross = a.x.value * b.y.value - a.y.value * b.x.value;
  const double dot = a.x.value * b.x.value + a.y.value * b.y.value;
  return std::abs(std::atan2(cross, dot));
}

/// Stretches of an outline: a straight one is one stroke along a rule, a run of short sides that
/// turn a little each time is one curve.
void count_ring(const Polygon& ring, NetWork& work) {
  const std::size_t n = ring.size();
  const auto side = [&](std::size_t i) { return ring[(i + 1) % n] - ring[i % n]; };
  const auto is_curved = [&](std::size_t i) {
    if (length(side(i)) > longest_curve_step) return false;
    const auto bends = [](double turn) { return turn > least_turn && turn < most_turn_on_curve; };
    return bends(turn_between(side(i + n - 1), side(i))) &&
           bends(turn_between(side(i), side(i + 1)));
  };
  for (std::size_t i = 0; i < n; ++i) {
    work.cut_length += length(side(i));
    const std::size_t before = i + n - 1;
    if (is_curved(i)) {
      if (!is_curved(before)) ++work.curves;
    } else if (is_curved(before) || turn_between(side(before), side(i)) > least_turn) {
      ++work.cuts;
    }
  }
}

bool on_one_line(const fold::Hinge& a, const fold::Hinge& b) {
  const Vec along = a.to - a.from;
  const auto off = [&](Point p) {
    const Vec to = p - a.from;
    return std::abs(along.x.value * to.y.value - along.y.value * to.x.value) /
           std::max(length(along).value, 1e-9);
  };
  return off(b.from) < epsilon.value && off(b.to) < epsilon.value;
}

}  // namespace

NetWork work_of(const fold::Net& net, int boxes) {
  NetWork work;
  work.name = net.name;
  work.boxes = boxes;
  for (const Region& region : fold::cut_outline(net)) {
    count_ring(region.outer, work);
    for (const Polygon& hole : region.holes) count_ring(hole, work);
  }
  for (const fold::Slit& slit : net.slits) {
    ++work.cuts;
    work.cut_length += length(slit.to - slit.from);
  }
  std::vector<const fold::Hinge*> lines;
  for (const fold::Hinge& hinge : net.hinges) {
    work.crease_length += length(hinge.to - hinge.from);
    const bool is_new = std::none_of(lines.begin(), lines.end(), [&](const fold::Hinge* other) {
      return on_one_line(*other, hinge);
    });
    if (is_new) lines.push_back(&hinge);
  }
  work.creases = static_cast<int>(lines.size());
  for (const fold::Glue& glue : net.glue) {
    ++work.seams;
    work.glued += area(glue.area);
  }
  return work;
}

}  // namespace quoin::making
