#pragma once
#include <optional>
#include <string>

#include "job/job.h"

namespace quoin::job {

/// What `quoin new` is asked for.
struct NewGame {
  std::string folder;                   ///< on disk; missing or empty
  std::string title;                    ///< "" takes the folder's name
  std::optional<std::string> pictures;  ///< a folder of finished card pictures
  std::optional<std::string> size;      ///< a name of `sizes`, or "63.5x88.9"
  enum class Place {
    folder_of_its_own,  ///< missing or empty
    among_files         ///< beside files that are there, none of which is touched
  };
  Place place = Place::folder_of_its_own;
};

/// What was made, and what was found on the way.
struct NewGameMade {
  Diagnostics found;
  std::vector<pack::Staging::File> files;
  bool made = false;
};

/// Makes a game folder, whole or not at all: the starter game, or one around a folder of pictures.
/// When that folder is the new game's own, the pictures stay where they lie.
[[nodiscard]] NewGameMade new_game(const NewGame& asked);

}  // namespace quoin::job
