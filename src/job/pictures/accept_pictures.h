#pragma once
#include <map>
#include <string>
#include <vector>

#include "game/edit/change.h"
#include "game/game.h"
#include "job/pictures/new_pictures.h"

namespace quoin::job {

/// What becomes of a game when new pictures are put beside the one that they were made from.
struct Acceptance {
  std::map<std::string, Bytes> files;  ///< new ones, by their paths in the game folder
  std::vector<std::string> names;      ///< of them, in the order of the pictures
  std::string label;                   ///< of the changes: "use crab.svg instead of crab.png"
  std::vector<game::Change> changes;   ///< of the maker's files
  /// Whether pieces that the maker's files do not name one by one still show the original.
  bool is_held = false;
};

/// Whether the pieces that show the original show the new picture from now on.
enum class Instead { no, yes };

/// Finds names that are free (a number is added until one is), the values that name the original,
/// and, where `art/sources.csv` has a row for it, the row of each new one: the same author, source
/// and licence, and what was done. `used` are all picture paths that the game's pieces show; of
/// several new pictures none can stand for the original.
[[nodiscard]] Acceptance accept_pictures(const World& world, const game::Game& game,
                                         const std::string& original,
                                         const std::vector<const NewPicture*>& pictures,
                                         Instead instead, const std::vector<std::string>& used);

}  // namespace quoin::job
