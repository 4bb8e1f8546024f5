#pragma once
#include <string>
#include <vector>

#include "formats/document.h"
#include "formats/drawing.h"
#include "game/game.h"
#include "pieces/box/box.h"

namespace quoin::pack {

/// One net of a box as line work, on the layers cut, crease and glue, in the net's own frame.
struct BoxNet {
  std::string name;  ///< "box", or "box-lid" and "box-base" when there are several: names its files
  Drawing drawing;
};
[[nodiscard]] std::vector<BoxNet> box_nets(const pieces::Box& box, const std::string& title);

/// "tuck carton for 72 cards, 64.1 x 90.1 x 25.9 mm inside": what was measured on the folded box.
[[nodiscard]] std::string box_words(const pieces::Box& box);

/// `shop/box.pdf`: each net on a page of its own with room round it, cut, crease and glue as spot
/// colours on layers of their own. Texts are not set yet.
[[nodiscard]] Document shop_box(const game::Game& game, const pieces::Box& box);

/// `home/box.pdf`: each net on a sheet of the game's paper, upright or turned, at true size. A net
/// that no sheet of that paper takes is left out with `box.larger-than-sheet`; the document may
/// then have no pages. Texts are not set yet.
[[nodiscard]] Checked<Document> home_box(const game::Game& game, const pieces::Box& box);

}  // namespace quoin::pack
