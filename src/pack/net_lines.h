#pragma once
#include <string>
#include <vector>

#include "fold/fold.h"
#include "scene/scene.h"
#include "sheets/mark_lines.h"

namespace quoin::pack {

/// Lines and words that nets are drawn with, in the net's frame unless it says otherwise.

inline constexpr Colour cut_ink{0.75, 0.1, 0.1, 1}, crease_ink{0.1, 0.3, 0.7, 1},
    glue_ink{0.2, 0.5, 0.25, 1}, grey_ink{0.45, 0.45, 0.45, 1};

/// A line along a path.
struct LineLook {
  Layer layer;
  Colour ink;
  Mm width{0.2};
  std::vector<Mm> dash;
};
[[nodiscard]] Item line_item(Path path, LineLook look);
[[nodiscard]] Path between(Point from, Point to);

/// Words about a point, turned clockwise; not set yet. They break into lines and shrink to `room`.
struct WordsLook {
  Layer layer = Layer::mark;
  Mm type_size{2.5};
  Colour ink{0, 0, 0, 1};
  Angle turn;
  TextAlign align = TextAlign::centre;
};
[[nodiscard]] Item words_item(const std::string& text, Point middle, Size room,
                              const WordsLook& look);

/// The cut as a black hairline outside of it with a white one round that, so that it shows on any
/// art: the black line's inner edge is the cut, and who cuts there cuts it away.
[[nodiscard]] std::vector<Item> cut_edges(const fold::Net& net);
inline constexpr Mm edge_width{0.15};

/// Where a ruler is laid for each crease: ticks in line with its ends, in the waste or on panels
/// that are hidden in the closed box; 0.5 mm or more from every panel that is not, 0.2 mm where
/// that brings them near the crease. An end with no such place within 150 mm has none.
[[nodiscard]] std::vector<sheets::MarkLine> crease_ticks(const fold::Net& net);
/// Thin enough that two creases one thickness of board apart have two ticks.
inline constexpr Mm tick_width{0.12};

/// A glue area: light lines across it, and in its middle the first of the words that has room
/// there.
[[nodiscard]] std::vector<Item> glue_mark(const Polygon& glued,
                                          const std::vector<std::string>& words);

}  // namespace quoin::pack
