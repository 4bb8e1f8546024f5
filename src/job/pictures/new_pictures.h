#pragma once
#include <array>
#include <memory>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "geometry/geometry.h"
#include "job/pictures/made_by.h"
#include "job/trace/trace_pictures.h"
#include "media/picture.h"

namespace quoin::job {

/// A picture made from one of the game's, not yet in its folder.
struct NewPicture {
  Bytes bytes;                      ///< PNG or SVG
  int width = 0, height = 0;        ///< px
  std::vector<std::string> doubts;  ///< why it may not be what was meant, sentences
};

/// What was made from one picture. Without pictures `found` says why.
struct NewPictures {
  MadeBy how = MadeBy::redrawing;
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
  double bow = 0;                   ///< of the lens, as in trace::FoundCard
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

// All of these work in memory, from a picture that was opened; `shelf` may be used by others at the
// same time. They fail, in `found`, with `trace.already-vectors` for a drawing, with what the shelf
// finds in its pixels, and with what the functions of the trace floor say.

/// The pixels of a picture that has some, as PictureShelf::pixels; null with the reason in `found`.
[[nodiscard]] std::shared_ptr<const Raster> own_pixels(PictureShelf& shelf,
                                                       const PicturePtr& picture,
                                                       Diagnostics& found, int at_most_wide = 0);
/// `redraw_file` for a picture that was opened.
[[nodiscard]] Redrawn redraw_picture(const PicturePtr& picture, const trace::TraceWishes& wishes);
/// Where the drawing differs from the picture, as a PNG: the picture faint and grey, on it in red
/// what is another colour. Looked at with at most 4 megapixels. Nothing when it cannot be drawn.
[[nodiscard]] Bytes difference_png(PictureShelf& shelf, const PicturePtr& picture,
                                   const Bytes& drawing);

/// Looks for cards in a photograph or a screenshot: `trace::find_cards`.
[[nodiscard]] PicturedCards find_cards(PictureShelf& shelf, const PicturePtr& picture,
                                       const CardOutline& card);
/// Each card square and flat, a picture of its own: `trace::straighten`, its round corners filled.
/// The first of the corners is the upper left one of the card as it will stand when they go
/// clockwise, so that a card can be turned; else as trace::card_from_corners has it. Doubts are not
/// looked at. `wanted_ppi` is what the game asks for.
[[nodiscard]] NewPictures straighten_cards(PictureShelf& shelf, const PicturePtr& picture,
                                           const std::vector<PicturedCard>& cards,
                                           const CardOutline& card, double wanted_ppi);
/// The picture without its plain ground: `trace::cut_out`. `reach` from 0 to 1.
[[nodiscard]] NewPictures cut_out_picture(PictureShelf& shelf, const PicturePtr& picture,
                                          double reach);

}  // namespace quoin::job
