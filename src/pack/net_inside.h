#pragma once
#include "pack/net_lines.h"

namespace quoin::pack {

/// The lines of a net as they are drawn on its inside, in the frame of the net turned over about an
/// upright line: (x, y) lies behind (-x, y) of the net. The cut and slits in full, creases dashed,
/// the areas whose other side is glued dashed and told, and every panel's name.
[[nodiscard]] std::vector<Item> inside_lines(const fold::Net& net);

/// How those lines look, for a key.
[[nodiscard]] LineLook inside_cut();
[[nodiscard]] LineLook inside_crease();
[[nodiscard]] LineLook inside_glue();

}  // namespace quoin::pack
