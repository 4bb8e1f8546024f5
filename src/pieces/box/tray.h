#pragma once
#include <string>

#include "fold/fold.h"
#include "pieces/box/plan.h"

namespace quoin::pieces {

/// A floor with four walls: base, lid or tray. The long walls carry tabs at their ends, which are
/// glued inside the end walls.
///
/// Allowances, t the board's thickness (derived but where it says otherwise):
/// - floor from crease to crease: inside + t;
/// - walls from crease to edge: inside depth + t/2, the half of the floor's own thickness;
/// - long walls between their tabs' creases: t shorter at each end than the floor, since the tabs
/// lie
///   one thickness further in than the end walls;
/// - tabs: 0.3 mm short of the wall's edges, ends tapered by 10 degrees (10 to 15: common practice,
/// no
///   source), and no longer than half the end wall, less 0.5 mm, so that two never meet.
///
/// On the net the floor reaches from (0, 0) to (W + t, H + t); the room inside is t/2 further in.
struct Tray {
  std::string name;  ///< put before the names of the panels: "base "
  Mm width, height;  ///< inside of the floor
  Mm depth;          ///< inside, from floor to the walls' edges
  Mm thickness;      ///< t
  Mm tab;
  enum class Looks {
    down,
    up
  } floor = Looks::down;  ///< whose walls read upright: a base's or a lid's
  int first_step = 0;     ///< three steps: tabs, long walls, end walls
};

struct TrayPanels {
  int floor = 0, top = 0, right = 0, bottom = 0, left = 0;
};

TrayPanels add_tray(fold::Net& net, const Tray& tray);

/// 1.2 mm: walls with room for a tab of half that.
[[nodiscard]] Mm least_tray_depth(const BoxPlan& plan);

/// The words of its three steps.
[[nodiscard]] std::vector<fold::Step> tray_steps(const std::string& what);

/// Where a tray's root lies when it stands mouth to mouth with what lies at z = 0: turned about the
/// upright axis, its floor's mid-plane at `depth`, its left top corner at (left, top).
[[nodiscard]] fold::Rigid mouth_to_reader(Mm floor_width, Mm left, Mm top, Mm depth);

}  // namespace quoin::pieces
