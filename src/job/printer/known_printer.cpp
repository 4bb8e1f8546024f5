#include "job/printer/known_printer.h"

#include <fmt/format.h>

#include <cmath>

#include "press/correction.h"
#include "press/fitness.h"
#include "sheets/printable.h"
#include "sheets/printed.h"
#include "sheets/wording.h"

namespace quoin::job {
namespace {

Mm half_diagonal(Size paper) { return Mm{std::hypot(paper.width.value, paper.height.value) / 2}; }

/// "printer: study-laser, backs moved by 0.43 mm to the left and 0.31 mm up …"
std::string corrected_words(const press::Profile& printer) {
  const Vec shift = printer.back.shift;
  std::string text =
      fmt::format("printer: {}; backs drawn {} further {} and {} further {}, turned by {:.2f}°",
                  printer.id, sheets::millimetres(abs(shift.x)), shift.x > Mm{} ? "left" : "right",
                  sheets::millimetres(abs(shift.y)), shift.y > Mm{} ? "up" : "down",
                  0.0 - printer.back.turn.in_degrees());
  if (printer.within)
    text += fmt::format("; meets within {}", sheets::millimetres(*printer.within));
  return text;
}

/// What the bleed of backs cannot hide; only worth saying when there are backs.
void check_bleed(const Outcome& outcome, const press::Spread& spread, std::optional<Mm> within,
                 Diagnostics& found) {
  const sheets::Plan& plan = *outcome.plan;
  if (!sheets::has_back_forms(plan.wishes)) return;
  const Mm reach = press::reach_of(spread, half_diagonal(plan.grid.paper), within);
  if (fits(reach, plan.piece.back_bleed)) return;
  Diagnostic small(
      Id::press_bleed_too_small, plan.wishes.origin,
      fmt::format("backs may lie {} off their fronts, and their bleed is {}",
                  sheets::millimetres(reach), sheets::millimetres(plan.piece.back_bleed)));
  small.detail(outcome.printer ? "that is what was measured from sheet to sheet"
                               : "that is usual for a printer that was not measured (common "
                                 "practice, no source)");
  if (!outcome.printer) small.hint("measure the printer: quoin printer says how");
  const Mm more = reach - plan.piece.bleed;
  found.push_back(small.hint(fmt::format("write back-bleed = {} under [sheets]",
                                         sheets::number(Mm{std::ceil(more.value * 2) / 2}))));
}

}  // namespace

std::optional<press::Profile> known_printer(const World& world, const std::string& machine_folder,
                                            game::Game& game, Diagnostics& found) {
  const game::PrinterWishes& asked = game.printer;
  if (asked.profile.empty()) return std::nullopt;
  const std::unique_ptr<World> machine =
      machine_folder.empty() ? nullptr : real_world(machine_folder);
  auto printer =
      press::find_profile({world, machine.get()}, asked.profile, asked.origin).or_report(found);
  if (!printer) return std::nullopt;
  if (!asked.margin_given && printer->margin) game.sheets.dead_margin = *printer->margin;
  if (auto other = press::other_stock(*printer, game.stock, asked.origin)) {
    found.push_back(std::move(*other));
  }
  return printer;
}

void print_cards_for_printer(Outcome& outcome, Diagnostics& found) {
  sheets::Plan& plan = *outcome.plan;
  const std::optional<press::Profile>& printer = outcome.printer;
  plan.printer = "no printer profile";
  if (printer) {
    auto maps = sheets::corrected(*printer, plan.grid.paper, plan.wishes);
    for (Diagnostic& each : maps.found) found.push_back(std::move(each));
    plan.correction = maps.value;
  }
  if (plan.correction) {
    plan.printer = "for " + printer->id;
    plan.choices.push_back(corrected_words(*printer));
    check_bleed(outcome, printer->spread, printer->within, found);
  } else {
    check_bleed(outcome, press::usual_spread(outcome.game.printer.kind, plan.wishes.backs), {},
                found);
  }
}

namespace {

template <typename Sheets>
void print_for_printer(Sheets& sheets, const Outcome& outcome, Diagnostics& found) {
  if (!outcome.printer) return;
  for (auto& sheet : sheets) {
    auto maps = sheets::corrected(*outcome.printer, sheet.paper, outcome.game.sheets);
    for (Diagnostic& each : maps.found) found.push_back(std::move(each));
    sheet.correction = maps.value;
  }
}

}  // namespace

void print_box_for_printer(Outcome& outcome, Diagnostics& found) {
  print_for_printer(outcome.box_sheets.sheets, outcome, found);
}

void print_rules_for_printer(Outcome& outcome, Diagnostics& found) {
  print_for_printer(outcome.rules_sheets.sheets, outcome, found);
}

void print_mat_for_printer(Outcome& outcome, Diagnostics& found) {
  if (!outcome.printer || !outcome.mat_tiling) return;
  sheets::Tiling& tiling = *outcome.mat_tiling;
  auto maps = sheets::corrected(*outcome.printer, tiling.paper, outcome.game.sheets);
  for (Diagnostic& each : maps.found) found.push_back(std::move(each));
  tiling.correction = maps.value;
}

}  // namespace quoin::job
