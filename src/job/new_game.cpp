#include "job/new_game.h"

#include <fmt/format.h>

#include <filesystem>
#include <map>

#include "game/formats.h"
#include "game/new_game.h"
#include "job/edit/add_files.h"

namespace quoin::job {
namespace fs = std::filesystem;
namespace {

using Files = std::map<std::string, Bytes>;

/// "our-reef_game" -> "Our reef game".
std::string title_from(const std::string& folder) {
  fs::path path = fs::path(folder).lexically_normal();
  if (!path.has_filename()) path = path.parent_path();
  std::string title = path.filename().string();
  for (char& c : title) {
    if (c == '-' || c == '_') c = ' ';
  }
  if (!title.empty() && title[0] >= 'a' && title[0] <= 'z') {
    title[0] = static_cast<char>(title[0] - 'a' + 'A');
  }
  return title.empty() || title == "." ? "My game" : title;
}

std::optional<Files> files_for(const NewGame& asked, Diagnostics& found) {
  std::optional<game::NamedSize> size;
  if (asked.size) {
    size = game::find_size(*asked.size, game::card_sizes());
    if (!size) {
      found.push_back(Diagnostic(Id::new_unknown_size, {},
                                 fmt::format("there is no card size \"{}\"", *asked.size))
                          .hint("`quoin sizes` lists the names; or write it as 63.5x88.9, in mm"));
      return std::nullopt;
    }
  }
  const std::string title = asked.title.empty() ? title_from(asked.folder) : asked.title;
  if (!asked.pictures) return game::starter_game(title).or_report(found);
  std::error_code ec;
  if (!fs::is_directory(*asked.pictures, ec)) {
    found.push_back(Diagnostic(Id::new_folder_missing, {},
                               fmt::format("there is no folder {}", *asked.pictures))
                        .hint("check the spelling after --pictures"));
    return std::nullopt;
  }
  const std::unique_ptr<World> pictures = real_world(*asked.pictures);
  const auto stay = fs::equivalent(*asked.pictures, asked.folder, ec)
                        ? game::PictureFiles::where_they_lie
                        : game::PictureFiles::copied;
  Checked<Files> made = game::game_from_pictures(*pictures, title, size, stay);
  const bool usable = !any_errors(made.found);
  for (Diagnostic& one : made.found) found.push_back(std::move(one));
  return usable ? std::optional(std::move(made.value)) : std::nullopt;
}

/// Beside files that are there.
void add_game(const std::string& folder, const Files& files, NewGameMade& result) {
  result.made = add_files(folder, files, "game.toml").or_report(result.found).has_value();
  if (!result.made) return;
  for (const auto& [path, bytes] : files) result.files.push_back({path, bytes.size()});
}

}  // namespace

NewGameMade new_game(const NewGame& asked) {
  NewGameMade result;
  std::error_code ec;
  const bool is_among_files = asked.place == NewGame::Place::among_files &&
                              fs::is_directory(asked.folder, ec) && !fs::is_empty(asked.folder, ec);
  if (!is_among_files && fs::exists(asked.folder, ec) &&
      !(fs::is_directory(asked.folder, ec) && fs::is_empty(asked.folder, ec))) {
    result.found.push_back(
        Diagnostic(Id::new_folder_not_empty, {}, fmt::format("{} is there already", asked.folder))
            .hint("name a folder that does not exist yet"));
    return result;
  }
  const std::optional<Files> files = files_for(asked, result.found);
  if (!files) return result;
  if (is_among_files) {
    add_game(asked.folder, *files, result);
    return result;
  }
  auto staging = pack::Staging::begin(asked.folder).or_report(result.found);
  if (!staging) return result;
  for (const auto& [path, bytes] : *files) {
    if (!staging->write(path, bytes).or_report(result.found)) return result;
  }
  result.files = staging->files();
  result.made = staging->publish().or_report(result.found).has_value();
  return result;
}

}  // namespace quoin::job
