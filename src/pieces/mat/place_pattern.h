#pragma once
#include <vector>

#include "geometry/polygon.h"

namespace quoin::pieces {

/// How the places of one element lie to each other.
enum class PlaceArrange { single, pile, row, column, grid, fan };

/// What the places of one element are laid from; lengths are those of the lines round them.
struct PlacePattern {
  PlaceArrange arrange = PlaceArrange::single;
  int count = 1;    ///< of a row, a column, a grid or a fan: 1 or more
  int columns = 3;  ///< of a grid: 1 or more
  Size each;
  Mm gap;                             ///< between neighbours; less than 0 where they overlap
  Mm radius;                          ///< of the corners
  Angle spread = Angle::degrees(40);  ///< of a fan: between its first and its last card
};

/// One place in the frame of the whole: its middle, and its turn about it.
struct PlaceSpot {
  Point middle;
  Angle turn;
};

/// Places laid side by side: the first at the left, or at the top; the next row beneath; of a fan
/// the last lies on top. Their frame has its origin at the upper left corner of the whole.
struct LaidPlaces {
  Size whole;  ///< round all of them; of a pile with the edges of the cards beneath
  std::vector<PlaceSpot> spots;
};
[[nodiscard]] LaidPlaces lay_places(const PlacePattern& pattern);

/// From the frame of a place (its middle the origin, upright) to that of the whole.
[[nodiscard]] Affine place_map(const PlaceSpot& spot);

/// The line round a place as corners, its round corners as short straight sides (off by less than
/// 0.02 mm at 5 mm); about the origin.
[[nodiscard]] Polygon place_outline(Size each, Mm radius);

/// How far each card beneath a pile looks out to the right and below (common practice, no source).
inline constexpr Mm pile_step{1.2};
inline constexpr int cards_beneath = 2;

/// What is seen of each place in the frame of the whole, and of a pile's cards beneath: those that
/// lie over it taken away.
[[nodiscard]] std::vector<Path> seen_outlines(const PlacePattern& pattern, const LaidPlaces& laid);
[[nodiscard]] std::vector<Path> pile_edges(const PlacePattern& pattern, const LaidPlaces& laid);

}  // namespace quoin::pieces
