#include "game/schema_tables.h"

namespace quoin::game {
namespace {

constexpr ValueType text = ValueType::text;
constexpr ValueType word = ValueType::word;
constexpr ValueType number = ValueType::number;

std::vector<PropertyFacts> machine_keys() {
  return {
      {.section = "profile",
       .key = "name",
       .type = text,
       .example = R"(name = "Laser in the study")",
       .meaning = "What you call the printer.",
       .presence = "required"},
      {.section = "profile",
       .key = "tray",
       .type = text,
       .example = R"(tray = "manual feed")",
       .meaning = "The tray or paper path that was measured; another is another printer."},
      {.section = "profile",
       .key = "stock",
       .type = text,
       .example = R"(stock = "uncoated card, 250 g/m²")",
       .meaning = "The paper that was measured."},
      {.section = "profile",
       .key = "measured",
       .type = text,
       .example = "measured = 2026-11-25",
       .meaning = "The day, year first.",
       .source = "ISO 8601"},
      {.section = "profile",
       .key = "how",
       .type = word,
       .words = {"eye", "scans", "typed"},
       .fallback = R"("typed")",
       .example = R"(how = "eye")",
       .meaning = "How it was measured: `eye`, read against the light; `scans`, from pictures of "
                  "both sides; `typed`, written by hand."},
      {.section = "profile",
       .key = "paper",
       .type = ValueType::size,
       .example = R"(paper = "A4")",
       .meaning = "The paper that was measured, as it is held to be read: a name that `quoin "
                  "sizes` lists, or width and height, `\"297x210\"` for landscape. Other paper "
                  "is not corrected.",
       .presence = "required"},
      {.section = "profile",
       .key = "backs",
       .type = word,
       .words = {"printer", "by-hand"},
       .fallback = R"("printer")",
       .example = R"(backs = "printer")",
       .meaning = "Whether the printer turned the sheet, or you did."},
      {.section = "profile",
       .key = "flip",
       .type = word,
       .words = {"long-edge", "short-edge"},
       .fallback = R"("long-edge")",
       .example = R"(flip = "long-edge")",
       .meaning = "About which edge the sheet was turned."},
      {.section = "profile",
       .key = "pile",
       .type = word,
       .words = {"face-down", "face-up"},
       .example = R"(pile = "face-down")",
       .meaning = "How printed fronts lie in the tray. Left out when it was not tried."},
      {.section = "profile",
       .key = "margin",
       .type = ValueType::edges,
       .low = 0,
       .high = 100,
       .unit = "mm",
       .example = "margin = [4, 4, 6, 4]",
       .meaning = "The edge of the paper that the printer cannot reach: one number, or four for "
                  "top, right, bottom and left. Holds for games whose `[printer]` gives no "
                  "`margin`."},
      {.section = "profile",
       .key = "heaviest",
       .type = number,
       .low = 40,
       .high = 1000,
       .unit = "g/m²",
       .example = "heaviest = 220",
       .meaning = "The heaviest stock the printer takes."},
      {.section = "profile",
       .key = "sheets",
       .type = ValueType::whole,
       .low = 1,
       .high = 1000,
       .fallback = "1",
       .example = "sheets = 3",
       .meaning = "How many sheets were measured."},
      {.section = "profile",
       .key = "within",
       .type = number,
       .low = 0,
       .high = 20,
       .unit = "mm",
       .example = "within = 0.12",
       .meaning = "How far off the mean map may still be at the worst corner, with 95 in 100."},
  };
}

std::vector<PropertyFacts> map_keys() {
  return {
      {.section = "front",
       .key = "scale",
       .type = ValueType::numbers,
       .low = 0.9,
       .high = 1.1,
       .fewest = 2,
       .most = 2,
       .unit = "mm on paper for one in the file",
       .fallback = "[1, 1]",
       .example = "scale = [1.0012, 0.9995]",
       .meaning = "How long a millimetre comes out, across and down the sheet."},
      {.section = "back",
       .key = "shift",
       .type = ValueType::numbers,
       .low = -20,
       .high = 20,
       .fewest = 2,
       .most = 2,
       .unit = "mm",
       .fallback = "[0, 0]",
       .example = "shift = [0.42, -0.31]",
       .meaning = "How far the back lies to the right of its front and below it at the middle of "
                  "the sheet, seen from the front against the light."},
      {.section = "back",
       .key = "turn",
       .type = number,
       .low = -5,
       .high = 5,
       .unit = "degrees",
       .fallback = "0",
       .example = "turn = 0.12",
       .meaning = "How far the back is turned clockwise, seen from the front."},
      {.section = "back",
       .key = "scale",
       .type = ValueType::numbers,
       .low = 0.9,
       .high = 1.1,
       .fewest = 2,
       .most = 2,
       .unit = "parts of the front",
       .fallback = "[1, 1]",
       .example = "scale = [1.0004, 0.9992]",
       .meaning = "How large the back is beside its front, across and down the sheet."},
      {.section = "back",
       .key = "skew",
       .type = number,
       .low = -5,
       .high = 5,
       .unit = "degrees",
       .fallback = "0",
       .example = "skew = 0.02",
       .meaning = "By how much the right angle between across and down is smaller on the back."},
      {.section = "spread",
       .key = "shift",
       .type = ValueType::numbers,
       .low = 0,
       .high = 20,
       .fewest = 2,
       .most = 2,
       .unit = "mm",
       .fallback = "[0, 0]",
       .example = "shift = [0.2, 0.3]",
       .meaning = "How far single sheets stray from the mean, across and down (standard "
                  "deviation)."},
      {.section = "spread",
       .key = "turn",
       .type = number,
       .low = 0,
       .high = 5,
       .unit = "degrees",
       .fallback = "0",
       .example = "turn = 0.05",
       .meaning = "How far single sheets are turned against the mean (standard deviation)."},
  };
}

}  // namespace

std::vector<PropertyFacts> printer_keys() {
  std::vector<PropertyFacts> all = machine_keys();
  for (PropertyFacts& facts : map_keys()) all.push_back(std::move(facts));
  return all;
}

const std::vector<SectionFacts>& printer_sections() {
  static const std::vector<SectionFacts> sections = {
      {"profile", Occurrence::once, "printers/NAME.toml", "The printer itself", "",
       "name = \"Laser in the study\"\npaper = \"A4\"\nflip = \"long-edge\"\nmargin = 4.2"},
      {"front", Occurrence::once, "[front]", "What comes out at which size", "",
       "[front]\nscale = [1.0012, 0.9995]"},
      {"back", Occurrence::once, "[back]", "Where the back lies behind the front",
       "This is what is the same on every sheet; backs are printed so that it cancels.",
       "[back]\nshift = [0.42, -0.31]\nturn = 0.12\nscale = [1.0004, 0.9992]\nskew = 0.02"},
      {"spread", Occurrence::once, "[spread]", "What differs from sheet to sheet",
       "Nothing can take this off; bleed and borders have to bear it.",
       "[spread]\nshift = [0.2, 0.3]\nturn = 0.05"},
  };
  return sections;
}

}  // namespace quoin::game
