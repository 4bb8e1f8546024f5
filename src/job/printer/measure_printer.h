#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "job/printer/printer_work.h"
#include "press/eye.h"
#include "press/profile.h"

namespace quoin::job {

/// A printer that was measured and is not kept yet.
struct MeasuredPrinter {
  press::Profile profile;
  press::Measurement measured;
  std::vector<std::string> sheets;  ///< in words, of each sheet: what it was measured by, how well
  std::vector<std::string> notes;   ///< what else its owner should know, a sentence each
};

/// Measures by readings against the light. `asked` says what the printer is called, its paper, how
/// backs are printed and turned; what is found is put into it.
///
/// Fails as `press::measure_by_eye` does.
[[nodiscard]] Result<MeasuredPrinter> measure_printer(press::Profile asked,
                                                      const std::vector<press::EyeSheet>& sheets,
                                                      const press::BarReadings& bars);

/// Measures by pictures of both sides. The paper, and how the sheet was turned, are taken as the
/// pictures have them when they differ from `asked`. `papers` are those that it may be.
///
/// Fails as `measure_scans` and `press::scale_of_bars` do, with all that either finds.
[[nodiscard]] Result<MeasuredPrinter> measure_printer(press::Profile asked,
                                                      const std::vector<ScanFiles>& files,
                                                      const press::BarReadings& bars,
                                                      const std::vector<Size>& papers);

/// Papers that a measuring sheet may have been printed on when nobody said which: A4 and Letter,
/// either way round.
[[nodiscard]] std::vector<Size> usual_papers();

/// What a paper is called in a file: "A4", or "297x210" when it is held sideways or has no name.
[[nodiscard]] std::string paper_name_of(Size paper);

/// The day on this machine's calendar: "2026-11-25".
[[nodiscard]] std::string today();

/// Where a printer is kept.
enum class Shelf { game, machine };

/// A printer's file as it lies on a shelf.
struct ShelvedPrinter {
  std::string id;
  Shelf shelf = Shelf::game;
  bool is_hidden = false;  ///< of the machine, while the game has one of the same name
  Result<press::Profile> profile;
};

/// All printers of the game and of the machine, each sorted by name, the game's first.
[[nodiscard]] std::vector<ShelvedPrinter> shelved_printers(const press::PrinterShelves& shelves);

}  // namespace quoin::job
