#pragma once
#include <string>
#include <vector>

#include "pieces/box/art_place.h"
#include "pieces/box/net_art.h"
#include "pieces/card/studio.h"

namespace quoin::pieces {

/// An element of the box's layout as it was drawn, its texts set.
struct DrawnArt {
  const game::Element* element = nullptr;
  ArtPlace place;
  Item item;  ///< in the run's frame, not clipped to the panels
};

/// What the checks of the box's art share.
struct ArtInspection {
  const game::Game& game;
  const Box& box;
  const std::vector<DrawnArt>& drawn;
  const std::vector<NetArt>& art;
  Diagnostics& found;
};

/// Elements of which nothing is seen: `box.nothing-printed`, `box.art-hidden`.
void check_seen(const ArtInspection& inspection);
/// Words and emblems at creases and cuts: `box.text-across-crease`, `box.emblem-across-crease`,
/// `box.text-near-cut`.
void check_edges(const ArtInspection& inspection);
/// What the checks of a card's face find on the whole net: soft pictures, small type, thin lines,
/// low contrast, long texts, fonts; and `box.short-of-bleed`.
void check_print(const ArtInspection& inspection, PictureShelf& shelf);

}  // namespace quoin::pieces
