#pragma once
#include <vector>

#include "pieces/box/box.h"
#include "pieces/box/net_art.h"
#include "pieces/box/stage.h"
#include "scene/scene.h"

namespace quoin::pieces {

/// What a box shows: its nets, what is printed on them, and the deck's top card.
struct BoxLook {
  const Box& box;
  const std::vector<NetArt>& art;  ///< one for each net; nets without one are plain board
  /// The side of the top card that looks out of the box, as the card's trim frame has it; texts
  /// set. Null: a plain card.
  const Scene* top_card = nullptr;
  Mm card_corner;  ///< radius of the cards' corners
};

/// The same of any folded nets.
struct StageLook {
  const std::vector<NetArt>& art;
  const Scene* top_card = nullptr;
  Mm card_corner;
  Mm card;  ///< thickness of a card of the deck
  /// What lies close to the ground throws less of a shadow.
  enum class Ground { shadow, faint_shadow } ground = Ground::shadow;
};

/// A drawing of a box, at its true size along the directions of the picture, on a clear ground.
struct BoxPicture {
  Scene scene;
  Rect bounds;  ///< round all of it, shadow and a rim counted
};

/// Draws a stage in parallel projection, vectors throughout: each visible face shows its art under
/// the affine map of the projection, shaded by how it is turned to the light, which comes from
/// above on the left; cut edges of the board are seen; the ground takes a soft shadow.
///
/// Neighbours on the picture reach 0.07 % of its width under each other, so that no ground shines
/// through between them.
[[nodiscard]] BoxPicture drawn(const Stage& stage, const StageLook& look);
[[nodiscard]] BoxPicture drawn(const Stage& stage, const BoxLook& look);

/// The nets side by side as they are printed, flat, with their creases.
[[nodiscard]] BoxPicture flat_nets(const BoxLook& look);

}  // namespace quoin::pieces
