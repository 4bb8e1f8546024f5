#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "game/game.h"
#include "pieces/box/box.h"
#include "pieces/box/panel_run.h"

namespace quoin::pieces {

/// Where an element of the box's layout goes.
struct ArtPlace {
  int part = 0;  ///< of the model
  PrintSide side = PrintSide::outside;
  PanelRun run;
  std::string words;  ///< "front", "left, front and right", "inside of the front"
};

/// Reads `panel` or `panels` and `side` of the element. Nothing when it cannot be drawn, with
/// `box.no-panel`, `box.unknown-panel`, `box.panels-apart` or a finding about a value.
[[nodiscard]] std::optional<ArtPlace> art_place(const game::Element& element, const Box& box,
                                                Mm bleed, Diagnostics& found);

}  // namespace quoin::pieces
