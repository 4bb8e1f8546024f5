#pragma once
#include <fmt/format.h>

#include <memory>
#include <optional>
#include <string>

#include "guide/making.h"
#include "sheets/sheets.h"

namespace quoin::guide {

/// A game read from memory with its sheets and box, for tests only: "Shore", suits of shells and
/// weed, 20 cards of which two are there three times.
class SmallMaking {
 public:
  /// `more` is put at the end of game.toml.
  explicit SmallMaking(const std::string& more, const std::string& card_keys = "corner = 3.5\n") {
    world_.put("game.toml",
               "[game]\ntitle = \"Shore\"\nauthor = \"A. Maker\"\n[card]\n"
               "size = \"poker\"\n" +
                   card_keys +
                   "[stock]\nname = \"uncoated card\"\ngrammage = 250\n"
                   "[suits.shell]\nname = \"Shells\"\n[suits.weed]\nname = \"Weed\"\n"
                   "[decks.main]\nback = \"layouts/back.toml\"\n"
                   "[[layouts]]\nfile = \"layouts/face.toml\"\n" +
                   more);
    const std::string ground =
        "[[element]]\nid = \"ground\"\nkind = \"shape\"\ninset = \"bleed\"\nfill = \"#e8e0d0\"\n";
    world_.put("layouts/face.toml", ground);
    world_.put("layouts/back.toml", ground);
    world_.put("layouts/mat.toml",
               ground + "[[element]]\nid = \"draw\"\nkind = \"place\"\nat = [20, 20]\n");
    std::string cards = "id,suit,name,copies\n";
    for (int i = 1; i <= 16; ++i) {
      const bool shell = i <= 8;
      cards += fmt::format("{}-{},{},Card {},{}\n", shell ? "S" : "W", i, shell ? "shell" : "weed",
                           i, i == 1 || i == 9 ? 3 : 1);
    }
    world_.put("cards.csv", cards);
    game_ = game::read_game(world_).value;
    lay();
  }

  [[nodiscard]] Making making() const {
    Making made{game_, *plan_,   totals_,     1,      fronts_, faces_, true,
                {},    cutting_, tolerances_, costs_, nullptr, {}};
    if (box_) made.box = {&*box_, &art_, &box_sheets_, nullptr};
    if (mat_) made.mat = {&*mat_, tiling_ ? &*tiling_ : nullptr};
    return made;
  }
  [[nodiscard]] const sheets::Plan& plan() const { return *plan_; }

 private:
  void lay() {
    std::vector<sheets::Copy> copies;
    for (const game::Card& card : game_.cards) {
      for (int i = 0; i < card.copies; ++i) {
        copies.push_back({static_cast<int>(fronts_.size()), 0, card.suit, card.deck});
      }
      fronts_.push_back(card.id);
    }
    const sheets::PieceFormat piece{game_.card.size, game_.card.bleed, game_.card.bleed,
                                    false,           "card",           {}};
    plan_ = sheets::lay(copies, piece, game_.sheets).value();
    totals_ = {static_cast<int>(fronts_.size()), static_cast<int>(copies.size()),
               static_cast<int>(copies.size()), 1, static_cast<int>(plan_->sheets.size())};
    faces_.resize(3);
    box_ = pack::box_for_paper(game_).value;
    if (box_) {
      art_.resize(box_->model.parts.size());
      box_sheets_ = pack::lay_box(game_, *box_, art_, 1).value;
    }
    make_mat();
    reckon();
  }

  void make_mat() {
    if (!game_.mat) return;
    Diagnostics found;
    const pieces::Studio studio(game_, shelf_, found);
    mat_ = pieces::make_mat(studio, typesetter_).value;
    tiling_ =
        sheets::lay_tiles(game_.mat->size, game_.mat->overlap, game_.sheets, {}).or_report(found);
  }

  void reckon() {
    const int fronts = static_cast<int>(fronts_.size());
    cutting_ = making::plan_cutting(game_, *plan_, box_ ? &*box_ : nullptr, 1).value;
    std::vector<making::FaceFacts> faces;
    for (const std::string& front : fronts_) faces.push_back({front, false, {}, {}});
    faces.push_back({"back of main", true, {}, {}});
    for (making::FaceFacts& face : faces) face.measure.ink = {0.1, 0.2, 0.3, 0.4};
    tolerances_ =
        making::tolerances(game_, *plan_, cutting_, faces, fronts, making::usual_register(game_));
    const making::RunFacts run{
        1, *plan_, cutting_, tolerances_, box_sheets_.count(), totals_.cards};
    costs_.runs.push_back(making::run_costs(game_, run, faces, fronts));
    costs_.quoted = making::quoted_costs(game_);
  }

  MemoryWorld world_;
  PictureShelf shelf_{world_};
  Typesetter typesetter_{{}};
  game::Game game_;
  std::optional<sheets::Plan> plan_;
  pack::Totals totals_;
  std::vector<std::string> fronts_;
  std::vector<ShownFace> faces_;
  std::optional<pieces::Box> box_;
  pack::BoxArt art_;
  pack::BoxSheets box_sheets_;
  making::Cutting cutting_;
  making::Tolerances tolerances_;
  making::Costs costs_;
  std::optional<pieces::Mat> mat_;
  std::optional<sheets::Tiling> tiling_;
};

}  // namespace quoin::guide
