#include <fmt/format.h>

#include <charconv>
#include <cstdlib>
#include <filesystem>

#include "base/today.h"
#include "cli/at_work.h"
#include "cli/command.h"
#include "cli/draw_findings.h"
#include "cli/outside.h"
#include "job/job.h"
#include "job/new_game.h"
#include "pack/box_files.h"
#include "pack/mat_files.h"
#include "pack/rules_files.h"

namespace quoin::cli {
namespace fs = std::filesystem;
namespace {

/// Fills the wishes from what was typed; a sentence when something makes no sense.
std::optional<std::string> read_wishes(const Asked& asked, const std::string& folder,
                                       job::Wishes& wishes) {
  if (const auto only = asked.get("--only")) {
    wishes.only = split(*only);
    if (wishes.only.empty()) return "--only needs the ids of cards";
  }
  if (const auto decks = asked.get("--decks")) {
    const auto [end, error] =
        std::from_chars(decks->data(), decks->data() + decks->size(), wishes.decks);
    const bool whole = error == std::errc{} && end == decks->data() + decks->size();
    if (!whole || wishes.decks < 1 || wishes.decks > 1000) {
      return fmt::format("--decks takes a whole number from 1 to 1000, not \"{}\"", *decks);
    }
  }
  if (const auto parts = asked.get("--parts")) {
    wishes.parts.clear();
    for (const std::string& part : split(*parts)) {
      if (part == "home")
        wishes.parts.insert(job::Part::home);
      else if (part == "shop")
        wishes.parts.insert(job::Part::shop);
      else if (part == "pictures")
        wishes.parts.insert(job::Part::pictures);
      else if (part == "cutter")
        wishes.parts.insert(job::Part::cutter);
      else if (part == "guide")
        wishes.parts.insert(job::Part::guide);
      else
        return fmt::format("--parts knows home, shop, pictures, cutter and guide, not \"{}\"",
                           part);
    }
    if (wishes.parts.empty()) return "--parts needs home, shop, pictures, cutter or guide";
  }
  const char* name = wishes.only.empty() ? "pack" : "reprint";
  wishes.out = asked.get("--out").value_or((fs::path(folder) / name).string());
  wishes.cache_folder = cache_folder();
  wishes.printers_folder = printers_folder();
  wishes.today = today();
  return std::nullopt;
}

std::string plural(int n, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", n, n == 1 ? one : many);
}

/// A few lines: cuts, spares, time, and what a deck costs.
void show_making(const job::Outcome& outcome, const Terminal& out) {
  if (!outcome.making) return;
  const job::Making& making = *outcome.making;
  for (const std::string& line :
       making::making_lines(outcome.game, making.cutting, &making.tolerances, making.costs)) {
    out.line("  " + line, 4);
  }
}

/// What a piece is, after its name, and further lines beneath.
void show_piece(const std::string& name, const std::vector<std::string>& lines,
                const Terminal& out) {
  for (std::size_t i = 0; i < lines.size(); ++i) {
    out.line((i == 0 ? name : "  ") + lines[i], i == 0 ? 5 : 4);
  }
}

void show_totals(const job::Outcome& outcome, const Terminal& out) {
  const pack::Totals& totals = outcome.totals;
  std::string text =
      out.toned(Tone::strong, outcome.game.title) + ": " + plural(totals.pieces, "card", "cards");
  if (totals.rows != totals.pieces) text += fmt::format(", {} different", totals.rows);
  if (totals.backs > 0) text += ", " + plural(totals.backs, "back", "backs");
  if (outcome.plan) {
    text +=
        ", " + plural(totals.sheets, "sheet", "sheets") + " of " + outcome.plan->wishes.paper_name;
  }
  out.line(text);
  if (outcome.plan) {
    for (const std::string& choice : outcome.plan->choices) out.line("  " + choice, 4);
  }
  show_making(outcome, out);
  if (outcome.rules) {
    show_piece("Rules: ", pack::rules_lines(outcome.game, *outcome.rules, outcome.rules_sheets),
               out);
  }
  if (outcome.box) {
    const std::string& paper = outcome.game.sheets.paper_name;
    show_piece("Box: ", pack::box_lines(*outcome.box, outcome.box_sheets, paper), out);
  }
  if (outcome.mat) {
    const sheets::Tiling* tiling = outcome.mat_tiling ? &*outcome.mat_tiling : nullptr;
    show_piece("Mat: ", pack::mat_lines(outcome.game, *outcome.mat, tiling), out);
  }
}

void show_files(const job::Outcome& outcome, const std::string& folder, const Terminal& out) {
  std::size_t cards = 0;
  for (const pack::Staging::File& file : outcome.files) {
    if (file.path.starts_with("pictures/cards/")) {
      ++cards;
      continue;
    }
    out.raw(fmt::format("  {:<28} {:>9}\n", file.path, size_words(file.bytes)));
  }
  if (cards > 0)
    out.raw(fmt::format("  {:<28} {:>9}\n", "pictures/cards/",
                        plural(static_cast<int>(cards), "file", "files")));
  out.line("in " + out.toned(Tone::strong, folder));
}

using Work = job::Outcome (*)(const World&, const job::Wishes&, job::Watcher&);
/// Shows the rest to a person and gives the exit code.
using Tell = int (*)(const Asked&, const job::Wishes&, const job::Outcome&, const Voices&);

/// What every command on a game does: reads what was asked, does the work, shows what was found.
int on_game(const Asked& asked, const Voices& voices, Work work, Tell tell) {
  const std::string folder = folder_of(asked);
  job::Wishes wishes;
  if (const auto fault = read_wishes(asked, folder, wishes)) {
    voices.err.line("quoin: " + *fault, 4);
    return exit_wrong_use;
  }
  if (!is_game(folder, voices)) return exit_wrong_use;
  const std::unique_ptr<World> world = real_world(folder);
  job::Outcome outcome;
  {
    Progress progress(voices.err);
    outcome = work(*world, wishes, progress);
  }
  if (asked.has("--json")) {
    voices.out.raw(job::report(outcome));
    return exit_code(outcome.found);
  }
  draw_findings(outcome.found, *world, voices.err);
  return tell(asked, wishes, outcome, voices);
}

int tell_check(const Asked& asked, const job::Wishes&, const job::Outcome& outcome,
               const Voices& voices) {
  show_totals(outcome, voices.out);
  if (asked.has("--costs") && outcome.making) {
    for (const std::string& line : making::cost_lines(outcome.game, outcome.making->costs)) {
      voices.out.line(line, 4);
    }
  }
  voices.out.line(count_words(count(outcome.found)));
  return exit_code(outcome.found);
}

int tell_make(const Asked& asked, const job::Wishes& wishes, const job::Outcome& outcome,
              const Voices& voices) {
  const std::string counts = count_words(count(outcome.found));
  if (!outcome.published) {
    voices.err.line(counts + fmt::format(". Nothing was written; {} is as it was.", wishes.out));
    return exit_not_written;
  }
  if (asked.has("--quiet")) return exit_code(outcome.found);
  show_totals(outcome, voices.out);
  voices.out.line(counts + fmt::format(". Written: {} files", outcome.files.size()));
  show_files(outcome, wishes.out, voices.out);
  return exit_code(outcome.found);
}

}  // namespace

int run_check(const Asked& asked, const Voices& voices) {
  return on_game(asked, voices, job::check, tell_check);
}

int run_make(const Asked& asked, const Voices& voices) {
  return on_game(asked, voices, job::make, tell_make);
}

int run_new(const Asked& asked, const Voices& voices) {
  if (asked.words.empty()) {
    voices.err.line("quoin: new needs the name of a folder to make");
    voices.err.line("hint: quoin new reef");
    return exit_wrong_use;
  }
  job::NewGame wanted;
  wanted.folder = asked.words.front();
  wanted.title = asked.get("--title").value_or("");
  wanted.pictures = asked.get("--pictures");
  wanted.size = asked.get("--size");
  const job::NewGameMade made = job::new_game(wanted);
  const std::unique_ptr<World> world = real_world(wanted.pictures.value_or(wanted.folder));
  draw_findings(made.found, *world, voices.err);
  if (!made.made) return exit_not_written;
  voices.out.line(fmt::format("{} is ready: {} files.", wanted.folder, made.files.size()));
  voices.out.line(fmt::format("Next: quoin make {}", wanted.folder));
  return exit_code(made.found);
}

}  // namespace quoin::cli
