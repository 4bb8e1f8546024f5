#pragma once
#include <span>
#include <string>
#include <vector>

#include "game/game.h"
#include "job/pictures/new_pictures.h"

namespace quoin::job {

/// A colour with its name and how much of some pictures it covers.
struct PictureColour {
  Colour colour;
  std::string name;
  double share = 0;  ///< 0..1 of what is not transparent
};

/// The opaque colours that the game names, in its order; their shares are 0.
[[nodiscard]] std::vector<PictureColour> colours_of(const game::Game& game);

/// The colours of pictures together, the largest areas first: those of the areas that a redrawing
/// would have, so that neither the mixtures along edges nor the fringes of JPEG are among them.
///
/// Each picture counts the same, however many pixels it has; it is looked at with some 400 px
/// across, SVG drawn so. Of colours that are nearer than a CIEDE2000 of 6 the larger stands for
/// both; at most `most` are given, 1 to 64. Names are plain words that can be keys of TOML
/// ("dark-blue", "dark-blue-2"), none of them one that the game has for another colour; a colour
/// within 1 of one of the game's has its name. Pictures that cannot be read count for nothing.
[[nodiscard]] std::vector<PictureColour> colours_in(PictureShelf& shelf,
                                                    std::span<const PicturePtr> pictures, int most,
                                                    const std::vector<PictureColour>& of_game);

/// The picture with its colours pulled to given ones: each colour of its areas that is nearer than
/// `reach` (CIEDE2000, above 0) to one of them becomes that one, and what is mixed of several
/// follows them. Transparency stays.
///
/// The change of a colour between those of the areas is the mean of theirs, each with the inverse
/// square of its distance in sRGB as its weight (D. Shepard, "A two-dimensional interpolation
/// function for irregularly-spaced data", ACM National Conference 1968). So edges get no fringes
/// and what is a ramp stays one. Time is proportional to the pixels times the areas' colours, 40 at
/// most.
///
/// Fails like `cut_out_picture`; `words` says which colours changed.
[[nodiscard]] NewPictures pull_picture(PictureShelf& shelf, const PicturePtr& picture,
                                       const std::vector<PictureColour>& to, double reach);

}  // namespace quoin::job
