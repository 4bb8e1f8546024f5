#include "game/csv.h"
#include "game/reading.h"
#include "game/toml_file.h"

namespace quoin::game {
namespace {

constexpr const char* settings_file = "game.toml";

std::optional<Table> open_settings(Reading& reading) {
  const ReadAnswer answer = reading.world.read(settings_file, largest_file);
  const FileName file(settings_file);
  if (!answer.ok() && answer.failure == ReadFailure::missing) {
    Diagnostic problem(Id::game_missing_file, {file},
                       "there is no file game.toml, so this folder is not a game yet");
    reading.found.add(
        problem.hint("quoin new makes one, from nothing or from a folder of pictures"));
    return std::nullopt;
  }
  const auto bytes = read_file(reading.world, settings_file, {file}, reading.found);
  if (!bytes) return std::nullopt;
  Result<Table> toml = read_toml(*bytes, file);
  if (toml) return std::move(toml).value();
  reading.found.add(std::move(toml).why());
  return std::nullopt;
}

/// Without game.toml no name is known; what the other files say can still be read, so that a maker
/// sees their mistakes in the same run.
void check_without_settings(Reading& reading) {
  const ReadAnswer cards = reading.world.read("cards.csv", largest_file);
  if (cards.ok()) reading.found.add(read_csv(*cards.bytes, FileName("cards.csv")).found);
  for (const std::string& path : reading.world.files_below("layouts")) {
    if (!path.ends_with(".toml")) continue;
    const ReadAnswer layout = reading.world.read(path, largest_file);
    if (!layout.ok()) continue;
    Result<Table> toml = read_toml(*layout.bytes, FileName(path));
    if (!toml) reading.found.add(std::move(toml).why());
  }
}

}  // namespace

Checked<Game> read_game(const World& world, const MachinePrices& machine) {
  Reading reading{.world = world,
                  .machine = machine,
                  .game = {},
                  .found = {},
                  .rules = {},
                  .names = {},
                  .layout_files = {}};
  if (const std::optional<Table> settings = open_settings(reading)) {
    read_settings(reading, *settings);
    read_cards(reading);
    read_layouts(reading);
    choose_layouts(reading);
    check_names(reading);
    check_unused(reading);
    Checked<Sources> sources = read_sources(world);
    reading.game.sources = std::move(sources.value);
    reading.found.add(std::move(sources.found));
  } else {
    check_without_settings(reading);
  }
  return {std::move(reading.game), std::move(reading.found).take()};
}

}  // namespace quoin::game
