#include "pieces/box/stage.h"

#include <algorithm>
#include <cmath>

#include "fold/crease.h"

namespace quoin::pieces {
namespace {

using fold::Rigid;
using fold::Vec3;

const Rigid stands_upright{};
const Rigid upside_down{{-1, 0, 0, 0, -1, 0, 0, 0, 1}, {}};
const Rigid on_its_back{{1, 0, 0, 0, 0, 1, 0, -1, 0}, {}};  // the front looks up
const Rigid face_down{{1, 0, 0, 0, 0, -1, 0, 1, 0}, {}};    // the inside looks up, the top is near

StagedNet staged(int part, fold::Net net, const Rigid& place, double progress) {
  StagedNet staged{part, std::move(net), {}};
  staged.places = fold::pose(staged.net, progress);
  for (Rigid& panel : staged.places) panel = fold::placed_in(place, panel);
  return staged;
}

/// All parts of a model where they are at a moment.
std::vector<StagedNet> staged(const fold::Model& model, const Rigid& stage, double progress) {
  std::vector<StagedNet> nets;
  for (int i = 0; i < std::ssize(model.parts); ++i) {
    const fold::Part& part = model.parts[i];
    const Rigid place = fold::placed_in(stage, fold::place_of(part, progress));
    nets.push_back(staged(i, part.net, place, progress));
  }
  return nets;
}

double closed(const fold::Model& model) { return static_cast<double>(model.steps.size()); }

/// The deck at rest in the middle of the room, on its foot, pushed up by `up`.
StagedDeck deck_in(const Box& box, const Rigid& stage, Vec3 moved) {
  const fold::Block size{box.deck.face.width, box.deck.face.height, box.deck.height.typical};
  const fold::Block& room = box.fit.clear.size;
  const Vec3 corner{box.fit.clear.at.x + (room.width - size.width).value / 2,
                    box.fit.clear.at.y + (room.height - size.height).value,
                    box.fit.clear.at.z + (room.depth - size.depth).value / 2};
  return {size, fold::placed_in(stage, Rigid{Rigid{}.turn, corner + moved})};
}

/// The part that comes to the others, or -1.
int coming_part(const fold::Model& model) {
  for (int i = 0; i < std::ssize(model.parts); ++i) {
    if (model.parts[i].away != Vec3{}) return i;
  }
  return -1;
}

bool is_tuck_flap(const fold::Model& model, int panel) {
  return std::any_of(model.tucks.begin(), model.tucks.end(),
                     [&](const fold::Tuck& tuck) { return tuck.flap.panel == panel; });
}

bool carries_tuck_flap(const fold::Model& model, int panel) {
  const std::vector<fold::Hinge>& hinges = model.parts[0].net.hinges;
  return std::any_of(hinges.begin(), hinges.end(), [&](const fold::Hinge& hinge) {
    return hinge.parent == panel && is_tuck_flap(model, hinge.child);
  });
}

/// A carton whose flaps that close over the deck are swung out.
fold::Net opened(const fold::Model& model) {
  fold::Net net = model.parts[0].net;
  for (fold::Hinge& hinge : net.hinges) {
    if (hinge.turns.empty() || hinge.turns.back().progress <= model.deck_goes_in) continue;
    double degrees = -20;  // a dust flap, 110 degrees from closed
    if (is_tuck_flap(model, hinge.child)) degrees = 34;
    if (carries_tuck_flap(model, hinge.child)) degrees = -30;
    hinge.turns = {{0, Angle::degrees(degrees)}};
  }
  return net;
}

/// The least and largest places of a net on the stage, along one axis.
struct Reach {
  double least = 1e9, most = -1e9;
};
Reach reach(const StagedNet& net, double Vec3::*axis) {
  Reach reach;
  for (std::size_t i = 0; i < net.places.size(); ++i) {
    for (const Point p : net.net.panels[i].outline) {
      for (const double side : {-0.5, 0.5}) {
        const double at = net.places[i](fold::lifted(p, side * net.net.thickness.value)).*axis;
        reach = {std::min(reach.least, at), std::max(reach.most, at)};
      }
    }
  }
  return reach;
}

void move(StagedNet& net, Vec3 by) {
  for (Rigid& place : net.places) place.move = place.move + by;
}

/// Puts a lid on the ground to the left of its base.
void lay_beside(StagedNet& lid, const StagedNet& base) {
  const double gap = 0.16 * (reach(base, &Vec3::x).most - reach(base, &Vec3::x).least);
  move(lid, {reach(base, &Vec3::x).least - gap - reach(lid, &Vec3::x).most,
             reach(base, &Vec3::y).most - reach(lid, &Vec3::y).most, 0});
}

bool moves_in(const fold::Hinge& hinge, int step) {
  return !hinge.turns.empty() && hinge.turns.back().progress > step &&
         hinge.turns.back().progress <= step + 1;
}

/// Whether the box is a carton whose body is closed, so that it can be stood up.
enum class Body { flat, stands, stands_on_its_head };
Body body_at(const fold::Model& model, int step) {
  if (model.parts.size() != 1) return Body::flat;
  for (const fold::Hinge& hinge : model.parts[0].net.hinges) {
    if (!moves_in(hinge, step)) continue;
    if (hinge.from.y != hinge.to.y) return Body::flat;
    return hinge.from.y.value < model.middle.y ? Body::stands : Body::stands_on_its_head;
  }
  return Body::flat;
}

/// The last moment of a bow's step at which the straight flap is still outside.
double before_bowing(const fold::Bow& bow) {
  const auto round = [](const fold::BowMoment& moment) {
    return std::all_of(moment.strips.begin() + 1, moment.strips.end(), [&](Angle bend) {
      return std::abs(bend.radians - moment.strips[1].radians) < 1e-9;
    });
  };
  double last = bow.moments.front().progress;
  for (const fold::BowMoment& moment : bow.moments) {
    if (moment.strips.size() < 2 || !round(moment)) break;
    last = moment.progress;
  }
  return last;
}

double moment_of(const fold::Model& model, int step) {
  for (const fold::Part& part : model.parts) {
    for (const fold::Bow& bow : part.net.bows) {
      if (bow.moments.front().progress == step) return before_bowing(bow);
    }
  }
  constexpr double in_the_middle = 0.62;  // 56 of 90 degrees: which way it goes is seen
  return step + in_the_middle;
}

/// The net that is folded in a step, or -1 when parts are put together.
int folded_part(const fold::Model& model, int step) {
  for (int i = 0; i < std::ssize(model.parts); ++i) {
    for (const fold::Hinge& hinge : model.parts[i].net.hinges) {
      if (moves_in(hinge, step)) return i;
    }
  }
  return -1;
}

Stage joining_stage(const Box& box, int step) {
  Stage stage;
  stage.view = fold::view_from(Angle::degrees(32), Angle::degrees(34));
  stage.nets = staged(box.model, on_its_back, step + 0.5);
  stage.deck = deck_in(box, on_its_back, {});
  if (coming_part(box.model) != 0) {  // the deck lies in the part that comes
    const fold::Part& tray = box.model.parts[coming_part(box.model)];
    stage.deck = deck_in(box, on_its_back, fold::place_of(tray, step + 0.5).move - tray.home.move);
  }
  return stage;
}

}  // namespace

Stage closed_stage(const Box& box) {
  Stage stage;
  stage.view = fold::view_from(Angle::degrees(30), Angle::degrees(17));
  stage.nets = staged(box.model, stands_upright, closed(box.model));
  return stage;
}

Stage open_stage(const Box& box) {
  const fold::Model& model = box.model;
  Stage stage;
  if (model.parts.size() == 1) {
    stage.view = fold::view_from(Angle::degrees(30), Angle::degrees(19));
    stage.nets.push_back(staged(0, opened(model), model.parts[0].home, closed(model)));
    stage.deck = deck_in(box, stands_upright, {0, -0.26 * box.deck.face.height.value, 0});
    return stage;
  }
  stage.view = fold::view_from(Angle::degrees(30), Angle::degrees(38));
  stage.nets = staged(model, on_its_back, closed(model));
  const int coming = coming_part(model);
  if (std::abs(model.parts[coming].away.z) > std::abs(model.parts[coming].away.y)) {
    lay_beside(stage.nets[coming], stage.nets[1 - coming]);
    stage.deck = deck_in(box, on_its_back, {});
  } else {
    const Vec3 drawn{0, 0.55 * box.deck.face.height.value, 0};
    move(stage.nets[coming], on_its_back.turned(drawn));
    stage.deck = deck_in(box, on_its_back, drawn);
  }
  return stage;
}

Stage step_stage(const Box& box, int step) {
  const fold::Model& model = box.model;
  const int part = folded_part(model, step);
  if (part < 0) return joining_stage(box, step);
  const Body body = body_at(model, step);
  Stage stage;
  const Rigid& stands = body == Body::flat     ? face_down
                        : body == Body::stands ? stands_upright
                                               : upside_down;
  stage.view = body == Body::flat ? fold::view_from(Angle::degrees(26), Angle::degrees(42))
                                  : fold::view_from(Angle::degrees(32), Angle::degrees(30));
  stage.nets.push_back(staged(part, model.parts[part].net, stands, moment_of(model, step)));
  if (model.parts.size() == 1 && step >= model.deck_goes_in) {
    stage.deck = deck_in(box, stands, {});
  }
  return stage;
}

}  // namespace quoin::pieces
