#include "fold/measure.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "fold/prism.h"

namespace quoin::fold {
namespace {

constexpr double closed = std::numeric_limits<double>::infinity();
constexpr double out_of_reach = 1000;  // mm: a side that nothing closes

using Span = std::array<double, 2>;
using Bounds = std::array<Span, 3>;

std::array<double, 3> parts_of(Vec3 v) { return {v.x, v.y, v.z}; }
double size(const Bounds& box, int axis) { return box[axis][1] - box[axis][0]; }

/// Round a plate where it lies.
Bounds bounds_of(const Panel& panel, Mm thickness, const Rigid& place) {
  Bounds box;
  box.fill({closed, -closed});
  for (const Point p : panel.outline) {
    for (const double z : {-thickness.value / 2, thickness.value / 2}) {
      const auto at = parts_of(place(lifted(p, z)));
      for (int axis = 0; axis < 3; ++axis) {
        box[axis] = {std::min(box[axis][0], at[axis]), std::max(box[axis][1], at[axis])};
      }
    }
  }
  return box;
}

std::vector<Bounds> plates_of(const Model& model) {
  std::vector<Bounds> plates;
  const auto places = pose(model, closed);
  for (std::size_t part = 0; part < model.parts.size(); ++part) {
    const Net& net = model.parts[part].net;
    for (std::size_t i = 0; i < net.panels.size(); ++i) {
      plates.push_back(bounds_of(net.panels[i], net.thickness, places[part][i]));
    }
  }
  return plates;
}

bool covers(const Bounds& plate, Vec3 middle) {
  const auto at = parts_of(middle);
  for (int axis = 0; axis < 3; ++axis) {
    if (plate[axis][0] >= at[axis] || plate[axis][1] <= at[axis]) return false;
  }
  return true;
}

/// Whether a plate lies in a block by more than a rounding error.
bool meets(const Bounds& plate, const Bounds& block) {
  for (int axis = 0; axis < 3; ++axis) {
    if (plate[axis][0] >= block[axis][1] - 1e-9 || plate[axis][1] <= block[axis][0] + 1e-9) {
      return false;
    }
  }
  return true;
}

/// How well a block holds the deck: first its tightest axis, then all of its room.
struct Room {
  double tightest = -closed, all = 0;
  bool operator<(const Room& other) const {
    if (std::abs(tightest - other.tightest) > 1e-9) return tightest < other.tightest;
    return all < other.all;
  }
};

/// Takes plates away from a block one after another: a plate that lies in it leaves, for each of
/// its sides that does not face past the middle, a smaller block. The best of all ends is kept.
class ClearSearch {
 public:
  ClearSearch(const std::vector<Bounds>& plates, Vec3 middle, const Block& deck)
      : plates_(plates),
        middle_(parts_of(middle)),
        deck_({deck.width.value, deck.height.value, deck.depth.value}) {}

  Bounds best() {
    Bounds all;
    for (int axis = 0; axis < 3; ++axis) {
      all[axis] = {middle_[axis] - out_of_reach, middle_[axis] + out_of_reach};
    }
    best_ = all;
    narrow(all, 0);
    return best_;
  }

 private:
  [[nodiscard]] Room room(const Bounds& block) const {
    Room room{closed, 0};
    for (int axis = 0; axis < 3; ++axis) {
      room.tightest = std::min(room.tightest, size(block, axis) - deck_[axis]);
      room.all += size(block, axis);
    }
    return room;
  }

  void narrow(const Bounds& block, std::size_t next) {
    if (!(best_room_ < room(block))) return;  // it only gets smaller
    while (next < plates_.size() && !meets(plates_[next], block)) ++next;
    if (next == plates_.size()) {
      best_ = block;
      best_room_ = room(block);
      return;
    }
    for (int axis = 0; axis < 3; ++axis) {
      if (plates_[next][axis][1] <= middle_[axis]) {
        Bounds less = block;
        less[axis][0] = plates_[next][axis][1];
        narrow(less, next + 1);
      } else if (plates_[next][axis][0] >= middle_[axis]) {
        Bounds less = block;
        less[axis][1] = plates_[next][axis][0];
        narrow(less, next + 1);
      }
    }
  }

