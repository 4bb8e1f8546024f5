#pragma once
#include <set>
#include <string>
#include <vector>

#include "game/game.h"
#include "job/share/used_files.h"

namespace quoin::job {

/// What stands against giving a game to others, and what to think of when it is given: hindrances
/// are errors, the rest notes. `asked` are files that the maker has whoever made them asked about.
/// No legal advice: it repeats what the maker wrote of each file, in the light of a table.
[[nodiscard]] Diagnostics permissions(const game::Game& game, const UsedFiles& used,
                                      const std::set<std::string>& asked);

/// "shell-3, box and 4 more": where a file is to be seen.
[[nodiscard]] std::string pieces_words(const std::set<std::string>& pieces);

}  // namespace quoin::job
