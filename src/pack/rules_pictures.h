#pragma once
#include "media/picture.h"
#include "rules/leaflet.h"

namespace quoin::pack {

/// A drawing to look at: its scene, texts set, in millimetres from its top left corner.
struct PlainPicture {
  Scene scene;
  Size size;
};

/// All pages of the rules in reading order, four side by side.
[[nodiscard]] PlainPicture rules_pages_picture(const rules::Leaflet& leaflet,
                                               Typesetter& typesetter);
/// How the rules are folded, step by step, with words; of no size for a flat sheet.
[[nodiscard]] PlainPicture rules_folding_picture(const rules::Leaflet& leaflet,
                                                 Typesetter& typesetter);

/// The picture as a PNG, about so many pixels wide, on white. Pictures within it that cannot be
/// drawn are added to `found`.
[[nodiscard]] Bytes png_of(const PlainPicture& picture, int width, PictureShelf& shelf,
                           Diagnostics& found);
inline constexpr int rules_picture_pixels = 1800;

}  // namespace quoin::pack
