#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <cstdlib>

#include "cli/at_work.h"
#include "cli/command.h"
#include "cli/draw_findings.h"
#include "cli/picture_words.h"
#include "job/colours/game_colours.h"

namespace quoin::cli {
namespace {

/// The whole number of an option between 1 and 64, or the usual one.
std::optional<int> most_of(const Asked& asked, int usual) {
  const auto text = asked.get("--most");
  if (!text) return usual;
  int number = 0;
  const auto [end, error] = std::from_chars(text->data(), text->data() + text->size(), number);
  const bool whole = error == std::errc{} && end == text->data() + text->size();
  return whole && number >= 1 && number <= 64 ? std::optional(number) : std::nullopt;
}

void tell_palette(const job::FoundPalette& palette, const Terminal& out) {
  std::size_t wide = 0;
  for (const auto& one : palette.colours) wide = std::max(wide, one.name.size());
  for (const auto& one : palette.colours) {
    out.line(fmt::format("{}{:<{}}  {}  {:4.1f} %", out.swatch(to_string(one.colour)), one.name,
                         wide, to_string(one.colour), one.share * 100));
  }
  double shares = 0;
  for (const auto& one : palette.colours) shares += one.share;
  if (!palette.colours.empty() && shares < 0.95) {
    out.line(fmt::format("{:.0f} % has other colours, of smaller areas each; --most finds more",
                         100 * (1 - shares)));
  }
  if (palette.untagged.empty()) return;
  out.line(fmt::format("{} {} no colour profile and {} taken as sRGB", palette.untagged.size(),
                       palette.untagged.size() == 1 ? "picture has" : "pictures have",
                       palette.untagged.size() == 1 ? "was" : "were"));
}

std::string names_of(const std::vector<job::PaletteColour>& colours) {
  std::string text;
  for (const auto& one : colours) text += (text.empty() ? "" : ", ") + one.name;
  return text;
}

/// `out` is where the words for a person go: with --json not where the JSON goes.
int take_into(const std::string& game, const job::FoundPalette& palette, const Voices& voices,
              const Terminal& out) {
  const job::TakenColours taken = job::take_colours(game, palette.colours);
  draw_findings(taken.found, *real_world(game), voices.err);
  if (!taken.done) return exit_not_written;
  if (!taken.there.empty()) {
    out.line("there already: " + names_of(taken.there), 2);
  }
  out.line(taken.added.empty()
               ? "game.toml has all of them, and was left as it is."
               : fmt::format("written under [colours] in game.toml: {}. Give them names of "
                             "your own there before you use them.",
                             names_of(taken.added)),
           2);
  return exit_clean;
}

std::optional<double> reach_of(const Asked& asked, double usual) {
  const auto text = asked.get("--reach");
  if (!text) return usual;
  char* end = nullptr;
  const double value = std::strtod(text->c_str(), &end);
  const bool sound = !text->empty() && *end == '\0' && value > 0 && value <= 100;
  return sound ? std::optional(value) : std::nullopt;
}

}  // namespace

int run_palette(const Asked& asked, const Voices& voices) {
  const auto all = asked.has("--all");
  const auto into = asked.get("--into");
  if (!all && asked.words.empty()) {
    return refuse(voices, {"palette needs a picture, or --all for those of a game",
                           "quoin palette crab.png clam.png"});
  }
  if (all && asked.words.size() > 1) {
    return refuse(voices, {"--all is for one game at a time", "name one folder"});
  }
  const auto most = most_of(asked, 12);
  if (!most) {
    return refuse(voices, {"--most takes a whole number from 1 to 64", "write --most 8"});
  }
  job::PaletteWishes wishes;
  wishes.most = *most;
  job::FoundPalette palette;
  if (all) {
    Progress progress(voices.err);
    palette = job::palette_of_game(asked.words.empty() ? "." : asked.words[0], wishes, progress);
  } else {
    Diagnostics found;
    const auto of_game = into ? job::colours_of(*into, found) : std::vector<job::PaletteColour>{};
    palette = job::palette_of_files(asked.words, wishes, of_game);
    for (Diagnostic& one : found) palette.found.push_back(std::move(one));
  }
  palette.found = in_order(std::move(palette.found));
  if (asked.has("--json")) {
    voices.out.raw(job::palette_report(palette));
  } else {
    draw_findings(palette.found, MemoryWorld(), voices.err);
    tell_palette(palette, voices.out);
  }
  const int code = code_of(palette.found);
  if (!into || code == exit_not_written || palette.colours.empty()) return code;
  const int taken =
      take_into(*into, palette, voices, asked.has("--json") ? voices.err : voices.out);
  return taken == exit_clean ? code : taken;
}

int run_recolour(const Asked& asked, const Voices& voices) {
  job::RecolourOrder order;
  order.pictures = asked.words;
  order.out = asked.get("--out").value_or("");
  if (order.pictures.empty()) {
    return refuse(voices, {"recolour needs a picture", "quoin recolour crab.png --like reef"});
  }
  if (const auto wrong = other_picture(order.out, {".png", ".svg"})) return refuse(voices, *wrong);
  const auto like = asked.get("--like"), list = asked.get("--palette");
  if (like.has_value() == list.has_value()) {
    return refuse(voices, {"recolour needs --like or --palette, and not both",
                           "--like DIR takes the colours that the game there names"});
  }
  const auto reach = reach_of(asked, order.reach);
  if (!reach) {
    return refuse(voices, {"--reach takes a number above 0 and up to 100",
                           "write --reach 10, the usual one"});
  }
  order.reach = *reach;
  if (order.pictures.size() > 1 && (order.out.ends_with(".png") || order.out.ends_with(".svg"))) {
    return refuse(voices, {"several pictures cannot go into one file", "name a folder with -o"});
  }
  Diagnostics found;
  if (like) {
    for (const auto& one : job::colours_of(*like, found)) order.palette.push_back(one.colour);
  } else {
    std::string bad;
    order.palette = colours_in(*list, bad);
    if (!bad.empty()) {
      return refuse(voices, {fmt::format("--palette has \"{}\", which is no opaque colour", bad),
                             "write colours like #1d2b33, with commas between them"});
    }
  }
  if (order.palette.empty() && !any_errors(found)) {
    return refuse(voices, {"there are no colours to pull the picture to",
                           "name some under [colours] in game.toml: quoin palette --into"});
  }
  std::vector<job::RecolouredFile> made;
  if (!any_errors(found)) {
    Progress progress(voices.err);
    made = job::recolour_pictures(order, progress);
  }
  for (const job::RecolouredFile& one : made) {
    found.insert(found.end(), one.found.begin(), one.found.end());
  }
  found = in_order(std::move(found));
  if (asked.has("--json")) {
    voices.out.raw(job::recolour_report(made));
    return code_of(found);
  }
  draw_findings(found, MemoryWorld(), voices.err);
  for (const job::RecolouredFile& one : made) {
    if (!one.written) continue;
    voices.out.line(voices.out.toned(Tone::strong, one.file) + " from " + one.picture);
    for (const std::string& words : one.words) voices.out.line("  " + words, 4);
  }
  return code_of(found);
}

}  // namespace quoin::cli
