#include "pieces/box/tube.h"

#include <algorithm>
#include <cmath>

#include "pieces/box/draft.h"

namespace quoin::pieces {
namespace {

TubePanels columns(const Tube& tube) {
  const Mm wide = tube.width + tube.thickness, narrow = tube.depth + tube.thickness;
  TubePanels at;
  at.front_from = tube.thickness;  // one thickness less than the back, for the glue flap
  at.front_to = at.right_from = wide;
  at.right_to = at.back_from = wide + narrow;
  at.back_to = at.left_from = at.back_from + wide;
  at.left_to = at.left_from + narrow;
  return at;
}

void add_glue_flap(fold::Net& net, const Tube& tube, TubePanels& at) {
  constexpr Mm short_of_body{1};
  const Mm side = at.front_from;
  const Mm from = tube.side_top + tube.thickness / 2 + short_of_body;
  const Mm to = tube.side_bottom - tube.thickness / 2 - short_of_body;
  const Mm reach = std::min(tube.glue_flap, tube.depth - tube.thickness);
  const Mm taper = std::min(reach * std::tan(Angle::degrees(15).radians), (to - from) / 4);
  Polygon outline = flap({side, to}, {side, from}, reach, taper, Mm{});
  at.flap = add_panel(net, tube.name + "glue flap", outline, {}, fold::Seen::hidden);
  add_crease(net, at.front, at.flap, {side, from}, {side, to}, tube.first_step + 1);
  net.glue.push_back({at.flap, at.left, std::move(outline)});
}

}  // namespace

TubePanels add_tube(fold::Net& net, const Tube& tube) {
  TubePanels at = columns(tube);
  const auto side = [&](Mm from, Mm to) {
    return block(from, tube.side_top, to, tube.side_bottom);
  };
  at.front = add_panel(net, tube.name + "front",
                       notched(at.front_from, tube.top, at.front_to, tube.bottom,
                               {tube.notch_top, tube.notch_bottom}));
  at.right = add_panel(net, tube.name + "right", side(at.right_from, at.right_to));
  at.back = add_panel(net, tube.name + "back",
                      notched(at.back_from, tube.top, at.back_to, tube.bottom,
                              {tube.back_notch_top, tube.back_notch_bottom}));
  at.left = add_panel(net, tube.name + "left", side(at.left_from, at.left_to));
  const auto crease = [&](int parent, int child, Mm x, int step) {
    add_crease(net, parent, child, {x, tube.side_top}, {x, tube.side_bottom}, step);
  };
  crease(at.front, at.right, at.front_to, tube.first_step);
  crease(at.right, at.back, at.right_to, tube.first_step);
  crease(at.back, at.left, at.back_to, tube.first_step + 2);
  add_glue_flap(net, tube, at);
  return at;
}

std::vector<fold::Step> tube_steps() {
  return {{"fold the right side and the back round"},
          {"fold the glue flap in and put glue on it"},
          {"fold the left side over the flap and press until it holds"}};
}

}  // namespace quoin::pieces
