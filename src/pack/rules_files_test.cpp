#include "pack/rules_files.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "pack/sample_box.h"
#include "sheets/printable.h"

namespace quoin::pack {
namespace {

using rules::Form;
using rules::PagePlace;

rules::Leaflet leaflet_of(Form form) {
  rules::Leaflet leaflet;
  leaflet.form = std::move(form);
  leaflet.pages.resize(leaflet.form.pages.size());
  leaflet.caliper = Mm{0.11};
  return leaflet;
}

std::vector<Form> all_forms() {
  const Size page{Mm{62.5}, Mm{88}};
  const Mm caliper{0.11};
  return {rules::flat_form(page, caliper, Form::Sides::both),
          rules::half_form(page, caliper),
          rules::accordion_form(3, page, caliper, Form::Sides::both),
          rules::accordion_form(4, page, caliper, Form::Sides::both),
          rules::eight_pages_form(page, caliper),
          rules::booklet_form(2, page, caliper),
          rules::booklet_form(5, page, caliper)};
}

game::Game game_for(game::FlipEdge flip) {
  game::Game game = sample_game("tuck");
  game.sheets.flip = flip;
  return game;
}

/// Each page of the rules on the paper: what is seen on the back is looked at through the paper.
void expect_behind_its_panel(const game::Game& game, const rules::Leaflet& leaflet) {
  const Form& form = leaflet.form;
  SCOPED_TRACE(rules::form_words(form));
  const RulesSheets laid = lay_rules(game, leaflet, 1);
  const Document home = home_rules(game, leaflet, laid);
  const bool both = form.sides == Form::Sides::both;
  ASSERT_EQ(home.pages.size(), laid.sheets.size() * (both ? 2 : 1));
  int seen = 0;
  for (std::size_t at = 0; at < home.pages.size(); ++at) {
    const RulesSheet& sheet = laid.sheets[both ? at / 2 : at];
    const bool is_back = both && at % 2 == 1;
    const Affine to_front =
        is_back ? *inverse(sheets::behind(sheet.paper, game.sheets.flip)) : Affine{};
    for (const Placement& placed : home.pages[at].placements) {
      const PagePlace& page = form.pages[static_cast<std::size_t>(placed.symbol)];
      EXPECT_EQ(page.side == PagePlace::Side::back, is_back);
      const auto leaf = std::find_if(sheet.leaves.begin(), sheet.leaves.end(),
                                     [&](const LeafPlace& one) { return one.leaf == page.leaf; });
      ASSERT_NE(leaf, sheet.leaves.end());
      const fold::Net& net = form.model.parts[static_cast<std::size_t>(page.leaf)].net;
      const Rect panel =
          bounds(leaf->map, bounds(net.panels[static_cast<std::size_t>(page.panel)].outline));
      const Affine map = then(placed.map, to_front);
      const Rect on_paper = bounds(map, {{}, form.page});
      EXPECT_NEAR(on_paper.top().value, panel.top().value, 1e-9);
      EXPECT_NEAR(on_paper.left().value, panel.left().value, abs(page.creep).value + 1e-9);
      const bool upright = page.way == PagePlace::Way::upright;
      EXPECT_NEAR(map(Vec{Mm{}, Mm{-1}}).y.value, upright ? -1 : 1, 1e-12);
      // Nothing is mirrored on its own side of the paper.
      EXPECT_GT(placed.map.determinant(), 0);
      ++seen;
    }
  }
  EXPECT_EQ(seen, form.page_count());
}

TEST(HomeRules, have_each_page_behind_its_panel_whichever_way_the_sheet_is_turned) {
  for (const game::FlipEdge flip : {game::FlipEdge::long_edge, game::FlipEdge::short_edge}) {
    const game::Game game = game_for(flip);
    for (const Form& form : all_forms()) expect_behind_its_panel(game, leaflet_of(form));
  }
}

TEST(LaidRules, lie_within_what_the_printer_reaches_and_not_on_each_other) {
  const game::Game game = game_for(game::FlipEdge::long_edge);
  for (const Form& form : all_forms()) {
    const RulesSheets laid = lay_rules(game, leaflet_of(form), 7);
    SCOPED_TRACE(rules::form_words(form));
    std::map<int, int> leaves;
    for (const RulesSheet& sheet : laid.sheets) {
      const Rect room = sheets::printable(game.sheets, sheet.paper);
      for (std::size_t i = 0; i < sheet.leaves.size(); ++i) {
        leaves[sheet.leaves[i].leaf] += sheet.times;
        EXPECT_TRUE(lies_in(grown(sheet.leaves[i].trim, Mm{2.9}), room));
        for (std::size_t j = 0; j < i; ++j) {
          EXPECT_FALSE(overlap(sheet.leaves[i].trim, sheet.leaves[j].trim));
        }
      }
    }
    EXPECT_EQ(leaves.size(), static_cast<std::size_t>(form.leaves));
    for (const auto& [leaf, count] : leaves) EXPECT_EQ(count, 7) << leaf;
  }
}

TEST(LaidRules, of_several_decks_share_sheets) {
  const game::Game game = game_for(game::FlipEdge::long_edge);
  const rules::Leaflet flat =
      leaflet_of(rules::flat_form({Mm{62.5}, Mm{88}}, Mm{0.11}, Form::Sides::both));
  const RulesSheets laid = lay_rules(game, flat, 20);
  EXPECT_EQ(laid.on_a_sheet, 8);
  EXPECT_EQ(laid.count(), 3);
}

TEST(ShopRules, are_pages_in_order_for_a_booklet_and_the_open_sheet_for_what_is_folded_from_one) {
  const game::Game game = game_for(game::FlipEdge::long_edge);
  const Size page{Mm{62.5}, Mm{88}};
  const Document booklet = shop_rules(game, leaflet_of(rules::booklet_form(3, page, Mm{0.11})));
  ASSERT_EQ(booklet.pages.size(), 12U);
  for (std::size_t i = 0; i < booklet.pages.size(); ++i) {
    EXPECT_EQ(booklet.pages[i].placements.at(0).symbol, static_cast<int>(i));
    EXPECT_EQ(booklet.pages[i].trim.size, page);
    EXPECT_TRUE(nearly_equal(booklet.pages[i].bleed.size.width, page.width + Mm{6}));
  }
  const Document open =
      shop_rules(game, leaflet_of(rules::accordion_form(4, page, Mm{0.11}, Form::Sides::both)));
  ASSERT_EQ(open.pages.size(), 2U);
  EXPECT_EQ(open.line_work, LineWork::spot_colours);
  EXPECT_TRUE(nearly_equal(open.pages[0].trim.size, {page.width * 4, page.height}));
  int creases = 0;
  for (const Item& item : open.pages[0].own.items) creases += item.layer == Layer::crease ? 1 : 0;
  EXPECT_EQ(creases, 3);
}

}  // namespace
}  // namespace quoin::pack
