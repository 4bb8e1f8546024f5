#pragma once
#include <optional>
#include <string>
#include <vector>

#include "cli/command.h"
#include "job/printer/printer_work.h"
#include "press/eye.h"

namespace quoin::cli {

/// What was typed after `quoin printer`, sorted.
struct PrinterAsked {
  Size paper{Mm{210}, Mm{297}};
  std::string paper_name = "A4";
  bool paper_given = false;
  game::FlipEdge flip = game::FlipEdge::long_edge;
  game::BackPrinting backs = game::BackPrinting::printer;
  int sheets = 1;
  press::Profile profile;  ///< its name, tray, stock, margin, heaviest stock and pile
  std::vector<press::EyeSheet> eye_sheets;
  press::BarReadings bars;
  std::vector<job::ScanFiles> scans;
};

/// A sentence for what makes no sense, and what to do.
struct WrongWords {
  std::string what, hint;
};

/// Sorts words and options of `sheet`, `read` and `scans`. Readings are NAME=VALUE; a scale that
/// was read already begins the next sheet. Other words of `scans` are files, front and back in
/// turn. A file that `--from` names holds more such words, with # before remarks.
[[nodiscard]] std::optional<WrongWords> read_printer_words(const Asked& typed, PrinterAsked& asked);

}  // namespace quoin::cli
