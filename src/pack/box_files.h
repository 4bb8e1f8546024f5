#pragma once
#include <string>
#include <vector>

#include "formats/document.h"
#include "formats/drawing.h"
#include "game/game.h"
#include "pieces/box/box.h"
#include "pieces/box/net_art.h"
#include "press/correction.h"

namespace quoin::pack {

/// What is printed on the nets of a box, one for each; empty when nothing is.
using BoxArt = std::vector<pieces::NetArt>;

/// One net of a box on paper, all in the net's own frame.
struct BoxNet {
  std::string name;  ///< "box", or "box-lid" and "box-base" when there are several: names its files
  std::string title;               ///< in a sentence: "lid"
  const fold::Net* net = nullptr;  ///< of the box, which must outlive it
  Rect bounds;                     ///< of the cut
  Drawing drawing;                 ///< line work on the layers cut, crease and glue
};
[[nodiscard]] std::vector<BoxNet> box_nets(const pieces::Box& box, const std::string& title);

/// How far ink reaches past the cut of a net: what its art says, 3 mm where there is none yet
/// (common practice, no source).
[[nodiscard]] Mm bleed_of(const BoxArt& art, std::size_t net);

/// A net on a sheet: from its frame to the page.
struct NetPlace {
  int net = 0;
  Affine map;
};
struct NetSheet {
  Size paper;  ///< as it is printed on: width > height means landscape
  std::vector<NetPlace> nets;
  int times = 1;  ///< how often it is to be printed
  /// How the two sides are drawn for the printer; filled by whoever knows the printer.
  std::optional<press::Correction> correction = {};
};

/// The nets of so many boxes on the game's paper.
struct BoxSheets {
  std::vector<NetSheet> sheets;
  game::NetLines lines = game::NetLines::front;
  [[nodiscard]] int count() const;  ///< of sheets of paper, all printings together
};

/// Lays the nets for `boxes` boxes on sheets of the game's paper, turned where that helps: all nets
/// of a box on one sheet when they go, several boxes when those go, and alike sheets once with the
/// number of printings. No bleed and no tick of a net lies on another one; a net that just goes on
/// a sheet alone may lose ticks at its edge.
///
/// A net that no sheet of that paper takes is left out with `box.larger-than-sheet`, which names
/// the smallest paper of the same family that does. `lines = "back"` with art on an inside gives
/// lines on the front and `box.lines-on-inside`.
[[nodiscard]] Checked<BoxSheets> lay_box(const game::Game& game, const pieces::Box& box,
                                         const BoxArt& art, int boxes);

/// The game's box with its net in one or two parts, as the maker says; with `parts = "automatic"`
/// in two with the note `box.two-parts` when one is too large for the game's paper and two are not.
/// Otherwise as `pieces::make_box`. `box.not-in-two` when two are asked for of a kind that has
/// none.
[[nodiscard]] Checked<std::optional<pieces::Box>> box_for_paper(const game::Game& game);

/// What the documents below place: for each net what is printed on it and then what is printed
/// inside. Their texts are set already.
[[nodiscard]] std::vector<Symbol> box_symbols(const pieces::Box& box, const BoxArt& art);

/// `home/box.pdf`: the sheets at true size, with art, the cut, ticks for the creases and glue areas
/// on the front; nothing that is drawn stays in sight on the finished box. Art on an inside, or the
/// lines when `lines = "back"`, is a page of its own after each front, mirrored for the printer's
/// flip as the cards' backs are. Each sheet has a bar to measure. Places `box_symbols`; its own
/// texts are not set yet. No pages when nothing fits.
[[nodiscard]] Document home_box(const game::Game& game, const pieces::Box& box, const BoxArt& art,
                                const BoxSheets& sheets);

/// `shop/box.pdf`: each net on a page of its own with room round it, art beneath; cut, crease,
/// glue, bleed (the cut grown by the bleed) and dimensions as spot colours on layers of their own;
/// trim and bleed boxes round cut and bleed. Board, grain and creasing stand at its foot. Places
/// `box_symbols`; its own texts are not set yet.
[[nodiscard]] Document shop_box(const game::Game& game, const pieces::Box& box, const BoxArt& art);

/// "tuck carton for a pile of 15.4 to 17.5 mm, 64.1 x 90.1 x 18.1 mm inside": what was measured on
/// the folded box.
[[nodiscard]] std::string box_words(const pieces::Box& box);

/// Lines for a person: sizes and clearances, what was measured where it closes, board and sheets.
[[nodiscard]] std::vector<std::string> box_lines(const pieces::Box& box, const BoxSheets& sheets,
                                                 const std::string& paper);

}  // namespace quoin::pack
