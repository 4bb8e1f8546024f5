#include "pieces/box/printed_net.h"

#include <limits>

namespace quoin::pieces {
namespace {

constexpr double when_closed = std::numeric_limits<double>::max();

Point seen_from_behind(Point p) { return {-p.x, p.y}; }

Polygon seen_from_behind(Polygon polygon) {
  for (Point& corner : polygon) corner = seen_from_behind(corner);
  return polygon;
}

void turn_over(PrintedNet& net) {
  for (fold::Panel& panel : net.panels) {
    panel.outline = seen_from_behind(std::move(panel.outline));
    panel.upright = Angle{-panel.upright.radians};
  }
  for (fold::Hinge& hinge : net.hinges) {
    hinge.from = seen_from_behind(hinge.from);
    hinge.to = seen_from_behind(hinge.to);
  }
  for (Polygon& area : net.glue) area = seen_from_behind(std::move(area));
}

/// Where a glue area comes to lie on the panel that it is stuck to, in the frame of the net.
Polygon stuck_to(const fold::Glue& glue, const std::vector<fold::Rigid>& closed) {
  Polygon area;
  for (const Point corner : glue.area) {
    const fold::Vec3 there = closed.at(static_cast<std::size_t>(glue.panel))(fold::lifted(corner));
    const fold::Vec3 back = closed.at(static_cast<std::size_t>(glue.onto)).back(there);
    area.push_back({Mm{back.x}, Mm{back.y}});
  }
  return area;
}

}  // namespace

PrintedNet printed_net(const fold::Model& model, int part, PrintSide side) {
  const fold::Net& net = model.parts.at(static_cast<std::size_t>(part)).net;
  PrintedNet printed{side, net.panels, net.hinges, {}, {}};
  for (const fold::Meeting& meeting : model.meetings) {
    if (meeting.a.part != part || meeting.b.part != part) continue;
    printed.seams.emplace_back(meeting.a.panel, meeting.b.panel);
  }
  const std::vector<fold::Rigid> closed = fold::pose(net, when_closed);
  for (const fold::Glue& glue : net.glue) {
    printed.glue.push_back(side == PrintSide::outside ? glue.area : stuck_to(glue, closed));
  }
  if (side == PrintSide::inside) turn_over(printed);
  return printed;
}

int panel_named(const PrintedNet& net, std::string_view name) {
  for (std::size_t i = 0; i < net.panels.size(); ++i) {
    if (net.panels[i].name == name) return static_cast<int>(i);
  }
  return -1;
}

}  // namespace quoin::pieces
