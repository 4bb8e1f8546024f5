#pragma once
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "job/pictures/shown_pictures.h"

namespace quoin::job {

/// How large a picture can be printed at a resolution.
struct PrintSize {
  double ppi = 300;
  Size size;
};

/// One picture of a game's folder, with where it prints and how.
struct ListedPicture {
  std::string file;  ///< path in the game folder
  std::string key;   ///< SHA-256 of its bytes, in hexadecimal; "" when it could not be read at all
  PictureFacts facts;
  std::size_t bytes = 0;
  bool readable = false;
  /// Pixels an inch where it falls furthest short of `wanted_ppi`; nothing for vectors and for what
  /// no piece shows by itself.
  std::optional<double> ppi;
  double wanted_ppi = 300;      ///< there: less on a mat, which is looked at from further off
  std::optional<Size> printed;  ///< all of it, there, along its own sides
  /// What shows it: "W-07", "back of main", "box", "mat", "rules"; then what it is in game.toml:
  /// "symbol shell", "suit reef". Only those of the last kind: it is named, but printed nowhere.
  std::vector<std::string> pieces;
  enum class State {
    coarse,  ///< below `least_ppi`, or half of what is wanted on a mat: its pixels show
    soft,    ///< below what is wanted
    sharp,
    vectors,     ///< or shown only inside drawings in vectors
    unreadable,  ///< no picture that can be printed
    unused       ///< on no piece
  } state = State::unused;
  std::string words;                 ///< one sentence for a maker
  std::vector<std::string> details;  ///< "PNG, RGB, 8 bits", "no colour profile: taken as sRGB"
  std::array<PrintSize, 3> sizes;    ///< at 300, 220 and 150 ppi; 0 mm for vectors and unreadable
  std::vector<std::string> made;     ///< files beside it that were made from it, see `made_from`
};
[[nodiscard]] std::string_view to_string(ListedPicture::State state);  // "coarse", "soft", …

/// All pictures of a game folder: coarsest first, then soft, sharp, vectors, unreadable, and those
/// on no piece last; by name among equals.
struct PictureList {
  double good_ppi = 300, least_ppi = 200;  ///< limits under [checks]: sharp, and pixels show
  std::vector<ListedPicture> pictures;
  std::vector<std::string> brief;  ///< "3 of 24 pictures print too coarse"
  Diagnostics found;               ///< errors of reading and drawing the game
};

/// The pictures of a game folder, all its pieces drawn once. Lists what lies in `art/` and whatever
/// pieces show. A game that cannot be read gives the pictures in `art/` and the reasons.
[[nodiscard]] PictureList list_pictures(const World& world, Watcher& watcher);

/// The same where the pieces were drawn already: `shown` is what a PictureFinder saw on them.
[[nodiscard]] PictureList list_pictures(const World& world, const game::Game& game,
                                        const ShownPictures& shown, PictureShelf& shelf);

/// Which of `files` stand beside a picture and were made from it: its name with `.svg` for another
/// ending, or with -straight, -cut-out, -colours or a number after it, each again with a number
/// (from -2 on where the first has none).
[[nodiscard]] std::vector<std::string> made_from(const std::string& picture,
                                                 const std::vector<std::string>& files);

}  // namespace quoin::job
