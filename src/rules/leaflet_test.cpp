#include "rules/leaflet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>

#include "rules/rules_fixture.h"
#include "rules/slab.h"

namespace quoin::rules {
namespace {

using game::RulesForm;
using testing::ElementsAre;
using testing::HasSubstr;

struct Made {
  RulesForm kind;
  int pages;
  double type;
};

Made made_of(int words, const std::string& keys = "", Rooms rooms = GameWithRules::rooms()) {
  GameWithRules game(many_words(words), "[rules]\n" + keys);
  const auto leaflet = game.leaflet(rooms);
  EXPECT_TRUE(leaflet.value);
  const double points = leaflet.value->type.value * points_per_inch / mm_per_inch;
  return {leaflet.value->form.kind, leaflet.value->form.page_count(), points};
}

TEST(RulesForm, is_the_one_with_the_least_work_that_the_text_goes_into) {
  EXPECT_EQ(made_of(100).kind, RulesForm::flat);
  EXPECT_EQ(made_of(220).kind, RulesForm::half);
  EXPECT_EQ(made_of(350).kind, RulesForm::accordion);
  EXPECT_EQ(made_of(350).pages, 6);
  EXPECT_EQ(made_of(480).pages, 8);
  const Made booklet = made_of(1200);
  EXPECT_EQ(booklet.kind, RulesForm::booklet);
  EXPECT_EQ(booklet.pages % 4, 0);
}

TEST(RulesForm, on_one_side_of_the_paper_uses_the_sheet_with_a_slit) {
  const Rooms rooms = GameWithRules::rooms(Form::Sides::one);
  EXPECT_EQ(made_of(170, "", rooms).kind, RulesForm::accordion);
  EXPECT_EQ(made_of(400, "", rooms).kind, RulesForm::eight_pages);
}

TEST(RulesForm, without_a_box_is_a_page_of_the_paper) {
  Rooms rooms = GameWithRules::rooms();
  rooms.box.reset();
  GameWithRules game(many_words(900));
  const auto leaflet = game.leaflet(rooms);
  EXPECT_EQ(leaflet.value->form.kind, RulesForm::flat);
  EXPECT_EQ(leaflet.value->form.page, rooms.paper);
  EXPECT_EQ(leaflet.value->shape.columns, 2);  // lines of 45 to 75 letters
}

TEST(RulesForm, goes_into_the_box_when_it_is_folded) {
  for (const int words : {100, 350, 750, 1500, 2500}) {
    GameWithRules game(many_words(words));
    const Form form = game.leaflet().value->form;
    EXPECT_LE(form.folded.width.value, 64.1 - play_in_box.value + 0.01) << words;
    EXPECT_LE(form.folded.height.value, 89.9 - play_in_box.value + 0.01) << words;
  }
}

TEST(RulesType, grows_into_the_room_that_is_left_and_shrinks_only_when_it_must) {
  EXPECT_NEAR(made_of(20).type, 9.5, 0.01);
  EXPECT_NEAR(made_of(20, "type = 8\n").type, 8, 0.01);
  const Made squeezed = made_of(330, "form = \"flat\"\nminimum = 5\n");
  EXPECT_LT(squeezed.type, 8);
  EXPECT_GE(squeezed.type, 5);
}

TEST(RulesType, is_told_when_it_had_to_shrink_or_was_not_enough) {
  GameWithRules shrunk(many_words(150), "[rules]\nform = \"flat\"\n");
  EXPECT_THAT(told(shrunk.leaflet().found),
              ElementsAre("game.toml:14:1: the rules are set at 7.5 pt, since at 8 pt they do not "
                          "go on a sheet that is not folded [rules.small-type]\n"
                          "hint: shorten the text, or choose a form with more pages"));
  GameWithRules long_text(many_words(900), "[rules]\nform = \"half\"\n");
  const auto made = long_text.leaflet();
  ASSERT_EQ(made.found.size(), 1U);
  EXPECT_THAT(told(made.found.front()),
              HasSubstr("game.toml:15:8: the rules need 9 pages at 6.5 pt, and a sheet folded once "
                        "has 4 [rules.too-long]"));
  EXPECT_GT(made.value->pages.size(), 4U);  // nothing is lost for who looks at it
}

TEST(RulesForm, too_large_for_the_paper_or_the_box_is_told) {
  GameWithRules wide(many_words(50), "[rules]\nform = \"accordion\"\npanels = 7\n");
  EXPECT_THAT(
      told(wide.leaflet().found),
      ElementsAre("game.toml:15:8: an accordion of 7 panels is 438 x 88 mm when it is open, "
                  "too large for A4 [rules.larger-than-sheet]\n"
                  "hint: use fewer panels, another form, or larger paper"));
  GameWithRules large(many_words(50), "[rules]\nsize = [80, 85]\n");
  EXPECT_THAT(told(large.leaflet().found),
              ElementsAre("game.toml:15:8: the folded rules are 80.0 x 85.0 mm, and the box has "
                          "64.1 x 89.9 mm [rules.larger-than-box]\n"
                          "hint: write size = [62, 88], or leave size out"));
}

TEST(RulesTable, too_wide_for_its_column_is_told_with_both_widths) {
  GameWithRules game(
      "| Supercalifragilistic | Expialidocious | Antidisestablishment | Floccinaucinihilist |\n"
      "|---|---|---|---|\n| a | b | c | d |\n");
  const Diagnostics found = game.leaflet().found;
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found.front().id, Id::rules_table_too_wide);
  EXPECT_EQ(found.front().origin.line, 1U);
}

Slab slab_of(double height, bool keeps_next = false, double gap = 0) {
  Slab slab;
  slab.height = Mm{height};
  slab.gap = Mm{gap};
  slab.keeps_next = keeps_next;
  return slab;
}

TEST(Columns, are_filled_without_parting_what_belongs_together) {
  const std::vector<Slab> slabs{slab_of(40), slab_of(40), slab_of(10, true, 5), slab_of(20)};
  const std::vector<Filled> columns = fill_columns(slabs, Mm{100});
  ASSERT_EQ(columns.size(), 2U);
  EXPECT_NEAR(columns[0].used.value, 80, 1e-9);
  EXPECT_NEAR(columns[1].used.value, 30, 1e-9);  // no gap at the top
  EXPECT_EQ(columns_for(slabs, Mm{100}), 2);
  EXPECT_EQ(columns_for({slab_of(60, true), slab_of(60, true), slab_of(60)}, Mm{100}), 3);
}

/// Lines of text in a column: their heights in order.
TEST(Columns, have_neither_orphans_nor_widows) {
  const GameWithRules game(many_words(50));
  const Manuscript manuscript = game.manuscript().value;
  Typesetter typesetter({});
  Diagnostics found;
  const Look look = look_of(game.studio(), *game.game().rules, found);
  const CardArt cards;
  const SettingWork work{game.game(), manuscript, look, cards, typesetter};
  const std::vector<Slab> slabs = slabs_of(work, {Mm{54}, Mm{80}, usual_type}).value;
  ASSERT_GT(slabs.size(), 6U);
  EXPECT_TRUE(slabs[0].keeps_next);  // the heading
  EXPECT_TRUE(slabs[1].keeps_next);  // the first line
  EXPECT_FALSE(slabs[2].keeps_next);
  EXPECT_TRUE(slabs[slabs.size() - 2].keeps_next);  // the last but one
  EXPECT_FALSE(slabs.back().keeps_next);
}

/// A long table in a column far too low for it, and a list thirty deep.
TEST(Leaflet, sets_what_is_odd_without_losing_it) {
  std::string text = "| a | b |\n|---|---|\n";
  for (int i = 0; i < 60; ++i)
    text += "| word word word word word | " + many_words(2).substr(9) + "|\n";
  for (int i = 0; i < 30; ++i)
    text += std::string(static_cast<std::size_t>(i) * 2, ' ') + "- deep\n";
  GameWithRules game(text);
  const auto made = game.leaflet();
  ASSERT_TRUE(made.value);
  for (const Scene& page : made.value->pages) {
    for (const Item& item : page.items) {
      const auto drawn = ink(item);
      if (!drawn) continue;
      EXPECT_GE(drawn->left().value, 0);
      EXPECT_LE(drawn->right().value, made.value->form.page.width.value + 0.01);
      EXPECT_LE(drawn->bottom().value, made.value->form.page.height.value + 0.01);
    }
  }
}

TEST(Leaflet, of_the_longest_text_is_set_in_bounded_time) {
  GameWithRules game(many_words(19'000));
  const auto before = std::chrono::steady_clock::now();
  const auto made = game.leaflet();
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - before;
  EXPECT_LT(took.count(), 60);
  ASSERT_EQ(made.found.size(), 1U);
  EXPECT_EQ(made.found.front().id, Id::rules_too_long);
}

}  // namespace
}  // namespace quoin::rules
