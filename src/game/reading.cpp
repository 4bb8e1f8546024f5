#include "game/reading.h"

#include <fmt/format.h>

#include "game/words.h"

namespace quoin::game {
namespace {

Diagnostic missing_file(const World& world, const std::string& path, const ReadAnswer& answer,
                        const Origin& wanted_by) {
  Diagnostic found(Id::game_missing_file, wanted_by, explain(answer, path));
  const std::vector<std::string> there = world.files_below(folder_of(path));
  if (const std::optional<std::string> meant = nearest(path, there)) {
    return found.hint(fmt::format("did you mean {}?", *meant));
  }
  return found.hint("check the spelling, or put the file into the game folder");
}

}  // namespace

std::shared_ptr<const Bytes> read_file(const World& world, std::string_view path,
                                       const Origin& wanted_by, Findings& found) {
  ReadAnswer answer = world.read(path, largest_file);
  if (answer.ok()) return answer.bytes;
  if (answer.failure == ReadFailure::missing) {
    found.add(missing_file(world, std::string(path), answer, wanted_by));
  } else {
    Diagnostic problem(Id::game_unreadable_file, wanted_by, explain(answer, path));
    if (answer.failure == ReadFailure::outside_the_game) {
      problem.hint("copy the file into the game folder, so that the game can be handed on whole");
    }
    found.add(std::move(problem));
  }
  return nullptr;
}

std::string folder_of(std::string_view path) {
  const std::size_t slash = path.rfind('/');
  return std::string(slash == std::string_view::npos ? "" : path.substr(0, slash));
}

std::string stem_of(std::string_view path) {
  if (const std::size_t slash = path.rfind('/'); slash != std::string_view::npos) {
    path.remove_prefix(slash + 1);
  }
  if (path.ends_with(".toml")) path.remove_suffix(5);
  return std::string(path);
}

}  // namespace quoin::game
