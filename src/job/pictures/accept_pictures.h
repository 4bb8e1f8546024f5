#pragma once
#include <map>
#include <string>
#include <vector>

#include "game/edit/change.h"
#include "game/game.h"
#include "job/pictures/new_pictures.h"
#include "job/pictures/shown_pictures.h"

namespace quoin::job {

/// What becomes of a game when new pictures are put beside the one that they were made from.
struct Acceptance {
  std::map<std::string, Bytes> files;  ///< new ones, by their paths in the game folder
  std::vector<std::string> names;      ///< of them, in the order of the pictures
  std::string label;                   ///< of the changes: "use crab.svg instead of crab.png"
  std::vector<game::Change> changes;   ///< of the maker's files
  Diagnostics found;  ///< `trace.name-composed` when pieces still show the original
};

/// Whether the pieces that show the original show the new picture from now on.
enum class Instead { no, yes };

/// Which pictures are accepted, by their places among all that were made, and what is said of them.
struct Accepting {
  std::string original;  ///< path in the game folder
  MadeBy how = MadeBy::redrawing;
  std::map<std::size_t, const NewPicture*> pictures;
  Instead instead = Instead::no;  ///< of several new pictures none can stand for the original
};

/// Finds names, the values that name the original, and, where `art/sources.csv` has a row for it,
/// the row of each new one. `shown` are the pictures that the game's pieces show.
///
/// Names: the original's place and name with what `how` adds, and a number when that is taken
/// ("crab-2.svg") by a file with other bytes. Rows of sources: the same author, source and licence,
/// and under changes, a column that is added where there is none, "redrawn from crab.png" after
/// what was done to the original before.
[[nodiscard]] Acceptance accept_pictures(const World& world, const game::Game& game,
                                         const Accepting& accepting, const ShownPictures& shown);

}  // namespace quoin::job
