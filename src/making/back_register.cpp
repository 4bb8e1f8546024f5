#include "making/back_register.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "making/tolerance.h"
#include "sheets/printable.h"

namespace quoin::making {
namespace {

constexpr double deviations_shown = 2;

Mm farther(Mm a, Mm b, Mm middle) { return std::max(abs(a - middle), abs(b - middle)); }

Mm reach(Mm shift, Angle turn, Mm arm, Mm within) {
  return Mm{deviations_shown * std::hypot(shift.value, turn.radians * arm.value)} + within;
}

BackBand band(const BackRegister& backs, Rect trim, Size paper) {
  const Mm within = backs.within.value_or(Mm{});
  const press::Spread& s = backs.spread;
  return {trim,
          reach(s.shift_x, s.turn, farther(trim.top(), trim.bottom(), paper.height / 2), within),
          reach(s.shift_y, s.turn, farther(trim.left(), trim.right(), paper.width / 2), within)};
}

}  // namespace

std::optional<BackRegister> back_register(const game::Game& game, const sheets::Plan& plan,
                                          const std::optional<press::Profile>& printer) {
  if (!sheets::has_back_forms(plan.wishes)) return std::nullopt;
  BackRegister backs;
  if (printer) {
    backs.known = BackRegister::Known::measured;
    backs.printer = printer->id;
    backs.is_corrected = plan.correction.has_value();
    backs.spread = printer->spread;
    backs.within = printer->within;
  } else {
    const Register usual = usual_register(game);
    backs.known = usual.is_assumed ? BackRegister::Known::assumed : BackRegister::Known::said;
    backs.spread = press::usual_spread(game.printer.kind, plan.wishes.backs);
    if (!usual.is_assumed) backs.spread.shift_x = backs.spread.shift_y = usual.shift;
    backs.spread.turn = usual.turn;
  }
  for (const Rect& trim : plan.grid.trims) {
    backs.bands.push_back(band(backs, trim, plan.grid.paper));
  }
  return backs;
}

std::vector<std::string> register_words(const BackRegister& backs) {
  std::vector<std::string> lines;
  Mm across, along;
  for (const BackBand& one : backs.bands) {
    across = std::max(across, one.reach_x);
    along = std::max(along, one.reach_y);
  }
  switch (backs.known) {
    case BackRegister::Known::measured:
      lines.push_back(
          backs.is_corrected
              ? fmt::format("the back is drawn where {} will put it: what it does on every sheet "
                            "was measured and is corrected",
                            backs.printer)
              : fmt::format("the back is drawn where it is meant: {} was measured otherwise than "
                            "these sheets are printed, so nothing is corrected",
                            backs.printer));
      break;
    case BackRegister::Known::said:
      lines.push_back(
          "the back is drawn where it is meant; how far it strays is what [printer] says");
      break;
    case BackRegister::Known::assumed:
      lines.push_back(
          "the back is drawn where it is meant; how far it strays is assumed, as is usual for "
          "such a printer (common practice, no source)");
      break;
  }
  lines.push_back(
      fmt::format("19 backs in 20 lie within {:.1f} mm across and {:.1f} mm along of that",
                  across.value, along.value));
  return lines;
}

std::string_view to_string(BackRegister::Known known) {
  switch (known) {
    case BackRegister::Known::said:
      return "said";
    case BackRegister::Known::measured:
      return "measured";
    case BackRegister::Known::assumed:
      break;
  }
  return "assumed";
}

}  // namespace quoin::making
