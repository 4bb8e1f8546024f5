#pragma once
#include <map>
#include <optional>
#include <string>

#include "base/result.h"
#include "base/world.h"
#include "game/formats.h"

namespace quoin::game {

/// The files of a new game folder by their paths.
using GameFolder = std::map<std::string, Bytes>;

/// A small game to begin with: two suits, eight cards, a face in two layouts, a back and two icons,
/// with comments that explain what stands there. It reads without a finding.
///
/// Fails with `game.missing-key` for an empty title and `game.encoding` for one that is no UTF-8.
[[nodiscard]] Result<GameFolder> starter_game(std::string title);

/// What becomes of the pictures of a new game.
enum class PictureFiles {
  copied,          ///< to art/, under their cards' ids
  where_they_lie,  ///< the game uses them there: the folder of pictures becomes the game's
};

/// A game of finished pictures: one card for each picture in the folder and below it, in natural
/// order (2 before 10). A picture called `back` becomes the back of all cards. "wren x3.png",
/// "wren x 3.png" and "wren ×3.png" are three copies of "wren". Ids are made from the names.
/// Pictures that stay where they lie are not among the files that are given back; packs made
/// earlier and folders that begin with a dot are passed over then. Without a `size` cards are of
/// poker size. The pictures are not looked into.
///
/// Finds `game.no-pictures`, `game.picture-skipped` for other files (those whose name begins with
/// a dot are passed over), `game.unreadable-file`, `game.out-of-range` for the size, and what
/// starter_game finds in the title. The folder is empty when there are errors.
[[nodiscard]] Checked<GameFolder> game_from_pictures(const World& pictures, std::string title,
                                                     std::optional<NamedSize> size,
                                                     PictureFiles files = PictureFiles::copied);

struct Game;
/// The text of rules to start from, for a game that has none: its cards, counted, and what is still
/// to be said. It reads without a finding.
[[nodiscard]] Bytes first_rules(const Game& game);

/// A text in quotes as TOML writes it.
[[nodiscard]] std::string toml_text(std::string_view text);

}  // namespace quoin::game
