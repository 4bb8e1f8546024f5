#include "pieces/box/tray.h"

#include <algorithm>
#include <cmath>

#include "pieces/box/draft.h"

namespace quoin::pieces {
namespace {

/// A tray while it is drawn; `right` and `bottom` are the floor's far creases.
struct TrayWork {
  fold::Net& net;
  const Tray& tray;
  Mm right, bottom, wall;
  int floor;

  [[nodiscard]] std::string name(const char* what) const { return tray.name + what; }
};

/// A wall of a lid reads upright with the lid's face up, one of a base with its floor down.
Angle reading(const TrayWork& work, Angle as_lid) {
  if (work.tray.floor == Tray::Looks::up) return as_lid;
  return Angle{as_lid.radians + Angle::degrees(180).radians};
}

/// A wall on the side of the floor from a to b, standing to the left of that way.
int add_wall(const TrayWork& work, const char* name, Point a, Point b, Angle as_lid, int step) {
  const int wall = add_panel(work.net, work.name(name), flap(a, b, work.wall, Mm{}, Mm{}),
                             reading(work, as_lid));
  add_crease(work.net, work.floor, wall, a, b, step);
  return wall;
}

/// A tab at the end of a long wall; `out` is the way from the floor along the wall, -1 left or 1
/// right.
void add_tab(const TrayWork& work, int wall, int end_wall, const char* name, Mm corner, Mm end,
             double out) {
  const Mm t = work.tray.thickness;
  constexpr Mm short_of_edges{0.3};
  const Mm near = corner + (t / 2 + short_of_edges) * out;
  const Mm far = corner + (work.wall - short_of_edges) * out;
  const bool at_top = end < work.bottom / 2;
  const Mm reach = std::min(work.tray.tab, work.right / 2 - Mm{0.5});
  const Mm taper = std::min(reach * std::tan(Angle::degrees(10).radians), abs(far - near) / 4);
  const Mm left = std::min(near, far), right = std::max(near, far);
  Polygon outline = at_top ? flap({left, end}, {right, end}, reach, taper, Mm{})
                           : flap({right, end}, {left, end}, reach, taper, Mm{});
  const int tab = add_panel(work.net, work.name(name), outline, {}, fold::Seen::hidden);
  add_crease(work.net, wall, tab, {left, end}, {right, end}, work.tray.first_step);
  work.net.glue.push_back({tab, end_wall, std::move(outline)});
}

}  // namespace

TrayPanels add_tray(fold::Net& net, const Tray& tray) {
  const Mm t = tray.thickness;
  TrayWork work{net, tray, tray.width + t, tray.height + t, tray.depth + t / 2, 0};
  TrayPanels at;
  at.floor = work.floor = add_panel(net, work.name(tray.floor == Tray::Looks::up ? "top" : "floor"),
                                    block(Mm{}, Mm{}, work.right, work.bottom));
  const int long_walls = tray.first_step + 1, end_walls = tray.first_step + 2;
  at.left = add_wall(work, "left wall", {Mm{}, work.bottom - t}, {Mm{}, t}, Angle::degrees(90),
                     long_walls);
  at.right = add_wall(work, "right wall", {work.right, t}, {work.right, work.bottom - t},
                      Angle::degrees(-90), long_walls);
  at.top =
      add_wall(work, "top wall", {Mm{}, Mm{}}, {work.right, Mm{}}, Angle::degrees(180), end_walls);
  at.bottom = add_wall(work, "bottom wall", {work.right, work.bottom}, {Mm{}, work.bottom}, Angle{},
                       end_walls);
  add_tab(work, at.left, at.top, "top left tab", Mm{}, t, -1);
  add_tab(work, at.left, at.bottom, "bottom left tab", Mm{}, work.bottom - t, -1);
  add_tab(work, at.right, at.top, "top right tab", work.right, t, 1);
  add_tab(work, at.right, at.bottom, "bottom right tab", work.right, work.bottom - t, 1);
  return at;
}

Mm least_tray_depth(const BoxPlan&) { return Mm{1.2}; }

std::vector<fold::Step> tray_steps(const std::string& what) {
  return {{"fold the four tabs of the " + what + " in"},
          {"fold up the long walls of the " + what},
          {"put glue on the tabs of the " + what + " and fold its end walls up against them"}};
}

fold::Rigid mouth_to_reader(Mm floor_width, Mm left, Mm top, Mm depth) {
  fold::Rigid home;
  home.turn = {-1, 0, 0, 0, 1, 0, 0, 0, -1};
  home.move = {(left + floor_width).value, top.value, depth.value};
  return home;
}

}  // namespace quoin::pieces
