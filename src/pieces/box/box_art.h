#pragma once
#include <string>
#include <vector>

#include "base/result.h"
#include "pieces/box/box.h"
#include "pieces/box/net_art.h"
#include "pieces/card/studio.h"

namespace quoin::pieces {

/// The maker's layout of the box, drawn on its panels: one NetArt for each part of the model, in
/// their order; empty scenes when nothing is printed. Texts are set.
///
/// Each element of the layout is drawn in the frame of its panel, or of its run of panels (see
/// panel_run.h): where it gives no box of its own, a text fills the frame up to the cards' safe
/// distance and all else fills it to the end of the bleed. Ink ends at creases to panels that the
/// element is not on, and keeps off the glue.
///
/// Finds what drawing a card's face finds (`face.*`, `picture.*`), where elements go
/// (`box.no-panel`, `box.unknown-panel`, `box.panels-apart`), and what would disappoint on the box:
/// `box.nothing-printed`, `box.art-hidden`, `box.text-across-crease`, `box.emblem-across-crease`,
/// `box.text-near-cut`, `box.short-of-bleed`, and those checks of a card's face that do not ask
/// about its edges (`art.low-resolution`, `card.small-type`, `card.thin-line`, `card.low-contrast`,
/// `card.text-too-long`, `text.*`). Each is `on` the panels and the element. An element with an
/// error of place is left out.
[[nodiscard]] Checked<std::vector<NetArt>> box_art(const Studio& studio, Typesetter& typesetter,
                                                   const Box& box);

}  // namespace quoin::pieces
