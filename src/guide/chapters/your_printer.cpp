#include <fmt/format.h>

#include <cmath>

#include "guide/chapters/wording.h"
#include "press/correction.h"
#include "sheets/printable.h"
#include "sheets/wording.h"

namespace quoin::guide {
namespace {

/// "0.43 mm to the left and 0.31 mm up"
std::string moved_words(Vec shift) {
  const auto one = [](Mm by, const char* less, const char* more) {
    return fmt::format("{} {}", sheets::millimetres(abs(by)), by > Mm{} ? more : less);
  };
  return fmt::format("{} and {}", one(shift.x, "to the left", "to the right"),
                     one(shift.y, "up", "down"));
}

/// ", turned by 0.05° clockwise", or nothing where it would be 0.00.
std::string turned_by(Angle turn) {
  const double degrees = turn.in_degrees();
  if (std::abs(degrees) < 0.005) return "";
  return fmt::format(", turned by {:.2f}° {}", std::abs(degrees),
                     degrees > 0 ? "clockwise" : "anticlockwise");
}

/// "**Laser in the study**, tray manual feed, on uncoated card, measured on 2026-11-20"
std::string profile_words(const press::Profile& printer) {
  std::string words = fmt::format("**{}**", as_words(printer.name, 60));
  if (!printer.tray.empty()) words += fmt::format(", tray *{}*", as_words(printer.tray, 60));
  if (!printer.stock.empty()) words += fmt::format(", on *{}*", as_words(printer.stock, 60));
  if (!printer.measured.empty()) {
    words += fmt::format(", measured on {} with {}", printer.measured,
                         sheets::counted(printer.sheets, "sheet"));
  }
  return words;
}

void add_measured(Chapter& chapter, const Making& making) {
  const press::Profile& printer = *making.printer;
  const sheets::Plan& plan = making.plan;
  chapter.blocks.push_back(Heading{"The printer that the sheets are made for"});
  if (!plan.correction) {
    chapter.blocks.push_back(Paragraph{fmt::format(
        "The game names {}. These sheets are printed in another way than it was measured, so "
        "nothing is corrected in them.",
        profile_words(printer))});
    return;
  }
  const Mm arm{std::hypot(plan.grid.paper.width.value, plan.grid.paper.height.value) / 2};
  const Vec moved = printer.back.shift * -1;
  chapter.blocks.push_back(Paragraph{fmt::format(
      "{}. What it does the same on every sheet is made up for: in the files the backs are drawn "
      "{}{}. Change nothing of that in the printer's own settings. From sheet to "
      "sheet it still differs: 19 backs in 20 meet their fronts within **{}**.",
      profile_words(printer), moved_words(moved), turned_by(Angle{-printer.back.turn.radians}),
      sheets::millimetres(press::reach_of(printer.spread, arm, printer.within)))});
  chapter.blocks.push_back(Paragraph{
      "Another printer, another tray or another paper? Then the files do for it what is right for "
      "this one. Ask for files without a printer, or measure yours and make them anew."});
}

std::string usual_words(const Making& making) {
  const sheets::Plan& plan = making.plan;
  const making::Register& usual = making.tolerances.registration;
  const bool by_hand = plan.wishes.backs == game::BackPrinting::by_hand;
  const char* kind = "A laser printer at home";
  if (making.game.printer.kind == game::PrinterKind::inkjet) kind = "An ink-jet printer at home";
  if (making.game.printer.kind == game::PrinterKind::copy_shop) kind = "The printer of a copy shop";
  const std::string within = sheets::millimetres(Mm{std::round(usual.shift.value * 20) / 10});
  if (!usual.is_assumed) {
    return fmt::format(
        "By what the game says of its printer, 19 backs in 20 meet their fronts "
        "within **{}**.",
        within);
  }
  return fmt::format(
      "Nobody measured a printer for these sheets. {}{} usually brings a back within **{}** of its "
      "front.",
      kind, by_hand ? ", with the pile put in again by hand," : ", turning the sheet by itself,",
      within);
}

}  // namespace

void add_printer(Chapter& chapter, const Making& making) {
  if (!sheets::has_back_forms(making.plan.wishes)) return;
  if (making.printer != nullptr) {
    add_measured(chapter, making);
    return;
  }
  chapter.blocks.push_back(Heading{"Your printer"});
  chapter.blocks.push_back(Paragraph{usual_words(making)});
  if (making.files.reader == GuideFiles::Reader::friend_of_the_game) return;
  chapter.blocks.push_back(Paragraph{
      "It can be measured, in a quarter of an hour and on three sheets: **./run quoin printer "
      "sheet** makes a sheet to print and to read against the light, **./run quoin printer** says "
      "how to go on. Backs are then drawn where it needs them."});
}

}  // namespace quoin::guide
