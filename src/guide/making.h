#pragma once
#include <optional>
#include <string>
#include <vector>

#include "guide/guide.h"
#include "making/costs.h"
#include "pack/box_files.h"
#include "pack/report.h"
#include "pack/rules_files.h"
#include "pieces/mat/mat.h"
#include "press/profile.h"
#include "rules/folding.h"
#include "sheets/sheets.h"
#include "sheets/tiles.h"

namespace quoin::guide {

/// A face that is shown by itself: its drawing in its trim's frame, texts set.
struct ShownFace {
  Scene scene;
};

/// The box of a game and what is printed of it.
struct BoxMade {
  const pieces::Box* box = nullptr;
  const pack::BoxArt* art = nullptr;
  const pack::BoxSheets* sheets = nullptr;
  const Scene* top_card = nullptr;  ///< looks out of the open box; null: a plain card
};

/// The mat of a game and the sheets it is put together from.
struct MatMade {
  const pieces::Mat* mat = nullptr;
  const sheets::Tiling* tiling = nullptr;  ///< null: it goes on no sheets of the game's paper
};

/// The rules of a game and what is printed of them.
struct RulesMade {
  const rules::Leaflet* leaflet = nullptr;
  const pack::RulesSheets* sheets = nullptr;
  std::vector<rules::FoldingStep> steps;  ///< with their pictures
};

/// What the files are called, and who reads: whoever made the game with its folder at hand, or
/// somebody who was given the files alone.
struct GuideFiles {
  std::string cards = "home/cards.pdf", fronts = "home/cards-fronts.pdf",
              backs = "home/cards-backs.pdf", box = "home/box.pdf", mat = "home/mat.pdf",
              shop_mat = "shop/mat.pdf", rules = "home/rules.pdf";
  enum class Reader { maker, friend_of_the_game } reader = Reader::maker;
};

/// All that a guide is about. Refers to what it is made from.
struct Making {
  const game::Game& game;
  const sheets::Plan& plan;
  const pack::Totals& totals;
  int decks = 1;
  /// The fronts among the symbols of the document, by the names of their cards; the backs follow.
  std::vector<std::string> fronts;
  /// Faces for pictures: some fronts spread over the deck, then a back, if there is one.
  std::vector<ShownFace> faces;
  bool last_face_is_back = false;
  BoxMade box;  ///< without a box: `box.box` is null
  const making::Cutting& cutting;
  const making::Tolerances& tolerances;
  const making::Costs& costs;               ///< without runs: no chapter about them
  const press::Profile* printer = nullptr;  ///< that the game names; null: none was measured
  MatMade mat = {};                         ///< without a mat: `mat.mat` is null
  RulesMade rules = {};                     ///< without rules: `rules.leaflet` is null
  GuideFiles files = {};
};

/// The sheets to spare for so many: one in ten, two at the least (common practice, no source).
[[nodiscard]] int usual_spares(int sheets);

/// The guide for a game: every chapter that it has something for. Who was given the files alone is
/// not told how to make them again, nor what the maker pays.
[[nodiscard]] Guide guide_for(const Making& making);

/// The chapters, one function each, in the order of the work. What a game lacks gives a chapter
/// without blocks, which is left out.
[[nodiscard]] Chapter have_ready(const Making& making);
[[nodiscard]] Chapter print_cards(const Making& making);
[[nodiscard]] Chapter cut_cards(const Making& making);
[[nodiscard]] Chapter round_corners(const Making& making);
[[nodiscard]] Chapter make_the_box(const Making& making);
[[nodiscard]] Chapter make_the_mat(const Making& making);
[[nodiscard]] Chapter fold_the_rules(const Making& making);
[[nodiscard]] Chapter count_deck(const Making& making);
[[nodiscard]] Chapter spoilt_cards(const Making& making);
[[nodiscard]] Chapter what_it_takes(const Making& making);

/// The first page.
[[nodiscard]] Cover cover_of(const Making& making);

}  // namespace quoin::guide
