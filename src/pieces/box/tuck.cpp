#include "pieces/box/tuck.h"

#include <algorithm>
#include <cmath>

#include "pieces/box/closure.h"
#include "pieces/box/draft.h"
#include "pieces/box/tube.h"

namespace quoin::pieces {
namespace {

using fold::PanelRef;

enum class End { top, bottom };

/// One end of the carton while it is drawn.
struct EndWork {
  fold::Model& model;
  const BoxPlan& plan;
  const TubePanels& tube;
  End end;
  PanelRef hinged_on;  ///< front or back
  int first_step;

  [[nodiscard]] fold::Net& net(PanelRef panel) const { return model.parts[panel.part].net; }
  [[nodiscard]] bool on_back() const { return hinged_on == tube.back; }
  /// y of a place that lies `out` beyond the inside of this end.
  [[nodiscard]] Mm y(Mm out) const { return end == End::top ? -out : plan.inside.height + out; }
  [[nodiscard]] std::string name(std::string_view what) const {
    return std::string(end == End::top ? "top " : "bottom ") + std::string(what);
  }
};

/// A side from left to right for a flap upwards, from right to left for one downwards.
struct FlapSide {
  Point a, b;
};
FlapSide flap_side(const EndWork& work, Mm left, Mm right, Mm y) {
  return work.end == End::top ? FlapSide{{left, y}, {right, y}} : FlapSide{{right, y}, {left, y}};
}

/// Dust flaps keep 0.5 mm from the panel that carries the lid, and 0.2 mm from the tuck flap where
/// slits are to catch their shoulders, else 0.5 mm (common practice, no source).
void add_dust_flap(const EndWork& work, PanelRef panel, Mm hinge_edge, Mm tuck_edge,
                   std::string_view name) {
  const BoxPlan& plan = work.plan;
  const Mm t = plan.board;
  const Mm way{tuck_edge > hinge_edge ? 1.0 : -1.0};
  const Mm from_tuck =
      t * 1.5 + plan.tuck_play + (plan.locks == game::Locks::slits ? Mm{0.2} : Mm{0.5});
  const Mm hinge_side = hinge_edge + (t / 2 + Mm{0.5}) * way.value;
  const Mm tuck_side = tuck_edge - from_tuck * way.value;
  const Mm width = (tuck_side - hinge_side) * way.value;
  const Mm foot = work.y(t / 2), tip = work.y(t / 2 + plan.dust_flap);
  const Mm shoulder = std::min(slit_length(plan) + Mm{1.5}, plan.dust_flap / 2);
  const Mm slant = std::min(width / 4, (plan.dust_flap - shoulder) * 0.25);
  const Mm ease = std::min(width / 8, Mm{1});
  Polygon outline{{hinge_side, foot},
                  {tuck_side, foot},
                  {tuck_side, work.y(t / 2 + shoulder)},
                  {tuck_side - slant * way.value, tip},
                  {hinge_side + ease * way.value, tip}};
  const int flap =
      add_panel(work.net(panel), work.name(name), std::move(outline), {}, fold::Seen::hidden);
  add_crease(work.net(panel), panel.panel, flap, {hinge_side, foot}, {tuck_side, foot},
             work.first_step);
}

void add_dust_flaps(const EndWork& work) {
  const TubePanels& at = work.tube;
  const bool on_back = work.on_back();
  // The right panel runs from the front to the back, the left one from the back to the front.
  add_dust_flap(work, at.right, on_back ? at.right_to : at.right_from,
                on_back ? at.right_from : at.right_to, "right dust flap");
  add_dust_flap(work, at.left, on_back ? at.left_from : at.left_to,
                on_back ? at.left_to : at.left_from, "left dust flap");
}

struct Lid {
  PanelRef panel, flap;
};

/// Both closures stand over the middle of the room inside: that of the back, or, where a seam takes
/// one thickness off a panel, half of that further to the left.
Mm middle_of_room(const EndWork& work) {
  const TubePanels& at = work.tube;
  const bool whole_back = work.on_back() && work.plan.parts == game::NetParts::one;
  if (whole_back) return (at.back_from + at.back_to) / 2;
  return (work.on_back() ? at.back_to : at.front_to) / 2;
}

Lid add_lid(const EndWork& work) {
  const BoxPlan& plan = work.plan;
  const TubePanels& at = work.tube;
  const bool on_back = work.on_back();
  const Mm left = on_back ? at.back_from : at.front_from;
  const Mm right = on_back ? at.back_to : at.front_to;
  const Mm crease = work.y(plan.board * 1.5), fold = work.y(plan.board * 1.5 + lid_length(plan));
  // Read with the front of the box towards the reader.
  const Angle upright = on_back ? Angle::degrees(180) : Angle{};
  fold::Net& net = work.net(work.hinged_on);
  Lid lid{work.hinged_on, work.hinged_on};
  lid.panel.panel =
      add_panel(net, work.name("lid"),
                block(left, std::min(crease, fold), right, std::max(crease, fold)), upright);
  add_crease(net, work.hinged_on.panel, lid.panel.panel, {left, crease}, {right, crease},
             work.first_step + 1);
  const Mm half = tuck_width(plan) / 2, slit = slit_length(plan);
  const Mm middle = middle_of_room(work);
  const FlapSide foot = flap_side(work, middle - half, middle + half, fold);
  lid.flap.panel =
      add_panel(net, work.name("tuck flap"),
                flap(foot.a, foot.b, plan.tuck, std::min(plan.tuck / 8, half / 4), plan.corner), {},
                fold::Seen::hidden);
  const Mm from = middle - half + slit, to = middle + half - slit;
  add_crease(net, lid.panel.panel, lid.flap.panel, {from, fold}, {to, fold}, work.first_step + 1);
  if (slit > Mm{}) {
    net.slits.push_back({lid.flap.panel, {middle - half, fold}, {from, fold}});
    net.slits.push_back({lid.flap.panel, {to, fold}, {middle + half, fold}});
  }
  return lid;
}

void add_meetings(const EndWork& work, const Lid& lid) {
  const TubePanels& at = work.tube;
  const PanelRef behind = work.on_back() ? at.front : at.back;
  for (const PanelRef other : {behind, at.left, at.right}) {
    work.model.meetings.push_back({lid.panel, other});
  }
  work.model.tucks.push_back({lid.flap, behind});
}

void add_end(const EndWork& work) {
  add_dust_flaps(work);
  const Lid lid = add_lid(work);
  bow_in(work.net(lid.panel), lid.panel.panel, lid.flap.panel, lid_length(work.plan),
         work.plan.tuck, work.first_step + 1);
  add_meetings(work, lid);
}

Tube tube_of(const BoxPlan& plan) {
  const Mm t = plan.board;
  Tube tube;
  tube.net = "box";
  tube.parts = plan.parts;
  tube.width = plan.inside.width;
  tube.depth = plan.inside.depth;
  tube.thickness = t;
  tube.top = -t * 1.5;
  tube.bottom = plan.inside.height + t * 1.5;
  tube.side_top = -t / 2;
  tube.side_bottom = plan.inside.height + t / 2;
  tube.glue_flap = plan.glue_flap;
  tube.notch_top = plan.notch;
  return tube;
}

}  // namespace

Mm least_tuck_depth(const BoxPlan& plan) { return plan.board * 2 + plan.tuck_play + Mm{1.2}; }

Mm lid_length(const BoxPlan& plan) { return plan.inside.depth - plan.tuck_play; }

Mm tuck_width(const BoxPlan& plan) {
  constexpr Mm clear_of_sides{0.75};
  return plan.inside.width - plan.board * 2 - clear_of_sides * 2;
}

Mm slit_length(const BoxPlan& plan) {
  if (plan.locks == game::Locks::none) return {};
  return std::min(Mm{6}, tuck_width(plan) / 5);
}

fold::Model draw_tuck(const BoxPlan& plan) {
  fold::Model model;
  const TubePanels tube = add_tube(model, tube_of(plan));
  model.steps = tube_steps(plan.parts);
  const int seams = static_cast<int>(model.steps.size());
  const PanelRef under = plan.ends == game::Ends::reverse ? tube.front : tube.back;
  add_end({model, plan, tube, End::bottom, under, seams});
  add_end({model, plan, tube, End::top, tube.back, seams + 2});
  model.meetings.push_back({tube.left, tube.front});
  if (plan.parts == game::NetParts::two) model.meetings.push_back({tube.right, tube.back});
  for (const char* words :
       {"fold the bottom dust flaps in", "bow the bottom tuck flap and push it in",
        "put the deck in and fold the top dust flaps over it",
        "bow the top tuck flap and push it in"}) {
    model.steps.push_back({words});
  }
  model.deck_goes_in = seams + 2;
  model.middle = {(plan.inside.width + plan.board).value / 2, plan.inside.height.value / 2,
                  (plan.inside.depth + plan.board).value / 2};
  return model;
}

}  // namespace quoin::pieces
