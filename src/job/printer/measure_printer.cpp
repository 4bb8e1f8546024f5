#include "job/printer/measure_printer.h"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <ctime>

#include "game/formats.h"
#include "game/toml_file.h"
#include "game/words.h"

namespace quoin::job {
namespace {

constexpr std::string_view fronts_not_measured =
    "the size of fronts was not measured: a ruler along both bars tells it";

bool has_readings(const std::vector<std::string>& readings) {
  return std::ranges::any_of(readings, [](const std::string& one) { return !one.empty(); });
}

bool has_readings(const press::BarReadings& bars) {
  return has_readings(bars.bar_150) || has_readings(bars.bar_200);
}

std::string_view edge_word(game::FlipEdge flip) {
  return flip == game::FlipEdge::long_edge ? "long" : "short";
}

MeasuredPrinter measured_printer(const press::Profile& asked, press::Measurement measured,
                                 const press::BarReadings& bars) {
  MeasuredPrinter printer{press::with(asked, measured), std::move(measured), {}, {}};
  if (!has_readings(bars)) printer.notes.emplace_back(fronts_not_measured);
  return printer;
}

std::string reference_words(const press::ScanMeasured& sheet) {
  return sheet.reference == press::Reference::pinholes
             ? fmt::format("{} pinholes", sheet.references)
             : std::string("the edges of the paper");
}

std::string how_well(const press::SheetMeasured& sheet) {
  return fmt::format("known to ±{:.2f} mm", sheet.within.value);
}

std::vector<ShelvedPrinter> on_shelf(const World& world, std::string_view folder, Shelf shelf) {
  std::vector<ShelvedPrinter> all;
  for (std::string& name : press::printer_names(world, folder)) {
    const std::string path = (folder.empty() ? "" : std::string(folder) + "/") + name + ".toml";
    const ReadAnswer answer = world.read(path, game::largest_toml);
    Result<press::Profile> profile =
        answer.ok() ? press::read_profile(*answer.bytes, FileName(path))
                    : Result<press::Profile>(Diagnostic(Id::game_unreadable_file, {FileName(path)},
                                                        explain(answer, path)));
    all.push_back({std::move(name), shelf, false, std::move(profile)});
  }
  return all;
}

}  // namespace

Result<MeasuredPrinter> measure_printer(press::Profile asked,
                                        const std::vector<press::EyeSheet>& sheets,
                                        const press::BarReadings& bars) {
  Result<press::Measurement> measured =
      press::measure_by_eye(sheets, bars, press::sheet_layout(asked.paper), asked.flip);
  if (!measured) return std::move(measured).why();
  asked.how = press::Measured::eye;
  MeasuredPrinter printer = measured_printer(asked, *std::move(measured), bars);
  for (const press::SheetMeasured& sheet : printer.measured.sheets) {
    printer.sheets.push_back("by eye, " + how_well(sheet));
  }
  return printer;
}

Result<MeasuredPrinter> measure_printer(press::Profile asked, const std::vector<ScanFiles>& files,
                                        const press::BarReadings& bars,
                                        const std::vector<Size>& papers) {
  Diagnostics found;
  auto scans = measure_scans(files, papers, asked.flip).or_report(found);
  // Which bar lies along which side of the paper the scans alone tell; what is wrong with a
  // reading they do not.
  auto scale = press::scale_of_bars(bars, scans ? scans->paper : asked.paper).or_report(found);
  if (!scans || !scale) return found;
  scans->all.scale_x = scale->x;
  scans->all.scale_y = scale->y;
  const bool turned_otherwise = scans->flip != asked.flip;
  asked.how = press::Measured::scans;
  asked.flip = scans->flip;
  if (asked.paper != scans->paper) asked.paper_name = paper_name_of(scans->paper);
  asked.paper = scans->paper;
  MeasuredPrinter printer = measured_printer(asked, std::move(scans->all), bars);
  for (const press::ScanMeasured& sheet : scans->each) {
    printer.sheets.push_back(
        fmt::format("by {}, {}", reference_words(sheet), how_well(sheet.sheet)));
  }
  if (turned_otherwise) {
    printer.notes.push_back(
        fmt::format("the sheet was turned about the {} edge", edge_word(asked.flip)));
  }
  return printer;
}

std::vector<Size> usual_papers() {
  std::vector<Size> all;
  for (const Size paper : {Size{Mm{210}, Mm{297}}, Size{Mm{215.9}, Mm{279.4}}}) {
    all.push_back(paper);
    all.push_back(turned(paper));
  }
  return all;
}

std::string paper_name_of(Size paper) {
  for (const game::NamedSize& size : game::paper_sizes()) {
    if (size.size == paper) return std::string(size.name);
  }
  return fmt::format("{}x{}", game::number_text(paper.width.value),
                     game::number_text(paper.height.value));
}

std::string today() {
  const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  return fmt::format("{:%Y-%m-%d}", fmt::localtime(now));
}

std::vector<ShelvedPrinter> shelved_printers(const press::PrinterShelves& shelves) {
  std::vector<ShelvedPrinter> all = on_shelf(shelves.game, "printers", Shelf::game);
  if (shelves.machine == nullptr) return all;
  const std::size_t of_the_game = all.size();
  for (ShelvedPrinter& one : on_shelf(*shelves.machine, "", Shelf::machine)) {
    const auto end = all.begin() + static_cast<std::ptrdiff_t>(of_the_game);
    one.is_hidden =
        std::any_of(all.begin(), end, [&](const auto& other) { return other.id == one.id; });
    all.push_back(std::move(one));
  }
  return all;
}

}  // namespace quoin::job
