#include "desk/api/printer_types.h"

namespace quoin::desk {
namespace {

/// The sheet that a printer is measured with.
std::vector<ApiType> sheet_types() {
  return {
      {"SheetScale",
       "A numbered scale, by its middle.",
       {{"number", "number", ""},
        {"x", "number", ""},
        {"y", "number", ""},
        {"across", "boolean", "else it is read down"}}},
      {"SheetLetter", "", {{"letter", "string", ""}, {"x", "number", ""}, {"y", "number", ""}}},
      {"SheetBar",
       "A bar to hold a ruler to.",
       {{"length", "number", ""},
        {"x", "number", ""},
        {"y", "number", ""},
        {"upright", "boolean", ""}}},
      {"MeasuringSheet",
       "Where the marks of the measuring sheet are, all as seen from the front.",
       {{"width", "number", ""},
        {"height", "number", ""},
        {"dotSize", "number", ""},
        {"codeSize", "number", ""},
        {"pinRing", "number", ""},
        {"scaleReach", "number", "from the middle of a scale to its last line"},
        {"dots", "number[][]", "of the front"},
        {"codes", "number[][]", ""},
        {"backDots", "number[][]", "where they lie behind the front"},
        {"backCodes", "number[][]", ""},
        {"pins", "number[][]", "rings to prick"},
        {"scales", "SheetScale[]", ""},
        {"letters", "SheetLetter[]", ""},
        {"behind", "SheetLetter[]", "the back's letters, in the order of those they lie behind"},
        {"bars", "SheetBar[]", ""},
        {"words", "Box", ""}}},
  };
}

std::vector<ApiType> asked_types() {
  return {
      {"PrinterAbout",
       "What a printer is called, and how it is fed.",
       {{"name", "string", ""},
        {"tray", "string", ""},
        {"stock", "string", ""},
        {"paper", "string", "a name, or 210x297"},
        {"held", "'upright' | 'sideways'", "as the sheet is held to be read"},
        {"backs", "'printer' | 'by-hand'", "who turns the sheet"},
        {"flip", "'long-edge' | 'short-edge'", ""}}},
      {"SheetReadings",
       "One sheet as it was read, in the reader's own words; none where nothing was read.",
       {{"letter", "string", "behind A"},
        {"scales", "string[]", "of (1) to (8)"},
        {"bar150", "string", "as a ruler has it"},
        {"bar200", "string", ""}}},
      {"PrinterReadings",
       "",
       {{"about", "PrinterAbout", ""}, {"sheets", "SheetReadings[]", "1 to 20"}}},
      {"SheetScans",
       "",
       {{"front", "string", "ScanTaken.scan"},
        {"back", "string", ""},
        {"bar150", "string", ""},
        {"bar200", "string", ""}}},
      {"PrinterScans", "", {{"about", "PrinterAbout", ""}, {"sheets", "SheetScans[]", "1 to 10"}}},
      {"ScanTaken", "A picture that was uploaded.", {{"scan", "string", ""}}},
      {"PrinterKeep",
       "",
       {{"id", "string", "MeasuredPrinter.id"},
        {"name", "string", "what it shall be called"},
        {"where", "'game' | 'machine'", ""},
        {"replace", "boolean", "whether a printer of that name may give way"}}},
      {"PrinterKept",
       "",
       {{"printer", "string", "its name in game.toml"},
        {"file", "string", "where it lies, in words"},
        {"revision", "number", ""}}},
  };
}

std::vector<ApiType> found_types() {
  return {
      {"DriftPlace",
       "How far the back lies off the front at a place of the sheet, seen from the front.",
       {{"x", "number", ""},
        {"y", "number", ""},
        {"off", "number[]", "the mean, across and down"},
        {"sheets", "number[][]", "of each sheet"},
        {"reach", "number", "how far a single sheet strays from the mean, 95 in 100"}}},
      {"Meeting",
       "Where what is drawn on both pages comes to lie on the paper, seen from the front: "
       "affine maps (a, b, c, d, e, f) from each page's own frame.",
       {{"sheet", "number", "which of those measured; 0: the mean"},
        {"frontBefore", "number[]", ""},
        {"backBefore", "number[]", ""},
        {"frontAfter", "number[]", "with the correction"},
        {"backAfter", "number[]", ""}}},
      {"PrinterDrawing",
       "What a picture of a printer is drawn from.",
       {{"width", "number", "of the paper"},
        {"height", "number", ""},
        {"magnified", "number", "so many times an arrow can be drawn larger"},
        {"farthest", "number", "the longest of the mean"},
        {"places", "DriftPlace[]", ""},
        {"within", "number | null", "the bound of the mean at the worst corner, 95 in 100"},
        {"strays", "boolean", "whether it is known how far single sheets stray"},
        {"meetings", "Meeting[]", "the mean first"}}},
      {"MeasuredPrinter",
       "What was found, and is not kept yet.",
       {{"id", "string", ""},
        {"printer", "string", "what its file would be called"},
        {"words", "string[]", ""},
        {"sheets", "string[]", "in words: by what each was measured, how well"},
        {"notes", "string[]", ""},
        {"drawing", "PrinterDrawing", ""},
        {"differs", "Finding[]", "why the game's sheets cannot be corrected by it"}}},
      {"KnownPrinter",
       "A printer that was measured.",
       {{"printer", "string", "its name in game.toml"},
        {"where", "'game' | 'machine'", ""},
        {"hidden", "boolean", "the game has another of that name, which goes first"},
        {"name", "string", ""},
        {"tray", "string", ""},
        {"stock", "string", ""},
        {"measured", "string", "a day, 2026-11-25, or none"},
        {"how", "'eye' | 'scans' | 'typed'", ""},
        {"paper", "string", ""},
        {"backs", "'printer' | 'by-hand'", ""},
        {"flip", "'long-edge' | 'short-edge'", ""},
        {"sheets", "number", ""},
        {"words", "string[]", ""},
        {"drawing", "PrinterDrawing | null", ""},
        {"differs", "Finding[]", ""},
        {"broken", "Finding[]", "why its file cannot be read"}}},
      {"Printers",
       "The printers that a game can be printed for.",
       {{"uses", "string", "the one that the game names, or none"},
        {"kind", "'laser' | 'inkjet' | 'copy-shop'", ""},
        {"papers", "string[]", "those that the measuring sheet has room on"},
        {"paper", "string", "of the game's sheets"},
        {"held", "'upright' | 'sideways'", ""},
        {"backs", "'printer' | 'by-hand'", ""},
        {"flip", "'long-edge' | 'short-edge'", ""},
        {"today", "string", ""},
        {"machine", "boolean", "whether this machine has a place for printers"},
        {"printers", "KnownPrinter[]", ""}}},
  };
}

}  // namespace

std::vector<ApiType> printer_types() {
  std::vector<ApiType> types = sheet_types();
  for (auto* more : {&asked_types, &found_types}) {
    for (ApiType& type : more()) types.push_back(std::move(type));
  }
  return types;
}

std::vector<ApiRoute> printer_routes() {
  return {
      {"GET", "/api/printers", "", "Printers", ""},
      {"GET", "/api/printer/sheet", "", "MeasuringSheet", "paper, held, flip"},
      {"GET", "/api/printer/sheet.pdf", "", "application/pdf",
       "paper, held, flip, backs, sheets; save=1"},
      {"POST", "/api/printer/scan", "", "ScanTaken", "name; the picture is the body"},
      {"POST", "/api/printer/read", "PrinterReadings", "MeasuredPrinter", "422 FindingAnswer"},
      {"POST", "/api/printer/scans", "PrinterScans", "MeasuredPrinter",
       "422 FindingAnswer; 410: a picture is here no more"},
      {"POST", "/api/printer/keep", "PrinterKeep", "PrinterKept", "409 Problem"},
  };
}

}  // namespace quoin::desk
