#pragma once
#include <functional>
#include <string>
#include <vector>

#include "scene/scene.h"

namespace quoin {

/// A drawing that pages place, once or a hundred times; written to the file once. The scene's
/// frame has the trim's top left as its origin, so `bounds` usually starts at (-bleed, -bleed).
/// `make` is called once, when it is drawn, so that ten thousand faces never exist at one time.
struct Symbol {
  Rect bounds;
  std::function<Scene()> make;
};

/// One placing of a symbol: `map` takes the symbol's frame to the page's; what leaves `window`
/// (a page rectangle) is clipped.
struct Placement {
  int symbol = 0;
  Affine map;
  Rect window;
};

/// A page: placed symbols, then a drawing of its own on top (marks, slug). Boxes are in page
/// millimetres from the top left of the sheet. All that is drawn is drawn under `printed`, which
/// makes up for what a printer does to the page; media and boxes stay as they are.
struct Page {
  Size media;
  Affine printed;
  Rect trim;
  Rect bleed;
  std::vector<Placement> placements;
  Scene own;
  std::string label;  ///< shown by viewers as the page's label
};

enum class Flip { none, long_edge, short_edge };

/// How the lines that a machine follows are written: what pages draw themselves on the layers cut,
/// crease, glue, bleed, safe and dimension.
enum class LineWork {
  drawn,        ///< as ink in the colours of the drawing, like everything else
  spot_colours  ///< each layer as a spot colour of its own that overprints, named as the layer is
};

/// What a PDF writer is handed: everything that a file says, nothing about cards.
struct Document {
  std::string title, author, subject, language;
  std::string creator;       ///< "Quoin 0.1"
  Flip duplex = Flip::none;  ///< ViewerPreferences /Duplex: Simplex for none
  LineWork line_work = LineWork::drawn;
  std::vector<Page> pages;
};

}  // namespace quoin
