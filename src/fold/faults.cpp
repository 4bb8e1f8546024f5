#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "fold/fold.h"

namespace quoin::fold {
namespace {

constexpr double same_place = 1e-6;  // mm
constexpr double no_area = 1e-3;     // mm²: corners are rounded to 1e-6 mm along sides of 100 mm

double distance(Point p, Point a, Point b) {
  const Vec along = b - a, to = p - a;
  const double size = along.x.value * along.x.value + along.y.value * along.y.value;
  const double part =
      size == 0 ? 0 : (to.x.value * along.x.value + to.y.value * along.y.value) / size;
  return length(p - (a + along * std::clamp(part, 0.0, 1.0))).value;
}

bool is_on_edge(const Polygon& outline, Point p) {
  for (std::size_t i = 0; i < outline.size(); ++i) {
    if (distance(p, outline[i], outline[(i + 1) % outline.size()]) <= same_place) return true;
  }
  return false;
}

void check_panels(const Net& net, std::vector<std::string>& faults) {
  std::set<std::string> names;
  for (std::size_t i = 0; i < net.panels.size(); ++i) {
    const Panel& panel = net.panels[i];
    if (!names.insert(panel.name).second) faults.push_back("two panels are called " + panel.name);
    if (!is_simple(panel.outline)) {
      faults.push_back("the outline of " + panel.name + " crosses itself");
      continue;
    }
    for (std::size_t k = 0; k < i; ++k) {
      if (!is_simple(net.panels[k].outline)) continue;
      const double both = area(common(panel.outline, net.panels[k].outline));
      if (both <= no_area) continue;
      faults.push_back(
          fmt::format("{} and {} share {:.3f} mm² of board", net.panels[k].name, panel.name, both));
    }
  }
}

void check_crease(const Net& net, const Hinge& hinge, std::vector<std::string>& faults) {
  const int count = static_cast<int>(net.panels.size());
  if (hinge.parent < 0 || hinge.parent >= hinge.child || hinge.child >= count) {
    faults.push_back(fmt::format("a crease joins panels {} and {}", hinge.parent, hinge.child));
    return;
  }
  const Point middle = hinge.from + (hinge.to - hinge.from) * 0.5;
  for (const int which : {hinge.parent, hinge.child}) {
    for (const Point p : {hinge.from, middle, hinge.to}) {
      if (is_on_edge(net.panels[which].outline, p)) continue;
      faults.push_back(fmt::format("the crease between {} and {} is not on an edge of {}",
                                   net.panels[hinge.parent].name, net.panels[hinge.child].name,
                                   net.panels[which].name));
      break;
    }
  }
  if (length(hinge.to - hinge.from) <= epsilon) {
    faults.push_back("the crease of " + net.panels[hinge.child].name + " has no length");
  }
  const auto later = [](const Turn& a, const Turn& b) { return a.progress >= b.progress; };
  if (std::adjacent_find(hinge.turns.begin(), hinge.turns.end(), later) != hinge.turns.end()) {
    faults.push_back("the turns of " + net.panels[hinge.child].name + " are not in order");
  }
}

void check_tree(const Net& net, std::vector<std::string>& faults) {
  std::vector<int> parents(net.panels.size(), 0);
  for (const Hinge& hinge : net.hinges) {
    if (hinge.child >= 0 && hinge.child < std::ssize(parents)) ++parents[hinge.child];
  }
  if (std::count(parents.begin(), parents.end(), 0) != 1) {
    faults.push_back(net.name + " does not hang together from one panel");
  }
  for (std::size_t i = 0; i < parents.size(); ++i) {
    if (parents[i] > 1) faults.push_back(net.panels[i].name + " hangs on two creases");
  }
}

void check_glue(const Net& net, std::vector<std::string>& faults) {
  for (const Glue& glue : net.glue) {
    const Polygon& outline = net.panels.at(glue.panel).outline;
    const double on = area(common(glue.area, outline));
    if (std::abs(on - area(glue.area)) > no_area) {
      faults.push_back(
          fmt::format("the glue on {} leaves the panel: {:.3f} of {:.3f} mm² are on it",
                      net.panels[glue.panel].name, on, area(glue.area)));
    }
  }
}

}  // namespace

std::vector<std::string> faults_of(const Net& net) {
  std::vector<std::string> faults;
  if (net.thickness <= Mm{}) faults.push_back(net.name + " has no thickness");
  check_panels(net, faults);
  for (const Hinge& hinge : net.hinges) check_crease(net, hinge, faults);
  check_tree(net, faults);
  check_glue(net, faults);
  return faults;
}

}  // namespace quoin::fold
