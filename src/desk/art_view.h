#pragma once
#include <string>
#include <vector>

#include "desk/api/json.h"
#include "desk/session.h"
#include "job/colours/game_colours.h"
#include "job/pictures/list_pictures.h"
#include "job/pictures/new_pictures.h"
#include "job/trace/trace_pictures.h"

namespace quoin::desk {

// What the page is sent of the game's pictures. The types stand in api/art_types.cpp.

/// PicturesInfo.
[[nodiscard]] Json pictures_view(const Snapshot& shown, const job::PictureList& list);
/// Redrawing, kept under that name.
[[nodiscard]] Json redrawing_view(const job::Redrawn& redrawn, int width, int height,
                                  const std::string& name, const World& world);
/// FoundCards.
[[nodiscard]] Json cards_view(const job::PicturedCards& cards);
/// MadePictures without the name under which they are kept.
[[nodiscard]] Json made_view(const job::NewPictures& made);

/// PaletteColour[].
[[nodiscard]] Json colours_view(const std::vector<job::PaletteColour>& colours);

/// What tells one content of a picture file from another: a part of its key.
[[nodiscard]] std::string stamp_of(const std::string& key);

/// The picture as a PNG in sRGB, `width` pixels wide at the most, a drawing in vectors just so
/// wide; 0: all its pixels. No side has more than 4096. "" when it cannot be drawn.
[[nodiscard]] Bytes draw_picture(PictureShelf& shelf, const PicturePtr& picture, int width);

}  // namespace quoin::desk
