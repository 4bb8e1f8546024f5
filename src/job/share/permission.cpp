#include "job/share/permission.h"

#include <fmt/format.h>

#include <functional>

#include "game/words.h"

namespace quoin::job {
namespace {

using game::Licence;

Diagnostic refusal(const game::Hindrance& why, const std::string& file,
                   const std::set<std::string>& pieces) {
  Diagnostic problem(why.id, why.origin, why.message);
  problem.severity = Severity::error;
  problem.detail(fmt::format("to be seen on {}", pieces_words(pieces)));
  for (const std::string& hint : why.hints) problem.hint(hint);
  problem.hint(
      fmt::format("or use another picture, or leave out what shows it: --without {}", file));
  problem.hint(fmt::format("you asked whoever made it, and may give it on? --i-asked {}", file));
  return problem;
}

/// The files whose licence is so, in one note.
void add_hint(const game::Game& game, const UsedFiles& used, Id id,
              const std::function<bool(const Licence&)>& is_so, const std::string& words,
              Diagnostics& found) {
  std::set<std::string> files, licences;
  for (const auto& [file, pieces] : used) {
    const game::SourceRow* row = game::source_of(game.sources, file);
    const auto licence = row == nullptr ? std::nullopt : game::find_licence(row->licence.text);
    if (!licence || !is_so(*licence)) continue;
    files.insert(file);
    licences.insert(licence->name);
  }
  if (files.empty()) return;
  Diagnostic note(id, {FileName(game::sources_file), 0, 0, 0},
                  fmt::format("{} {}", pieces_words(licences), words));
  found.push_back(note.detail("it holds for " + pieces_words(files))
                      .hint("what counts is the text of the licence and the law where you are"));
}

void add_fonts(const game::Game& game, Diagnostics& found) {
  std::set<std::string> unlisted;
  for (const std::string& font : game.font_files) {
    if (game::source_of(game.sources, font) == nullptr) unlisted.insert(font);
  }
  if (unlisted.empty()) return;
  Diagnostic note(
      Id::share_font_not_listed, {FileName(game::sources_file), 0, 0, 0},
      fmt::format("{} {} not in the list of sources", game::counted(unlisted.size(), "font"),
                  unlisted.size() == 1 ? "is" : "are"));
  found.push_back(note.detail(pieces_words(unlisted))
                      .hint("look whether its licence lets it go along inside documents, and add "
                            "a row for it"));
}

}  // namespace

std::string pieces_words(const std::set<std::string>& pieces) {
  constexpr std::size_t most = 4;
  std::vector<std::string> words;
  for (const std::string& piece : pieces) {
    if (words.size() == most && pieces.size() > most + 1) {
      words.push_back(fmt::format("{} more", pieces.size() - most));
      break;
    }
    words.push_back(piece);
  }
  return game::all_of(words);
}

Diagnostics permissions(const game::Game& game, const UsedFiles& used,
                        const std::set<std::string>& asked) {
  Diagnostics found;
  for (const auto& [file, pieces] : used) {
    const bool was_asked = asked.contains(file);
    const auto why =
        game::hindrance(game.sources, file, was_asked ? game::Asked::yes : game::Asked::no);
    if (why) found.push_back(refusal(*why, file, pieces));
    if (!was_asked) continue;
    Diagnostic note(Id::share_asked, {FileName(file), 0, 0, 0},
                    fmt::format("{} goes along because you asked whoever made it", file));
    found.push_back(note.hint("keep the answer; the credits say \"used with permission\""));
  }
  add_hint(
      game, used, Id::share_credit_due,
      [](const Licence& one) { return one.credit == Licence::Credit::due; },
      "asks that whoever made a picture is named: the credits do", found);
  add_hint(
      game, used, Id::share_share_alike,
      [](const Licence& one) { return one.terms == Licence::Terms::same; },
      "asks that what is made with a picture is given under the same terms", found);
  add_hint(
      game, used, Id::share_not_for_sale,
      [](const Licence& one) { return one.selling == game::Leave::no; },
      "lets nobody sell what is made with a picture", found);
  add_fonts(game, found);
  return found;
}

}  // namespace quoin::job