  const std::vector<Bounds>& plates_;
  std::array<double, 3> middle_;
  std::array<double, 3> deck_;
  Bounds best_{};
  Room best_room_;
};

const Rigid& place_in(const std::vector<std::vector<Rigid>>& places, PanelRef which) {
  return places.at(which.part).at(which.panel);
}

double gap_between(const Model& model, const std::vector<std::vector<Rigid>>& places, PanelRef a,
                   PanelRef b) {
  return apart(solid(panel(model, a).outline, net(model, a).thickness), place_in(places, a),
               solid(panel(model, b).outline, net(model, b).thickness), place_in(places, b),
               closed);
}

/// An outline of one panel as it lies on another, in the other's net coordinates.
Polygon laid_on(const Polygon& outline, const Rigid& place, const Rigid& other) {
  Polygon laid;
  for (const Point p : outline) {
    const Vec3 at = other.back(place(lifted(p)));
    laid.push_back({Mm{at.x}, Mm{at.y}});
  }
  return laid;
}

/// How far the mid-plane of a panel lies beyond another's on the other's inside, when parallel.
std::optional<double> height_over(const Polygon& outline, const Rigid& place, const Rigid& other) {
  if (std::abs(std::abs(dot(place.normal(), other.normal())) - 1) > 1e-6) return std::nullopt;
  return other.back(place(lifted(outline.front()))).z;
}

}  // namespace

Clear clear_inside(const Model& model, const Block& deck) {
  const std::vector<Bounds> plates = plates_of(model);
  for (const Bounds& plate : plates) {
    if (covers(plate, model.middle)) return {{}, model.middle};
  }
  const Bounds best = ClearSearch(plates, model.middle, deck).best();
  return {{Mm{size(best, 0)}, Mm{size(best, 1)}, Mm{size(best, 2)}},
          {best[0][0], best[1][0], best[2][0]}};
}

std::vector<Gap> gaps(const Model& model) {
  const auto places = pose(model, closed);
  std::vector<Gap> all;
  for (const Meeting& meeting : model.meetings) {
    all.push_back({meeting.a, meeting.b, Mm{gap_between(model, places, meeting.a, meeting.b)}});
  }
  return all;
}

std::vector<Contact> contacts(const Model& model) {
  constexpr double near_enough = 0.1;  // mm
  const auto places = pose(model, closed);
  std::vector<Contact> all;
  for (int part = 0; part < std::ssize(model.parts); ++part) {
    const Net& net = model.parts[part].net;
    for (const Glue& glue : net.glue) {
      const PanelRef other{glue.onto_part.value_or(part), glue.onto};
      const Rigid &flap = places[part][glue.panel], &onto = place_in(places, other);
      Contact contact{{part, glue.panel}, other, 0, area(glue.area), {}};
      const std::optional<double> height = height_over(glue.area, flap, onto);
      if (height) contact.apart = Mm{*height} - net.thickness;
      if (height && std::abs(contact.apart.value) <= near_enough) {
        contact.area = area(common(laid_on(glue.area, flap, onto), panel(model, other).outline));
      }
      all.push_back(contact);
    }
  }
  return all;
}

std::vector<Grip> grips(const Model& model) {
  const auto places = pose(model, closed);
  std::vector<Grip> all;
  for (const Tuck& tuck : model.tucks) {
    const Rigid &flap = place_in(places, tuck.flap), &behind = place_in(places, tuck.behind);
    Grip grip{tuck.flap, tuck.behind, {}, {}};
    const Polygon& outline = panel(model, tuck.flap).outline;
    if (const std::optional<double> height = height_over(outline, flap, behind)) {
      grip.apart = Mm{std::abs(*height)} - net(model, tuck.flap).thickness;
      for (const Region& both :
           common(laid_on(outline, flap, behind), panel(model, tuck.behind).outline)) {
        grip.depth = std::max(grip.depth, bounds(both.outer).size.height);
      }
    }
    all.push_back(grip);
  }
  return all;
}

Block outside(const Model& model) {
  Bounds whole;
  whole.fill({closed, -closed});
  for (const Bounds& plate : plates_of(model)) {
    for (int axis = 0; axis < 3; ++axis) {
      whole[axis] = {std::min(whole[axis][0], plate[axis][0]),
                     std::max(whole[axis][1], plate[axis][1])};
    }
  }
  return {Mm{size(whole, 0)}, Mm{size(whole, 1)}, Mm{size(whole, 2)}};
}

}  // namespace quoin::fold
