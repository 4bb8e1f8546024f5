#pragma once
#include "fold/measure.h"
#include "game/box_wishes.h"

namespace quoin::pieces {

/// All that a kind of box needs to draw its net, nothing left open. t is `board`, inside is
/// W x H x D: the deck's width, its height, and through the pile.
struct BoxPlan {
  fold::Block inside;
  Mm board;  ///< caliper
  game::Ends ends = game::Ends::reverse;
  game::Locks locks = game::Locks::slits;
  game::NetParts parts = game::NetParts::one;  ///< one or two
  Mm glue_flap;                                ///< width of a glue flap or corner tab
  Mm tuck;                                     ///< depth of the tuck flap
  Mm tuck_play;                                ///< taken off the lid panel
  Mm dust_flap;                                ///< length of the dust flaps
  Mm notch;                                    ///< radius of the thumb notch, 0: none
  Mm corner;                                   ///< radius at the tuck flap's corners
  Mm lid_height;                               ///< how far a lid comes down over its base
  Mm fit;                                      ///< air on each side between parts that slide
};

/// The plan of a box with these walls: what the maker gave, else
///
/// - glue flap 12 mm (10 to 15 for small cartons); a kind draws it no wider than the panel it lies
/// on;
/// - tuck flap 0.8 D, 12 to 18 mm, and no longer than 3 times the lid, for it has to be bent to the
///   lid's own radius while it is pushed in (derived: see closure.h);
/// - dust flaps as long as D, at most 22 mm and 0.45 W (two that meet in the middle would lie on
/// each
///   other at W/2);
/// - the net in one part, unless two are asked for;
/// - notch 9 mm, at most W/4 and two thirds of the tuck flap;
/// - tuck flap's corners a third of its depth;
/// - lid two thirds of the base's depth, at least 10 mm, at most all of it.
///
/// Sizes of flaps are common practice, no source.
[[nodiscard]] BoxPlan plan_of(const game::BoxWishes& wishes, const fold::Block& inside, Mm board);

}  // namespace quoin::pieces
