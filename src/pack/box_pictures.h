#pragma once
#include <string>
#include <vector>

#include "base/result.h"
#include "media/picture.h"
#include "pieces/box/box_view.h"

namespace quoin::pack {

/// What the pictures and the model of a box are made from.
struct BoxPictureWork {
  pieces::BoxLook look;
  std::string title;  ///< of the game
  std::string looks;  ///< names everything that the files follow from; "": not known, nothing kept
};

/// One file of the pack.
struct BoxPictureFile {
  std::string path;  ///< in the pack
  Bytes bytes;
};

/// How wide a picture of a box is.
inline constexpr int box_picture_pixels = 1600;

/// The files that show a box:
///
/// - `pictures/box.png`, `pictures/box.svg`: closed, upright, on a clear ground;
/// - `pictures/box-open.png`, `pictures/box-open.svg`: open, with the deck;
/// - `box.glb`: the model, folding.
///
/// What an earlier run made is taken from the cache. Pictures that cannot be drawn are added to
/// `found`; there is nothing where they belong, and nothing is kept.
[[nodiscard]] std::vector<BoxPictureFile> box_pictures(const BoxPictureWork& work,
                                                       PictureShelf& shelf, ImageCache* cache,
                                                       Diagnostics& found);

/// The box closed, open and flat, side by side at the scale of the contact sheet, so that it is
/// seen beside its cards; smaller when that is wider than `width` pixels. `table` is the ground.
[[nodiscard]] Raster box_band(const BoxPictureWork& work, int width, Colour table,
                              PictureShelf& shelf, Diagnostics& found);

/// A picture of a box as pixels, so many wide and clear where nothing is drawn.
[[nodiscard]] Raster pixels_of(const pieces::BoxPicture& picture, int width, PictureShelf& shelf,
                               Diagnostics& found);

}  // namespace quoin::pack
