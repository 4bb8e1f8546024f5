#pragma once
#include <array>
#include <string>
#include <vector>

#include "base/result.h"
#include "media/picture.h"
#include "trace/tracing.h"

namespace quoin::trace {

/// The card that is looked for: its trimmed size, upright or wide, and the radius of its corners.
/// Only the proportion of the sides is used to find it, so that a card of another size but the
/// same shape is found as well. Sides 10 to 1000 mm; radius 0 for square corners.
struct CardShape {
  Size size{Mm{63}, Mm{88}};
  Mm corner{3};
};

/// How many cards are looked for in one picture.
enum class CardCount {
  as_it_looks,  ///< one, or a grid when there is one
  one,          ///< only the one that is surest
  grid          ///< a grid of equal cards, however few of them are plain to see
};

/// A card in a picture.
struct FoundCard {
  /// Where its sides would meet if its corners were not round, in pixels with fractions from the
  /// top left corner of the picture, y down; clockwise from the top left *as the card will stand*.
  ///
  /// Which way up a card is cannot be known from its edges. The first corner is the one with which
  /// the card is turned least: a card that lies turned by 80 degrees stands wide once straightened.
  std::array<Spot, 4> corners;
  /// Why the corners may be wrong, a sentence each, for a person. Empty: they are sure.
  std::vector<std::string> doubts;
  /// How the lens bends straight lines, as the `k` of `ideal = seen (1 + k r²)`: both from the
  /// middle of the picture, r in halves of its longer side. 0: not at all; 0.03 is a wide lens.
  /// Source: the first term of the radial model of D. C. Brown, "Close-Range Camera Calibration",
  /// Photogrammetric Engineering 37(8), 1971.
  double bow = 0;
};

struct FoundCards {
  int width = 0, height = 0;     ///< of the picture, in pixels
  std::vector<FoundCard> cards;  ///< never empty; of a grid in reading order
  bool grid = false;             ///< they make a grid: rows and columns of equal cards
  /// No card was found: `cards` has the picture's own corners, with the doubt.
  bool whole_picture = false;
};

inline constexpr int least_photo_side = 32;  // px; below, there is no side to follow

/// Finds the cards in a photograph taken at an angle, or in a screenshot.
///
/// A card must have all four corners in the picture and cover at least a thirtieth of it; in a grid
/// each at least a thousandth. It may lie turned by any angle and be tilted up to about 35
/// degrees; the ground may be of any kind that differs from the card along its edge. The same
/// pixels give the same corners. `origin` is where the picture was asked for.
///
/// Fails with `straighten.too-small`. That corners are uncertain, or that no card was found, is
/// said in the result. Pictures over 3 megapixels are looked at reduced, the corners being then
/// exact to a part of a reduced pixel; so time and memory are bounded: a second or two, and under
/// 300 MB beside the picture.
[[nodiscard]] Result<FoundCards> find_cards(const Raster& picture, const CardShape& shape,
                                            const std::string& name, const Origin& origin,
                                            CardCount count = CardCount::as_it_looks);

/// What is wrong with corners given by hand, in any order round the card: `straighten.corners-odd`,
/// when sides cross, the shape is not convex, it is thinner than 8 px, or a corner lies farther
/// outside the picture than a tenth of it. Else the card, its first corner chosen as in FoundCard.
[[nodiscard]] Result<FoundCard> card_from_corners(const Raster& picture,
                                                  const std::array<Spot, 4>& corners,
                                                  const std::string& name, const Origin& origin);

/// The picture, at most `at_most_wide` px wide, with the sides and corners of the cards drawn on
/// it, to look at before anything is cut: green where they are sure, orange where they are not, a
/// second ring round each card's top left corner. `at_most_wide` 0: as wide as it is.
[[nodiscard]] Raster shown_on(const Raster& picture, const FoundCards& found, int at_most_wide);

}  // namespace quoin::trace
