#include "job/share/share.h"

#include <fmt/format.h>

#include <cmath>

#include "cli/at_work.h"
#include "cli/draw_findings.h"
#include "cli/outside.h"

namespace quoin::cli {
namespace {

job::ShareWishes read_wishes(const Asked& asked, const std::string& folder) {
  job::ShareWishes wishes;
  wishes.folder = folder;
  wishes.out = asked.get("--out").value_or("");
  wishes.since = asked.get("--since").value_or("");
  wishes.without = split(asked.get("--without").value_or(""));
  wishes.asked = split(asked.get("--i-asked").value_or(""));
  wishes.cache_folder = cache_folder();
  return wishes;
}

std::string edition_words(const job::SharedEdition& edition) {
  std::string words = fmt::format("{}: {} {}", edition.paper, edition.sheets,
                                  edition.sheets == 1 ? "sheet" : "sheets");
  if (edition.board_sheets > 0) words += fmt::format(", {} of board", edition.board_sheets);
  if (edition.rules_sheets > 0) words += fmt::format(", {} of rules", edition.rules_sheets);
  if (edition.mat_sheets > 0) words += fmt::format(", {} of mat", edition.mat_sheets);
  words += fmt::format("; ink covers {:.0f} % of each printed side, {:.0f} % in low ink",
                       100 * edition.full_cover, 100 * edition.low_cover);
  if (edition.changed_sheets > 0) {
    words += fmt::format("; the changed cards alone: {} {}", edition.changed_sheets,
                         edition.changed_sheets == 1 ? "sheet" : "sheets");
  }
  return words;
}

void show_changes(const pack::Changes& changes, const Terminal& out) {
  const std::string since =
      changes.since.empty() ? "the earlier share" : "version " + changes.since;
  out.line(fmt::format("Since {}:", since));
  const std::vector<std::string> lines = pack::change_lines(changes);
  for (const std::string& line : lines) out.line("  " + line, 4);
  if (lines.empty()) out.line("  no card looks different");
}

void show(const job::ShareOutcome& outcome, const Terminal& out) {
  out.line(out.toned(Tone::strong, outcome.game.title) + ", to be given to others:");
  for (const job::SharedEdition& edition : outcome.editions) {
    out.line("  " + edition_words(edition), 4);
  }
  for (const std::string& piece : outcome.left_out) out.line("  left out: " + piece, 4);
  if (outcome.changes) show_changes(*outcome.changes, out);
  for (const pack::Staging::File& file : outcome.files) {
    out.raw(fmt::format("  {:<48} {:>9}\n", file.path, size_words(file.bytes)));
  }
  out.line("in " + out.toned(Tone::strong, outcome.out));
  out.line(
      fmt::format("and all of it as {} ({})", outcome.archive, size_words(outcome.archive_bytes)));
}

}  // namespace

int run_share(const Asked& asked, const Voices& voices) {
  const std::string folder = folder_of(asked);
  if (!is_game(folder, voices)) return exit_wrong_use;
  const job::ShareWishes wishes = read_wishes(asked, folder);
  const std::unique_ptr<World> world = real_world(folder);
  job::ShareOutcome outcome;
  {
    Progress progress(voices.err);
    outcome = job::share(*world, wishes, progress);
  }
  draw_findings(outcome.found, *world, voices.err);
  const std::string counts = count_words(count(outcome.found));
  if (!outcome.published) {
    voices.err.line(counts + ". Nothing was written, so nothing can be given on by mistake.");
    return exit_not_written;
  }
  if (asked.has("--quiet")) return exit_code(outcome.found);
  show(outcome, voices.out);
  voices.out.line(counts);
  return exit_code(outcome.found);
}

}  // namespace quoin::cli
