#include "cli/picture_words.h"

#include <fmt/format.h>

#include "cli/at_work.h"

namespace quoin::cli {

int refuse(const Voices& voices, const WrongUse& wrong) {
  voices.err.line(voices.err.toned(Tone::error, "quoin:") + " " + wrong.what, 4);
  voices.err.line(voices.err.toned(Tone::good, "hint:") + " " + wrong.hint, 6);
  return exit_wrong_use;
}

std::optional<WrongUse> other_picture(const std::string& out,
                                      const std::vector<std::string>& written) {
  for (const std::string& ending : written) {
    if (out.ends_with(ending)) return std::nullopt;
  }
  for (const char* ending : {".png", ".svg", ".jpg", ".jpeg", ".webp", ".tif", ".tiff", ".gif"}) {
    if (!out.ends_with(ending)) continue;
    return WrongUse{
        fmt::format("-o names {}, and {} is written", out,
                    written.size() == 1 ? written[0].substr(1) + " only" : "png or svg only"),
        fmt::format("name a file that ends in {}, or a folder", written[0])};
  }
  return std::nullopt;
}

std::vector<Colour> colours_in(const std::string& list, std::string& bad) {
  std::vector<Colour> colours;
  for (const std::string& word : split(list)) {
    const auto colour = parse_colour(word);
    if (!colour || colour->alpha < 1) {
      bad = word;
      return {};
    }
    colours.push_back(*colour);
  }
  return colours;
}

int code_of(const Diagnostics& found) {
  const Counts counts = count(found);
  if (counts.errors > 0) return exit_not_written;
  return counts.warnings > 0 ? exit_with_warnings : exit_clean;
}

}  // namespace quoin::cli
