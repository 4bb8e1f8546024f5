#pragma once
#include <array>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "base/world.h"
#include "geometry/geometry.h"

namespace quoin::job {

/// A picture made from one of the game's, not yet in its folder.
struct NewPicture {
  std::string ending;  ///< of its name, after the stem of the original's: ".svg", "-straight.png"
  std::string done;    ///< what was done, for the list of sources: "straightened"
  Bytes bytes;         ///< PNG or SVG
  int width = 0, height = 0;        ///< px
  std::vector<std::string> doubts;  ///< why it may not be what was meant, sentences
};

/// What was made from one picture. Without pictures `found` says why.
struct NewPictures {
  std::vector<NewPicture> pictures;
  std::vector<std::string> words;  ///< about all of them, sentences
  Diagnostics found;
};

/// A place in a picture: pixels from its upper left corner, y down.
struct PicturePoint {
  double x = 0, y = 0;
};
/// Clockwise from the upper left corner of a card as it will stand.
using PictureCorners = std::array<PicturePoint, 4>;

/// A card that was found in a picture.
struct PicturedCard {
  PictureCorners corners;
  std::vector<std::string> doubts;  ///< none: its corners are sure
};
struct PicturedCards {
  int width = 0, height = 0;  ///< of the picture
  std::vector<PicturedCard> cards;
  bool grid = false;  ///< they lie in rows and columns
  Diagnostics found;  ///< why there are none
};

/// Trimmed size and corners of the cards that are looked for.
struct CardOutline {
  Size size;
  Mm corner;
};

// All of these read `path` from the world and fail, in `found`, with what PictureShelf finds,
// `picture.svg-no-pixels` for a drawing, and what the functions of the trace floor say.

/// Looks for cards in a photograph or a screenshot: `trace::find_cards`.
[[nodiscard]] PicturedCards find_cards(const World& world, const std::string& path,
                                       const CardOutline& card);
/// Each card square and flat, a picture of its own: `trace::straighten`, its round corners filled.
[[nodiscard]] NewPictures straighten_cards(const World& world, const std::string& path,
                                           const std::vector<PictureCorners>& cards,
                                           const CardOutline& card);
/// The picture without its plain ground: `trace::cut_out`. `reach` from 0 to 1.
[[nodiscard]] NewPictures cut_out_picture(const World& world, const std::string& path,
                                          double reach);

}  // namespace quoin::job
