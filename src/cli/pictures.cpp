#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "cli/at_work.h"
#include "cli/command.h"
#include "cli/draw_findings.h"
#include "job/pictures/pictures_report.h"

namespace quoin::cli {
namespace {

using State = job::ListedPicture::State;

Tone tone_of_state(State state) {
  switch (state) {
    case State::coarse:
    case State::unreadable:
      return Tone::warning;
    case State::soft:
      return Tone::note;
    case State::sharp:
    case State::vectors:
      return Tone::good;
    case State::unused:
      return Tone::faint;
  }
  return Tone::plain;
}

std::string two_numbers(double width, double height, int digits) {
  return fmt::format("{:.{}f} x {:.{}f}", width, digits, height, digits);
}

std::string where_used(const std::vector<std::string>& pieces) {
  constexpr std::size_t most_named = 4;
  std::string text;
  for (std::size_t i = 0; i < std::min(most_named, pieces.size()); ++i) {
    text += (i > 0 ? ", " : "") + pieces[i];
  }
  if (pieces.size() > most_named) text += fmt::format(" and {} more", pieces.size() - most_named);
  return text;
}

/// A row of the table, each cell beside where it stands: words to the left, numbers to the right.
struct PictureRow {
  std::string file, pixels, printed, ppi, state, used;
};

PictureRow row_of(const job::ListedPicture& one) {
  PictureRow row{one.file, "", "", "", std::string(to_string(one.state)), where_used(one.pieces)};
  if (one.readable && !one.facts.is_vector()) {
    row.pixels = two_numbers(one.facts.width, one.facts.height, 0);
  }
  if (one.printed)
    row.printed = two_numbers(one.printed->width.value, one.printed->height.value, 1);
  if (one.ppi) row.ppi = fmt::format("{:.0f}", std::floor(*one.ppi + 1e-6));
  return row;
}

std::string padded(const std::string& text, int width, bool to_the_right) {
  const std::string room(static_cast<std::size_t>(std::max(0, width - columns(text))), ' ');
  return to_the_right ? room + text : text + room;
}

/// Draws rows under their heads, columns as wide as their longest cell.
class PictureTable {
 public:
  PictureTable(const job::PictureList& list, const Terminal& out) : out_(out) {
    rows_.push_back({"picture", "px", "printed, mm", "ppi", "state", "shown on"});
    for (const job::ListedPicture& one : list.pictures) rows_.push_back(row_of(one));
    for (std::size_t i = 0; i < widths_.size(); ++i) {
      for (const PictureRow& row : rows_) {
        widths_[i] = std::max(widths_[i], columns(cells(row)[i]));
      }
    }
  }

  void head() const { draw(rows_.front(), Tone::faint, Tone::faint); }
  void row(std::size_t i, Tone state) const { draw(rows_[i + 1], Tone::strong, state); }

 private:
  static std::array<std::string, 6> cells(const PictureRow& row) {
    return {row.file, row.pixels, row.printed, row.ppi, row.state, row.used};
  }

  void draw(const PictureRow& row, Tone first, Tone state) const {
    const auto words = cells(row);
    std::string line = out_.toned(first, padded(words[0], widths_[0], false));
    for (std::size_t i = 1; i <= 3; ++i) line += "  " + padded(words[i], widths_[i], true);
    const bool is_last = words[5].empty();
    line += "  " + out_.toned(state, is_last ? words[4] : padded(words[4], widths_[4], false));
    if (!is_last) line += "  " + words[5];
    out_.line(line, 4);
  }

  const Terminal& out_;
  std::vector<PictureRow> rows_;
  std::array<int, 6> widths_{};
};

void tell_sizes(const job::ListedPicture& one, const Terminal& out) {
  std::string kind;
  for (const std::string& detail : one.details) kind += (kind.empty() ? "" : "; ") + detail;
  if (one.readable && !one.facts.is_vector()) {
    std::string sizes;
    for (const job::PrintSize& each : one.sizes) {
      sizes += fmt::format("{}{} mm at {:.0f} ppi", sizes.empty() ? "" : ", ",
                           two_numbers(each.size.width.value, each.size.height.value, 1), each.ppi);
    }
    out.line("    prints " + sizes, 6);
  }
  if (!kind.empty()) out.line("    " + kind + "; " + size_words(one.bytes), 6);
  if (!one.made.empty()) out.line("    made from it: " + where_used(one.made), 6);
}

bool needs_words(State state) {
  return state == State::coarse || state == State::soft || state == State::unreadable;
}

void tell_list(const job::PictureList& list, bool with_sizes, const Terminal& out) {
  const PictureTable table(list, out);
  if (!list.pictures.empty()) table.head();
  for (std::size_t i = 0; i < list.pictures.size(); ++i) {
    const job::ListedPicture& one = list.pictures[i];
    table.row(i, tone_of_state(one.state));
    if (needs_words(one.state)) out.line("    " + one.words, 6);
    if (with_sizes) tell_sizes(one, out);
  }
  if (!list.pictures.empty()) out.line("");
  std::string brief;
  for (const std::string& sentence : list.brief) brief += (brief.empty() ? "" : "; ") + sentence;
  if (!brief.empty()) out.line(brief + ".");
  const bool any_coarse =
      std::any_of(list.pictures.begin(), list.pictures.end(), [](const job::ListedPicture& one) {
        return one.state == State::coarse || one.state == State::soft;
      });
  if (any_coarse) {
    out.line("quoin trace --all says which of them can be redrawn" +
             std::string(with_sizes ? "." : "; --sizes says how large each can be printed."));
  }
}

int code_of_list(const job::PictureList& list) {
  if (any_errors(list.found)) return exit_not_written;
  const bool all_well =
      std::none_of(list.pictures.begin(), list.pictures.end(),
                   [](const job::ListedPicture& one) { return needs_words(one.state); });
  return all_well ? exit_clean : exit_with_warnings;
}

}  // namespace

int run_pictures(const Asked& asked, const Voices& voices) {
  const std::string folder = folder_of(asked);
  if (!is_game(folder, voices)) return exit_wrong_use;
  const std::unique_ptr<World> world = real_world(folder);
  job::PictureList list;
  {
    Progress progress(voices.err);
    list = job::list_pictures(*world, progress);
  }
  if (asked.has("--json")) {
    voices.out.raw(job::pictures_report(list));
    return code_of_list(list);
  }
  draw_findings(list.found, *world, voices.err);
  tell_list(list, asked.has("--sizes"), voices.out);
  return code_of_list(list);
}

}  // namespace quoin::cli
