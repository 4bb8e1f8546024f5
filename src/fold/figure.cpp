#include "fold/figure.h"

#include <algorithm>

namespace quoin::fold {
namespace {

const Hinge* hinge_of(const Net& net, int child) {
  for (const Hinge& hinge : net.hinges) {
    if (hinge.child == child) return &hinge;
  }
  return nullptr;
}

const Bow* bow_of(const Net& net, int panel) {
  for (const Bow& bow : net.bows) {
    if (bow.panel == panel) return &bow;
  }
  return nullptr;
}

/// One part's plates, put behind those that are there.
class PartFigure {
 public:
  PartFigure(Figure& figure, int part)
      : figure_(figure), part_(part), net_(figure.model->parts[part].net) {}

  void add() {
    const int first = static_cast<int>(figure_.plates.size());
    for (int panel = 0; panel < std::ssize(net_.panels); ++panel) add_panel(panel, first);
    for (const Bow& bow : net_.bows) add_strips(bow, first);
  }

 private:
  void add_panel(int panel, int first) {
    const Polygon& outline = net_.panels[panel].outline;
    Plate plate;
    plate.panel = {part_, panel};
    plate.solid = fold::solid(outline, net_.thickness);
    if (const Hinge* hinge = hinge_of(net_, panel)) {
      plate.parent = first + hinge->parent;
      plate.crease = crease_of(*hinge, net_.panels[panel]);
      set_beyond_crease(plate, outline, net_.panels[hinge->parent].outline);
    }
    if (const Bow* bow = bow_of(net_, panel)) {
      plate.bowed_from = bow->moments.front().progress;
      plate.bowed_to = bow->moments.back().progress;
    }
    figure_.plates.push_back(std::move(plate));
  }

  void add_strips(const Bow& bow, int first) {
    const std::vector<BowMoment>& moments = bow.moments;
    const int count = static_cast<int>(moments.front().strips.size());
    const double width = bow.depth.value / count;
    const Hinge* hinge = hinge_of(net_, bow.panel);
    Plate strip;
    strip.panel = {part_, bow.panel};
    strip.parent = first + hinge->parent;
    strip.bowed_from = moments.front().progress;
    strip.bowed_to = moments.back().progress;
    const Polygon* before = &net_.panels[hinge->parent].outline;
    Polygon band;
    const Crease crease = crease_of(*hinge, net_.panels[bow.panel]);
    const Polygon& outline = net_.panels[bow.panel].outline;
    for (int k = 0; k < count; ++k) {
      strip.strip = k;
      strip.crease = crease;
      strip.crease.at = crease.at + crease.outward * (k * width);
      const double to = k + 1 == count ? width + 1e-6 : width;
      Polygon next = clipped(outline, strip.crease.at, crease.outward, 0, to);
      strip.solid = fold::solid(next, net_.thickness);
      set_beyond_crease(strip, next, *before);
      band = std::move(next);
      before = &band;
      figure_.plates.push_back(strip);
      strip.parent = static_cast<int>(figure_.plates.size()) - 1;
    }
  }

  void set_beyond_crease(Plate& plate, const Polygon& outline, const Polygon& parent) const {
    const Crease& crease = plate.crease;
    const double t = net_.thickness.value;
    plate.off_crease =
        fold::solid(clipped(outline, crease.at, crease.outward, t, far), net_.thickness);
    plate.parent_off_crease =
        fold::solid(clipped(parent, crease.at, crease.outward, -far, -t), net_.thickness);
    const bool crossed = reach(outline, crease, -1) > 1e-6 || reach(parent, crease, 1) > 1e-6;
    plate.sides = crossed ? Plate::Sides::crossed : Plate::Sides::own;
  }

  /// How far an outline reaches over the line of the crease.
  static double reach(const Polygon& outline, const Crease& crease, double way) {
    double most = 0;
    for (const Point p : outline) {
      most = std::max(most, dot(lifted(p) - crease.at, crease.outward) * way);
    }
    return most;
  }

  static constexpr double far = 1e6;  // mm
  Figure& figure_;
  int part_;
  const Net& net_;
};

void add_moments(const Net& net, std::vector<double>& moments) {
  for (const Hinge& hinge : net.hinges) {
    for (const Turn& turn : hinge.turns) moments.push_back(turn.progress);
  }
  for (const Bow& bow : net.bows) {
    for (const BowMoment& moment : bow.moments) moments.push_back(moment.progress);
  }
}

Angle strip_angle(const Bow& bow, int strip, double progress) {
  const BowMoment* before = &bow.moments.front();
  if (progress <= before->progress) return before->strips[strip];
  for (const BowMoment& moment : bow.moments) {
    if (progress < moment.progress) {
      return between(before->strips[strip], moment.strips[strip], before->progress, moment.progress,
                     progress);
    }
    before = &moment;
  }
  return before->strips[strip];
}

}  // namespace

Figure figure(const Model& model) {
  Figure made;
  made.model = &model;
  for (int step = 0; step <= std::ssize(model.steps); ++step) made.moments.push_back(step);
  for (int part = 0; part < std::ssize(model.parts); ++part) {
    PartFigure(made, part).add();
    add_moments(model.parts[part].net, made.moments);
    made.moments.push_back(model.parts[part].arrives_from);
    made.moments.push_back(model.parts[part].arrives_by);
  }
  std::sort(made.moments.begin(), made.moments.end());
  made.moments.erase(std::unique(made.moments.begin(), made.moments.end()), made.moments.end());
  return made;
}

Angle angle_of(const Figure& figure, const Plate& plate, double progress) {
  if (plate.parent < 0) return {};
  const Net& net = figure.model->parts[plate.panel.part].net;
  if (plate.strip >= 0) return strip_angle(*bow_of(net, plate.panel.panel), plate.strip, progress);
  return angle_at(*hinge_of(net, plate.panel.panel), progress);
}

bool is_there(const Plate& plate, double from, double to) {
  if (plate.bowed_from == plate.bowed_to) return true;
  const bool bowed = from >= plate.bowed_from && to <= plate.bowed_to;
  return bowed == (plate.strip >= 0);
}

}  // namespace quoin::fold
