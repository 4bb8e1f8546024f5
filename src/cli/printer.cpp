#include <fmt/format.h>

#include <filesystem>
#include <fstream>

#include "base/today.h"
#include "cli/command.h"
#include "cli/draw_findings.h"
#include "cli/outside.h"
#include "cli/printer_words.h"
#include "job/edit/keep_profile.h"
#include "job/printer/measure_printer.h"

namespace quoin::cli {
namespace {

namespace fs = std::filesystem;

int refuse_printer(const Voices& voices, const std::string& fault, const std::string& hint) {
  voices.err.line(voices.err.toned(Tone::error, "quoin:") + " " + fault, 4);
  if (!hint.empty()) voices.err.line(voices.err.toned(Tone::good, "hint:") + " " + hint, 6);
  return exit_wrong_use;
}

int tell_why(const Diagnostics& why, const Voices& voices) {
  draw_findings(why, MemoryWorld(), voices.err);
  return exit_not_written;
}

/// The folder that holds what is measured: a game's own, or that of this machine.
std::string folder_for(const Asked& asked) {
  const auto game = asked.get("--game");
  return game ? (fs::path(*game) / "printers").string() : printers_folder();
}

std::vector<Size> papers_of(const PrinterAsked& asked) {
  return asked.paper_given ? std::vector{asked.paper} : job::usual_papers();
}

/// What a profile has from the command line; the rest was measured.
press::Profile profile_of(const PrinterAsked& asked) {
  press::Profile profile = asked.profile;
  profile.id = press::file_name_for(profile.name);
  profile.measured = job::today();
  profile.flip = asked.flip;
  profile.backs = asked.backs;
  profile.paper = asked.paper;
  profile.paper_name = asked.paper_name;
  return profile;
}

int keep(const Asked& asked, const job::MeasuredPrinter& printer, const Voices& voices) {
  const press::Profile& profile = printer.profile;
  const std::string folder = folder_for(asked);
  if (folder.empty()) {
    return refuse_printer(voices, "there is no place on this machine to keep printers",
                          "name a game with --game DIR, and it is kept there");
  }
  const std::string path = (fs::path(folder) / (profile.id + ".toml")).string();
  std::error_code ec;
  const bool was_there = fs::exists(path, ec);
  const auto kept = job::keep_profile(path, profile);
  if (!kept) return tell_why(kept.why(), voices);
  for (const std::string& line : press::measurement_words(printer.measured))
    voices.out.line("  " + line, 4);
  voices.out.line(fmt::format("{} {}", was_there ? "Measured anew:" : "Kept in", path));
  voices.out.line(
      fmt::format("Next: write profile = \"{}\" under [printer] in game.toml", profile.id));
  return exit_clean;
}

int make_sheet(const PrinterAsked& asked, const Asked& typed, const Voices& voices) {
  const std::string path = typed.get("--out").value_or("measuring-sheet.pdf");
  const Result<Bytes> pdf = job::measuring_sheet_pdf(
      {asked.paper, asked.paper_name, asked.flip, asked.backs, asked.sheets});
  if (!pdf) return tell_why(pdf.why(), voices);
  std::ofstream file(path, std::ios::binary);
  file << *pdf;
  file.close();
  if (!file) {
    return refuse_printer(voices, fmt::format("{} could not be written", path),
                          "name another file with --out");
  }
  voices.out.line(fmt::format("{}: {} {} of {}", path, asked.sheets,
                              asked.sheets == 1 ? "sheet" : "sheets", asked.paper_name));
  voices.out.line(
      "Next: print it at 100 %, both sides, three times; the sheet says how to read it");
  return exit_clean;
}

int read_by_eye(const PrinterAsked& asked, const Asked& typed, const Voices& voices) {
  const auto printer = job::measure_printer(profile_of(asked), asked.eye_sheets, asked.bars);
  return printer ? keep(typed, *printer, voices) : tell_why(printer.why(), voices);
}

int read_by_scans(const PrinterAsked& asked, const Asked& typed, const Voices& voices) {
  const auto printer =
      job::measure_printer(profile_of(asked), asked.scans, asked.bars, papers_of(asked));
  if (!printer) return tell_why(printer.why(), voices);
  for (std::size_t i = 0; i < printer->sheets.size(); ++i) {
    voices.out.line(fmt::format("  sheet {}: {}", i + 1, printer->sheets[i]));
  }
  if (printer->profile.flip != asked.flip) {
    voices.out.line(
        fmt::format("The sheet was turned about the {} edge.",
                    printer->profile.flip == game::FlipEdge::long_edge ? "long" : "short"));
  }
  if (asked.bars.bar_150.empty() && asked.bars.bar_200.empty()) {
    voices.out.line(
        "The size of fronts was not measured: add 150=… and 200=…, as a ruler has the "
        "bars.");
  }
  return keep(typed, *printer, voices);
}

int show_one(const Asked& typed, const Voices& voices) {
  if (typed.words.size() != 2) {
    return refuse_printer(voices, "show needs the name of one printer", "quoin printer lists them");
  }
  const std::string folder = folder_for(typed);
  const std::unique_ptr<World> world = folder.empty() ? nullptr : real_world(folder);
  const MemoryWorld nothing;
  const auto profile = press::find_profile({nothing, world.get()}, typed.words[1], {});
  if (!profile) return tell_why(profile.why(), voices);
  voices.out.raw(press::profile_text(*profile));
  return exit_clean;
}

int say_what_next(const Voices& voices) {
  voices.out.line(voices.out.toned(Tone::strong, "To measure a printer:"));
  voices.out.line("1. quoin printer sheet --out sheet.pdf, and print it three times, both sides",
                  3);
  voices.out.line(
      "2. read the sheets against the light:  quoin printer read A=E 150=149.8 "
      "200=199.7 1=3 2=-1 3=2 4=0 5=3 6=1 7=2 8=0 --as \"Laser in the study\"",
      3);
  voices.out.line("   the next sheet's readings follow in the same line: 1=… 2=… to 8=…", 3);
  voices.out.line(
      "   or scan both sides, pricked:  quoin printer scans front.png back.png --as "
      "\"Laser in the study\"",
      3);
  voices.out.line("3. write profile = \"laser-in-the-study\" under [printer] in game.toml", 3);
  const std::string folder = printers_folder();
  if (folder.empty()) return exit_clean;
  const std::vector<std::string> known = press::printer_names(*real_world(folder), "");
  if (known.empty()) {
    voices.out.line(fmt::format("No printer of this machine was measured yet ({}).", folder));
    return exit_clean;
  }
  voices.out.line(fmt::format("Measured printers of this machine, in {}:", folder));
  for (const std::string& name : known) voices.out.line("  " + name, 4);
  return exit_clean;
}

}  // namespace

int run_printer(const Asked& typed, const Voices& voices) {
  if (typed.words.empty()) return say_what_next(voices);
  const std::string& what = typed.words.front();
  if (what == "show") return show_one(typed, voices);
  if (what != "sheet" && what != "read" && what != "scans") {
    return refuse_printer(voices, fmt::format("printer does not know \"{}\"", what),
                          "it knows sheet, read, scans and show; quoin printer says what to do");
  }
  PrinterAsked asked;
  if (const auto fault = read_printer_words(typed, asked)) {
    return refuse_printer(voices, fault->what, fault->hint);
  }
  if (what == "sheet") return make_sheet(asked, typed, voices);
  return what == "read" ? read_by_eye(asked, typed, voices) : read_by_scans(asked, typed, voices);
}

}  // namespace quoin::cli
