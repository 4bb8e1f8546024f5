#pragma once
#include <optional>
#include <string>
#include <vector>

#include "formats/document.h"
#include "game/game.h"
#include "media/picture.h"
#include "pieces/mat/mat.h"
#include "sheets/tiles.h"

namespace quoin::pack {

/// What the documents below place: the mat, drawn once however many sheets it takes. Its texts are
/// set. Refers to `mat`.
[[nodiscard]] std::vector<Symbol> mat_symbols(const pieces::Mat& mat);

/// `home/mat.pdf`: the mat at its finished size on the game's sheets, page after page in the order
/// in which they are joined. With several sheets a first page shows them together and says how it
/// is done. Left and upper edges that lie over a neighbour have a line to trim to; right and lower
/// ones have arrows up to which the neighbour goes; where a seam meets the mat's outer edge, half a
/// diamond on either sheet. A line round the mat is for the last cuts. Nothing of all that stays in
/// sight. Places `mat_symbols`; its own texts are not set yet.
[[nodiscard]] Document home_mat(const game::Game& game, const pieces::Mat& mat,
                                const sheets::Tiling& tiling);

/// What the shop prints, in millimetres: of cloth the finished mat made larger by what it shrinks
/// (a length l is drawn l / (1 - s), s the part that is lost, 0 to 0.2), and the hem round it.
struct ShopMat {
  double across = 1, down = 1;  ///< so many times as large
  Size finished;                ///< drawn so large; of cloth between the lines of the hem
  Size cut;                     ///< with the hem
};
[[nodiscard]] ShopMat shop_mat_sizes(const game::Game& game, const pieces::Mat& mat);

/// `shop/mat.pdf`: the whole mat on one page, with trim and bleed boxes, crop marks, and lines of
/// facts at its foot; of cloth with the line of the hem on the layer of creases. Places
/// `mat_symbols`; its own texts are not set yet.
[[nodiscard]] Document shop_mat(const game::Game& game, const pieces::Mat& mat);

/// The facts at the foot of the shop's page: size, material, and of cloth hem and shrinkage.
[[nodiscard]] std::vector<std::string> shop_mat_words(const game::Game& game,
                                                      const pieces::Mat& mat);

/// How long the longer side of a picture of a mat is.
inline constexpr int mat_picture_pixels = 2400;

/// The finished mat as pixels, its longer side so many. Pictures that cannot be drawn are added to
/// `found`.
[[nodiscard]] Raster mat_picture(const pieces::Mat& mat, int longer_side, PictureShelf& shelf,
                                 Diagnostics& found);
[[nodiscard]] double mat_picture_ppi(const pieces::Mat& mat, int longer_side);

/// Lines for a person: size, material and places; the sheets it takes, or that it takes none.
[[nodiscard]] std::vector<std::string> mat_lines(const game::Game& game, const pieces::Mat& mat,
                                                 const sheets::Tiling* tiling);

}  // namespace quoin::pack
