#include "pieces/box/tube.h"

#include <algorithm>
#include <cmath>

#include "pieces/box/draft.h"
#include "pieces/box/tray.h"

namespace quoin::pieces {
namespace {

using fold::PanelRef;

struct TubeWork {
  fold::Model& model;
  const Tube& tube;
  TubePanels at;

  [[nodiscard]] bool in_two() const { return tube.parts == game::NetParts::two; }
  [[nodiscard]] fold::Net& net(PanelRef panel) const { return model.parts[panel.part].net; }
  PanelRef add(int part, const char* name, Polygon outline,
               fold::Seen seen = fold::Seen::outside) const {
    return {part, add_panel(model.parts[part].net, tube.name + name, std::move(outline), {}, seen)};
  }
};

void set_columns(const TubeWork& work, TubePanels& at) {
  const Tube& tube = work.tube;
  const Mm wide = tube.width + tube.thickness, narrow = tube.depth + tube.thickness;
  at.front_from = tube.thickness;  // one thickness less than the room, for the glue flap
  at.front_to = at.right_from = wide;
  at.right_to = wide + narrow;
  at.back_from = work.in_two() ? tube.thickness : at.right_to;
  at.back_to = at.left_from = work.in_two() ? wide : at.back_from + wide;
  at.left_to = at.left_from + narrow;
}

int add_part(fold::Model& model, std::string name, Mm thickness) {
  fold::Part& part = model.parts.emplace_back();
  part.net.name = std::move(name);
  part.net.thickness = thickness;
  return static_cast<int>(model.parts.size()) - 1;
}

void add_crease_at(const TubeWork& work, PanelRef parent, PanelRef child, Mm x, int step) {
  add_crease(work.net(parent), parent.panel, child.panel, {x, work.tube.side_top},
             {x, work.tube.side_bottom}, work.tube.first_step + step);
}

/// A flap at the left end of a wide panel, glued inside the narrow panel `onto`.
PanelRef add_glue_flap(const TubeWork& work, const char* name, PanelRef on, PanelRef onto,
                       int step) {
  constexpr Mm short_of_body{1};
  const Tube& tube = work.tube;
  const Mm side = tube.thickness;
  const Mm from = tube.side_top + tube.thickness / 2 + short_of_body;
  const Mm to = tube.side_bottom - tube.thickness / 2 - short_of_body;
  const Mm reach = std::min(tube.glue_flap, tube.depth - tube.thickness);
  const Mm taper = std::min(reach * std::tan(Angle::degrees(15).radians), (to - from) / 4);
  Polygon outline = flap({side, to}, {side, from}, reach, taper, Mm{});
  const PanelRef flap = work.add(on.part, name, outline, fold::Seen::hidden);
  add_crease(work.net(on), on.panel, flap.panel, {side, from}, {side, to}, tube.first_step + step);
  fold::Glue glue{flap.panel, onto.panel, std::move(outline), {}};
  if (onto.part != on.part) glue.onto_part = onto.part;
  work.net(on).glue.push_back(std::move(glue));
  return flap;
}

void add_walls(TubeWork& work, int first, int second) {
  const Tube& tube = work.tube;
  TubePanels& at = work.at;
  const auto side = [&](Mm from, Mm to) {
    return block(from, tube.side_top, to, tube.side_bottom);
  };
  at.front = work.add(first, "front",
                      notched(at.front_from, tube.top, at.front_to, tube.bottom,
                              {tube.notch_top, tube.notch_bottom}));
  at.right = work.add(first, "right", side(at.right_from, at.right_to));
  at.back = work.add(second, "back",
                     notched(at.back_from, tube.top, at.back_to, tube.bottom,
                             {tube.back_notch_top, tube.back_notch_bottom}));
  at.left = work.add(second, "left", side(at.left_from, at.left_to));
}

void fold_one_part(TubeWork& work) {
  TubePanels& at = work.at;
  add_crease_at(work, at.front, at.right, at.front_to, 0);
  add_crease_at(work, at.right, at.back, at.right_to, 0);
  add_crease_at(work, at.back, at.left, at.back_to, 2);
  at.flap = add_glue_flap(work, "glue flap", at.front, at.left, 1);
}

/// The back half comes down over the front half, both flat but for their flaps; then the sides go
/// over the flaps, just as the one seam of a tube in one part is closed.
void fold_two_parts(TubeWork& work) {
  const Tube& tube = work.tube;
  TubePanels& at = work.at;
  at.flap = add_glue_flap(work, "glue flap", at.front, at.left, 0);
  (void)add_glue_flap(work, "joining flap", at.back, at.right, 0);
  add_crease_at(work, at.front, at.right, at.front_to, 2);
  add_crease_at(work, at.back, at.left, at.back_to, 3);
  fold::Part& back = work.model.parts[at.back.part];
  back.home = mouth_to_reader(tube.width + tube.thickness, Mm{}, Mm{}, tube.depth + tube.thickness);
  back.away = {0, 0, (tube.depth * 2 + Mm{40}).value};
  back.arrives_from = tube.first_step + 1;
  back.arrives_by = tube.first_step + 2;
}

}  // namespace

TubePanels add_tube(fold::Model& model, const Tube& tube) {
  TubeWork work{model, tube, {}};
  set_columns(work, work.at);
  const std::string half = tube.net == "box" ? "" : tube.net + "-";
  const int first = add_part(model, work.in_two() ? half + "front" : tube.net, tube.thickness);
  const int second = work.in_two() ? add_part(model, half + "back", tube.thickness) : first;
  add_walls(work, first, second);
  if (work.in_two()) {
    fold_two_parts(work);
  } else {
    fold_one_part(work);
  }
  return work.at;
}

std::vector<fold::Step> tube_steps(game::NetParts parts) {
  if (parts == game::NetParts::two) {
    return {{"fold the glue flap and the joining flap in and put glue on both"},
            {"hold the back half over the front half, insides together"},
            {"fold the right side over the joining flap and press until it holds"},
            {"fold the left side over the glue flap and press until it holds"}};
  }
  return {{"fold the right side and the back round"},
          {"fold the glue flap in and put glue on it"},
          {"fold the left side over the flap and press until it holds"}};
}

}  // namespace quoin::pieces
