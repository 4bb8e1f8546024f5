#pragma once
#include <string>
#include <vector>

#include "formats/document.h"
#include "press/correction.h"
#include "rules/leaflet.h"

namespace quoin::pack {

/// What the box and the sheets of a game have room for.
[[nodiscard]] rules::Rooms rules_rooms(const game::Game& game);

/// A leaf of the rules on a sheet: from its front's frame to the page.
struct LeafPlace {
  int leaf = 0;
  Affine map;
  Rect trim;  ///< on the page
};
struct RulesSheet {
  Size paper;  ///< as it is printed on: width > height means landscape
  std::vector<LeafPlace> leaves;
  int times = 1;  ///< how often it is to be printed
  /// How the two sides are drawn for the printer; filled by whoever knows the printer.
  std::optional<press::Correction> correction = {};
};

/// The rules for some decks on the game's paper.
struct RulesSheets {
  std::vector<RulesSheet> sheets;
  int copies = 1;
  [[nodiscard]] int count() const;  ///< of sheets of paper, all printings together
  /// How many copies lie on one sheet; 0 when one takes several sheets.
  int on_a_sheet = 1;
};

/// Lays so many copies on sheets: as many leaves as go side by side, all of a copy together, on
/// paper held the way that takes more. Trims have 4 mm between
/// them for their ticks.
[[nodiscard]] RulesSheets lay_rules(const game::Game& game, const rules::Leaflet& leaflet,
                                    int copies);

/// The pages in reading order: what the documents below place.
[[nodiscard]] std::vector<Symbol> rules_symbols(const rules::Leaflet& leaflet);

/// `home/rules.pdf`: the sheets at true size, fronts and backs for the printer's flip as with the
/// cards; ticks outside the trim for cuts and folds, the slit as a dashed line, and a foot with the
/// bar to measure. Places `rules_symbols`; its own texts are not set yet.
[[nodiscard]] Document home_rules(const game::Game& game, const rules::Leaflet& leaflet,
                                  const RulesSheets& sheets);

/// `shop/rules.pdf`: a booklet or a flat sheet as pages in reading order, each with trim and bleed
/// boxes; what is folded from one sheet as that sheet open, front and back, with the folds and the
/// slit as spot colours on layers of their own. Places `rules_symbols`; its own texts are not set
/// yet.
[[nodiscard]] Document shop_rules(const game::Game& game, const rules::Leaflet& leaflet);

/// Lines for a person: the form and why, the paper and how many sheets.
[[nodiscard]] std::vector<std::string> rules_lines(const game::Game& game,
                                                   const rules::Leaflet& leaflet,
                                                   const RulesSheets& sheets);

/// "uncoated paper, 90 g/m²"
[[nodiscard]] std::string rules_paper_words(const game::RulesWishes& wishes);

}  // namespace quoin::pack
