#pragma once
#include "pieces/card/studio.h"
#include "scene/scene.h"

namespace quoin::pieces {

/// The front of a card as a scene in the frame of its trim (origin at the trim's top left, ink
/// reaching out to the bleed). Texts are not set yet. Problems are added to `found`.
[[nodiscard]] Scene front(const Studio& studio, const game::Card& card, Diagnostics& found);

/// The back that a card has; empty when its deck has none.
[[nodiscard]] Scene back(const Studio& studio, const game::Card& card, Diagnostics& found);

/// How far backs are drawn past the trim: the cards' bleed and what [sheets] back-bleed adds.
[[nodiscard]] Mm back_bleed(const game::Game& game);

/// Which cards share one back drawing: those whose back layout, suit and all values that the
/// layout uses are the same. Cards with equal keys have equal backs. "" means a blank back.
[[nodiscard]] std::string back_key(const game::Game& game, const game::Card& card);

}  // namespace quoin::pieces
