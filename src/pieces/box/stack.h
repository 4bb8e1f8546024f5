#pragma once
#include "base/diagnostic.h"
#include "fold/measure.h"
#include "game/game.h"

namespace quoin::pieces {

/// A length that differs from lot to lot.
struct Range {
  Mm low, typical, high;
};

/// What goes into a box: how many cards, how large, on what.
struct Contents {
  int cards = 0;
  Size card;
  game::Stock stock;
};

/// The pile that goes into the box.
struct Deck {
  Range card;  ///< thickness of one card, without its sleeve
  Range pile;  ///< the cards alone, pressed: cards times thickness
  Range air;   ///< what curl and air add
  Mm sleeves;  ///< what the sleeves add to the pile
  Mm leaflet;
  Range height;  ///< all of it together
  Size face;     ///< width and height: of a card, or of its sleeve
};

/// The deck's size as it lies in the box, thinnest and thickest.
[[nodiscard]] fold::Block thinnest(const Deck& deck);
[[nodiscard]] fold::Block thickest(const Deck& deck);

/// The thickness of one sheet of board or card.
///
/// From its caliper c: c, give or take 5 % (lots differ by 5 to 10 %; common practice, and one
/// maker of board states 5 % above 300 g/m²). Else from grammage g and the class's bulk b:
/// c = g b / 1000 mm, with g in g/m² and b in cm³/g (ISO 534), from the least to the most bulk of
/// the class, and 5 % either way at the least. `usual_class` stands in when no class is given.
[[nodiscard]] std::optional<Range> caliper_of(std::optional<Mm> caliper,
                                              std::optional<double> grammage,
                                              std::string_view paper_class,
                                              std::string_view usual_class);

/// The deck's height as a range.
///
/// Cards times thickness: from the maker's measured pile (its height times cards over its cards,
/// give or take 2 %: reading a ruler; a choice of ours), else from the stock's caliper, else from
/// its grammage, else 0.30 mm (a usual playing card) with `box.card-thickness-assumed`. Curl and
/// air add 0, usually 2 %, at most 2 % and not less than 0.5 mm (2 to 5 % or 0.5 mm are common
/// practice, no source); nothing to a measured pile, which has its own air. Sleeves and leaflet are
/// added as they are given.
[[nodiscard]] Checked<Deck> deck_of(const Contents& contents, const game::BoxWishes& wishes);

}  // namespace quoin::pieces
