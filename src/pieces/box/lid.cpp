#include "pieces/box/lid.h"

#include <algorithm>

#include "pieces/box/tray.h"

namespace quoin::pieces {

fold::Model draw_lid(const BoxPlan& plan) {
  const Mm t = plan.board;
  Tray base{"base ", plan.inside.width, plan.inside.height, plan.inside.depth,
            t,       plan.glue_flap,    Tray::Looks::down,  0};
  Tray lid = base;
  lid.name = "lid ";
  lid.width = base.width + (t + plan.fit) * 2;
  lid.height = base.height + (t + plan.fit) * 2 + t * 2;
  lid.depth = std::min(plan.lid_height, plan.inside.depth + t);
  lid.floor = Tray::Looks::up;
  lid.first_step = 3;

  fold::Model model;
  model.parts.resize(2);
  fold::Part &on_top = model.parts[0], &below = model.parts[1];
  on_top.net.name = "lid";
  below.net.name = "base";
  on_top.net.thickness = below.net.thickness = t;
  const TrayPanels lid_at = add_tray(on_top.net, lid);
  const TrayPanels base_at = add_tray(below.net, base);

  const Mm floor_width = base.width + t, floor_height = base.height + t;
  const Mm left = (lid.width + t - floor_width) / 2, top = (lid.height + t - floor_height) / 2;
  below.home = mouth_to_reader(floor_width, left, top, plan.inside.depth + t);
  on_top.away = {0, 0, -(plan.inside.depth * 2 + Mm{40}).value};
  on_top.arrives_from = 6;
  on_top.arrives_by = 7;

  model.steps = tray_steps("base");
  for (fold::Step& step : tray_steps("lid")) model.steps.push_back(std::move(step));
  model.steps.push_back({"put the deck into the base and the lid over it"});
  model.deck_goes_in = 6;
  // The base is seen in a mirror: its left wall stands at the lid's right.
  for (const auto& [over, under] : {std::pair{lid_at.left, base_at.right},
                                    {lid_at.right, base_at.left},
                                    {lid_at.top, base_at.top},
                                    {lid_at.bottom, base_at.bottom},
                                    {lid_at.floor, base_at.left},
                                    {lid_at.floor, base_at.top}}) {
    model.meetings.push_back({{0, over}, {1, under}});
  }
  model.middle = {(left + floor_width / 2).value, (top + floor_height / 2).value,
                  ((plan.inside.depth + t) / 2).value};
  return model;
}

}  // namespace quoin::pieces
