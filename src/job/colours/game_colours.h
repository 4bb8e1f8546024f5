#pragma once
#include <string>
#include <vector>

#include "game/game.h"
#include "job/job.h"
#include "job/pictures/new_pictures.h"
#include "trace/colours/palette_of.h"

namespace quoin::job {

using trace::PaletteColour;
using trace::PaletteWishes;

/// The colours of pictures together.
struct FoundPalette {
  std::vector<PaletteColour> colours;
  std::vector<std::string> untagged;  ///< pictures without a colour profile, taken as sRGB
  Diagnostics found;                  ///< `palette.no-colours`, and what PictureShelf finds
};

/// Finds them in pictures that were opened; drawings in vectors are drawn 700 px wide. Names are
/// none of those that the game's colours have, unless a colour is (nearly) one of the game's: then
/// it has that one's name.
[[nodiscard]] FoundPalette palette_of_pictures(PictureShelf& shelf,
                                               const std::vector<PicturePtr>& pictures,
                                               const PaletteWishes& wishes,
                                               const std::vector<PaletteColour>& of_game);

/// The same for files on disk, and for all pictures that the pieces of the game in `folder` show.
[[nodiscard]] FoundPalette palette_of_files(const std::vector<std::string>& files,
                                            const PaletteWishes& wishes,
                                            const std::vector<PaletteColour>& of_game);
[[nodiscard]] FoundPalette palette_of_game(const std::string& folder, const PaletteWishes& wishes,
                                           Watcher& watcher);

/// The opaque colours that [colours] names.
[[nodiscard]] std::vector<PaletteColour> colours_of(const game::Game& game);
/// Those of a game folder; nothing with the reasons in `found` when it cannot be read.
[[nodiscard]] std::vector<PaletteColour> colours_of(const std::string& folder, Diagnostics& found);

/// What became of colours that were to go into a game.
struct TakenColours {
  std::vector<PaletteColour> added;
  std::vector<PaletteColour> there;  ///< named by the game already (nearer than 1, CIEDE2000)
  bool done = false;
  Diagnostics found;
};
/// Writes colours under [colours] in game.toml, as one step that can be taken back; what stands
/// there stays as it is.
[[nodiscard]] TakenColours take_colours(const std::string& folder,
                                        std::vector<PaletteColour> colours);

/// A picture with its colours pulled to others: `trace::pull`, or `trace::pull_svg` for a drawing
/// in vectors. When no colour was near it is as it was, and `palette.nothing-changed` says so.
[[nodiscard]] NewPictures recolour_picture(PictureShelf& shelf, const PicturePtr& picture,
                                           const std::vector<Colour>& palette, double reach);

/// What `quoin recolour` is asked for; paths are on disk.
struct RecolourOrder {
  std::vector<std::string> pictures;
  /// A file for the one picture, or a folder; "": NAME-colours.png or .svg beside each picture.
  std::string out;
  std::vector<Colour> palette;
  double reach = 10;  ///< CIEDE2000
};
struct RecolouredFile {
  std::string picture, file;
  std::vector<std::string> words;
  bool written = false;
  Diagnostics found;
};
/// Recolours pictures, as many at a time as the machine has cores, and writes them: whole or not at
/// all, and never over a file that was not named in the order. Finds what recolour_picture finds,
/// `trace.file-there`, `trace.not-written` and `pack.cancelled`.
[[nodiscard]] std::vector<RecolouredFile> recolour_pictures(const RecolourOrder& order,
                                                            Watcher& watcher);

/// For other programs: an object with `colours`, one with `pictures`.
[[nodiscard]] Bytes palette_report(const FoundPalette& palette);
[[nodiscard]] Bytes recolour_report(const std::vector<RecolouredFile>& files);

}  // namespace quoin::job
