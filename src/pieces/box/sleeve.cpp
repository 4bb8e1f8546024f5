#include "pieces/box/sleeve.h"

#include "pieces/box/tray.h"
#include "pieces/box/tube.h"

namespace quoin::pieces {
namespace {

/// Glue flaps that lie inside the sleeve's sides.
int seam_count(const BoxPlan& plan) { return plan.parts == game::NetParts::two ? 2 : 1; }

Tube sleeve_round(const BoxPlan& plan) {
  const Mm t = plan.board;
  Tube tube;
  tube.name = "sleeve ";
  tube.net = "sleeve";
  tube.parts = plan.parts;
  tube.width = plan.inside.width + (t + plan.fit) * 2 + t * seam_count(plan);
  tube.depth = plan.inside.depth + t + plan.fit * 2;
  tube.thickness = t;
  tube.top = tube.side_top = Mm{};
  tube.bottom = tube.side_bottom = plan.inside.height + t * 2;
  tube.glue_flap = plan.glue_flap;
  tube.notch_bottom = tube.back_notch_bottom = plan.notch;
  tube.first_step = 3;
  return tube;
}

}  // namespace

fold::Model draw_sleeve(const BoxPlan& plan) {
  const Mm t = plan.board;
  const Tray tray{"tray ", plan.inside.width, plan.inside.height, plan.inside.depth,
                  t,       plan.glue_flap,    Tray::Looks::down,  0};
  fold::Model model;
  const Tube tube = sleeve_round(plan);
  const TubePanels sleeve_at = add_tube(model, tube);
  const int tray_part = static_cast<int>(model.parts.size());
  fold::Part& inner = model.parts.emplace_back();
  inner.net.name = "tray";
  inner.net.thickness = t;
  const TrayPanels tray_at = add_tray(inner.net, tray);
  model.steps = tray_steps("tray");
  for (fold::Step& step : tube_steps(plan.parts)) model.steps.push_back(std::move(step));
  const int slides_in = static_cast<int>(model.steps.size());

  // From the sleeve's left: half its wall, its glue flap, the air, half the tray's wall.
  const Mm left = t / 2 + t + plan.fit + t / 2;
  // From its front: half its wall, the air, the tray's room, half the tray's floor.
  const Mm floor = t / 2 + plan.fit + plan.inside.depth + t / 2;
  const Mm floor_width = plan.inside.width + t;
  inner.home = mouth_to_reader(floor_width, left, t / 2, floor);
  inner.away = {0, (plan.inside.height + plan.inside.depth * 2 + plan.glue_flap + Mm{40}).value, 0};
  inner.arrives_from = slides_in;
  inner.arrives_by = slides_in + 1;
  model.steps.push_back({"put the deck into the tray and slide it into the sleeve"});
  model.deck_goes_in = slides_in;
  model.meetings = {{sleeve_at.left, sleeve_at.front},
                    {sleeve_at.back, {tray_part, tray_at.floor}},
                    {sleeve_at.right, {tray_part, tray_at.left}},
                    {sleeve_at.front, {tray_part, tray_at.top}},
                    {sleeve_at.flap, {tray_part, tray_at.right}}};
  model.middle = {(left + floor_width / 2).value, (plan.inside.height / 2 + t).value,
                  (t / 2 + plan.fit + plan.inside.depth / 2).value};
  return model;
}

}  // namespace quoin::pieces
