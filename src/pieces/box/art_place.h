#pragma once
#include <map>
#include <optional>
#include <string>
#include <tuple>
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

/// Finds the places of elements on one box, and remembers the runs that it laid. Refers to the box.
class ArtPlaces {
 public:
  ArtPlaces(const Box& box, Mm bleed) : box_(box), bleed_(bleed) {}

  /// Reads `panel` or `panels` and `side` of the element. Nothing when it cannot be drawn, with
  /// `box.no-panel`, `box.unknown-panel` or `box.panels-apart`.
  [[nodiscard]] std::optional<ArtPlace> place(const game::Element& element, Diagnostics& found);

 private:
  /// Part, side, panels.
  using Key = std::tuple<int, PrintSide, std::vector<int>>;

  const Box& box_;
  Mm bleed_;
  std::map<Key, PanelRun> runs_;
};

}  // namespace quoin::pieces
