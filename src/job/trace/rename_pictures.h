#pragma once
#include <map>
#include <string>
#include <vector>

#include "base/world.h"
#include "game/edit/change.h"
#include "game/game.h"

namespace quoin::job {

/// Old paths of pictures to new ones, both in the game folder, of the same place in it.
using NewNames = std::map<std::string, std::string>;

/// What must be changed in the maker's files so that they name the new pictures.
struct Renaming {
  std::vector<game::Change> changes;
  /// Old paths that no value names: some pattern of a layout makes them, and other pictures of the
  /// pattern keep their names, or the new name differs by more than the ending.
  std::vector<std::string> held;
};

/// Finds every value that names one of the pictures: texts in game.toml and the layouts, cells of
/// the lists (a whole path, or the end of one that a layout completes), the ending of a pattern
/// such as "art/{id}.png" when all pictures that the game takes by it are renamed, and the pictures
/// of the rules. Patterns are only changed where the new names differ by nothing but the ending.
/// `used` are all picture paths that its pieces show.
[[nodiscard]] Renaming rename_pictures(const World& world, const game::Game& game,
                                       const NewNames& names, const std::vector<std::string>& used);

}  // namespace quoin::job
