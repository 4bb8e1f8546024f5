#pragma once
#include <vector>

#include "pieces/card/element.h"
#include "pieces/mat/place_pattern.h"

namespace quoin::pieces {

/// The places of one element of a mat: as large as the game's card and its clearance unless the
/// maker says otherwise.
struct ElementPlaces {
  PlacePattern pattern;
  Size card;       ///< as it lies on a place: turned when the places are
  Mm clearance;    ///< from the card to the line
  bool is_forced;  ///< `each` was given
};
[[nodiscard]] ElementPlaces read_places(const Properties& properties);

/// Round the whole of an element's places, before it is turned: at `at`, or in the middle of the
/// box that `inset`, or `size`, gives.
[[nodiscard]] std::optional<Rect> box_of_places(const Properties& properties,
                                                const game::Element& element,
                                                const ElementPlace& place);

/// Draws the places in their box, with words, numbers, suits' colours and icons. Finds
/// `mat.unknown-suit`, and what texts and pictures find.
[[nodiscard]] Drawn draw_places(const Properties& properties, Rect box, const Item& like);

}  // namespace quoin::pieces
