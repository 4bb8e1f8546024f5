#pragma once
#include <string>
#include <vector>

#include "formats/gltf/model.h"
#include "media/picture.h"
#include "pieces/box/box.h"
#include "pieces/box/net_art.h"

namespace quoin::pack {

/// Pixels an inch of the art on the model, lowered for a net longer than 520 mm so that no texture
/// is larger than 4096 pixels, which every device takes (common practice, no source).
inline constexpr double texture_ppi = 200;

/// The box as a solid model that folds, for `box.glb`: at rest closed, upright, the deck inside.
///
/// Each panel is a part that hangs on the panel it is folded from, its origin in the middle of the
/// crease, so that it only turns; a bead of the board's own thickness closes the outside of every
/// fold. The printed side, the inside and the edges have a material each; art lies on the panels by
/// the places of the net.
///
/// The first animation is the whole folding, two seconds a step; one more for each step is named by
/// its number and its words. The deck is of no size until it goes in. Tuck flaps are straight all
/// through, as in pictures.
///
/// What of the art cannot be drawn is added to `found`.
[[nodiscard]] gltf::Model box_model(const pieces::Box& box, const std::vector<pieces::NetArt>& art,
                                    const std::string& title, PictureShelf& shelf,
                                    Diagnostics& found);

}  // namespace quoin::pack
