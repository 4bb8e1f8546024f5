#include <fmt/format.h>

#include "game/csv.h"
#include "game/encoding.h"
#include "game/new_game.h"
#include "game/new_title.h"
#include "game/sources.h"
#include "game/starter_files.h"
#include "game/words.h"

namespace quoin::game {
namespace {

constexpr std::string_view place_of_title = "@TITLE@";

std::string with_title(std::string_view text, const std::string& title) {
  std::string made(text);
  const std::size_t at = made.find(place_of_title);
  return made.replace(at, place_of_title.size(), toml_text(title));
}

}  // namespace

std::string toml_text(std::string_view text) {
  std::string quoted = "\"";
  for (const char c : text) {
    const auto code = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\')
      quoted += std::string("\\") + c;
    else if (code < 0x20 || code == 0x7F)
      quoted += fmt::format("\\u{:04X}", code);
    else
      quoted += c;
  }
  return quoted + "\"";
}

std::optional<Diagnostic> title_problem(const std::string& title) {
  if (trimmed(title).empty()) {
    Diagnostic problem(Id::game_missing_key, {}, "the new game has no title");
    return problem.hint("give it one; it can be changed in game.toml later");
  }
  for (std::string_view rest = title; !rest.empty(); rest.remove_prefix(utf8_length(rest))) {
    if (utf8_length(rest) > 0) continue;
    Diagnostic problem(Id::game_encoding, {}, "the title is not UTF-8 text");
    return problem.hint("type it anew");
  }
  return std::nullopt;
}

Result<GameFolder> starter_game(std::string title) {
  if (std::optional<Diagnostic> problem = title_problem(title)) return *problem;
  GameFolder folder;
  folder["game.toml"] = with_title(starter_settings, title);
  folder["cards.csv"] = starter_cards;
  folder["layouts/frame.toml"] = starter_frame;
  folder["layouts/face.toml"] = starter_face;
  folder["layouts/back.toml"] = starter_back;
  folder["rules.md"] = starter_rules;
  folder["art/sun.svg"] = starter_sun;
  folder["art/moon.svg"] = starter_moon;
  folder[sources_file] = csv_line({"file", "author", "source", "licence", "changes"});
  for (const char* file : {"moon.svg", "sun.svg"}) {
    folder[sources_file] += csv_line({file, "The Quoin illustrators", "", "CC0-1.0", ""});
  }
  return folder;
}

}  // namespace quoin::game
