#include "fold/fold.h"

#include <algorithm>
#include <stdexcept>

#include "fold/crease.h"

namespace quoin::fold {

const Net& net(const Model& model, PanelRef which) { return model.parts.at(which.part).net; }

const Panel& panel(const Model& model, PanelRef which) {
  return net(model, which).panels.at(which.panel);
}

std::optional<PanelRef> find_panel(const Model& model, std::string_view name) {
  for (int p = 0; p < std::ssize(model.parts); ++p) {
    const std::vector<Panel>& panels = model.parts[p].net.panels;
    for (int i = 0; i < std::ssize(panels); ++i) {
      if (panels[i].name == name) return PanelRef{p, i};
    }
  }
  return std::nullopt;
}

std::vector<std::string> panel_names(const Model& model) {
  std::vector<std::string> names;
  for (const Part& part : model.parts) {
    for (const Panel& panel : part.net.panels) names.push_back(panel.name);
  }
  return names;
}

Crease crease_of(const Hinge& hinge, const Panel& child) {
  const Vec along = hinge.to - hinge.from;
  const double size = length(along).value;
  if (size == 0) throw std::logic_error("a crease without length at " + child.name);
  Vec3 outward{along.y.value / size, -along.x.value / size, 0};
  if (dot(outward, lifted(centroid(child.outline)) - lifted(hinge.from)) < 0) {
    outward = outward * -1;
  }
  return {lifted(hinge.from + along * 0.5), cross(outward, {0, 0, 1}), outward};
}

Angle between(Angle before, Angle after, double from, double to, double progress) {
  if (progress <= from) return before;
  if (progress >= to) return after;
  const double part = (progress - from) / (to - from);
  return Angle{before.radians + (after.radians - before.radians) * part};
}

Angle angle_at(const Hinge& hinge, double progress) {
  Turn before;
  for (const Turn& turn : hinge.turns) {
    if (progress < turn.progress) {
      return between(before.angle, turn.angle, before.progress, turn.progress, progress);
    }
    before = turn;
  }
  return before.angle;
}

std::vector<Rigid> pose(const Net& net, double progress) {
  std::vector<Rigid> places(net.panels.size());
  std::vector<const Hinge*> hinges(net.panels.size(), nullptr);
  for (const Hinge& hinge : net.hinges) hinges.at(hinge.child) = &hinge;
  for (std::size_t i = 0; i < places.size(); ++i) {
    if (!hinges[i]) continue;
    const Crease crease = crease_of(*hinges[i], net.panels[i]);
    places[i] = placed_in(places.at(hinges[i]->parent),
                          turn_about(crease.at, crease.axis, angle_at(*hinges[i], progress)));
  }
  return places;
}

Rigid place_of(const Part& part, double progress) {
  Rigid place = part.home;
  if (progress >= part.arrives_by) return place;
  const double left = progress <= part.arrives_from
                          ? 1
                          : (part.arrives_by - progress) / (part.arrives_by - part.arrives_from);
  place.move = place.move + part.away * left;
  return place;
}

std::vector<std::vector<Rigid>> pose(const Model& model, double progress) {
  std::vector<std::vector<Rigid>> all;
  for (const Part& part : model.parts) {
    const Rigid place = place_of(part, progress);
    std::vector<Rigid>& places = all.emplace_back(pose(part.net, progress));
    for (Rigid& panel : places) panel = placed_in(place, panel);
  }
  return all;
}

std::vector<Region> cut_outline(const Net& net) {
  std::vector<Polygon> outlines;
  for (const Panel& panel : net.panels) outlines.push_back(panel.outline);
  return united(outlines);
}

std::vector<Region> inked_outline(const Net& net, Mm by) {
  std::vector<Polygon> glued;
  for (const Glue& glue : net.glue) glued.push_back(glue.area);
  return without(grown(cut_outline(net), by), glued);
}

}  // namespace quoin::fold
