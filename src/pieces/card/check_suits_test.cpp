#include "pieces/card/check_suits.h"

#include <gtest/gtest.h>

#include "pieces/card/inspect_fixture.h"
#include "pieces/card/inspect_totals.h"

namespace quoin::pieces {
namespace {

SuitLook suit(const char* name, const char* hue, const char* icon = "") {
  return {name, Origin{FileName("game.toml"), 12, 1, 0}, colour(hue), icon,
          SuitLook::Source::declared};
}

constexpr SuitCues nothing{};
constexpr SuitCues icons{SuitCues::Printed::no, SuitCues::Printed::yes};
constexpr SuitCues names{SuitCues::Printed::yes, SuitCues::Printed::no};
const game::Limits usual;

TEST(SuitsAlike, tells_a_pair_that_red_green_blindness_merges) {
  EXPECT_EQ(whole(check_suits({suit("Rust", "#b0652a"), suit("Moss", "#7a7a2a")}, nothing, usual)),
            "warning suits.look-alike game.toml:12:1 on /\n"
            "the colours of Rust and Moss differ by 3.2 for deutan eyes; 10 tells suits apart\n"
            "#b0652a and #7a7a2a; normal 25.3, protan 3.2, deutan 3.2, tritan 20.0 (CIEDE2000)\n"
            "hint: make Rust #8a4508 instead of #b0652a, or print {suit.icon} or {suit.name} on "
            "each card\n");
}

TEST(SuitsAlike, tells_a_pair_that_is_close_for_everybody) {
  const Diagnostics found =
      check_suits({suit("Reed", "#50a050"), suit("Weed", "#52a152")}, nothing, usual);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].severity, Severity::warning);
}

TEST(SuitsAlike, lets_colours_that_all_eyes_tell_apart_pass) {
  EXPECT_TRUE(
      check_suits({suit("Ink", "#203040"), suit("Straw", "#e6b650"), suit("Paper", "#f8f4ec")},
                  nothing, usual)
          .empty());
}

TEST(SuitsAlike, is_a_note_when_icons_differ_and_are_printed) {
  const Diagnostics found = check_suits(
      {suit("Rust", "#b0652a", "rust.svg"), suit("Moss", "#7a7a2a", "moss.svg")}, icons, usual);
  EXPECT_EQ(whole(found),
            "note suits.look-alike game.toml:12:1 on /\n"
            "the colours of Rust and Moss differ by 3.2 for deutan eyes; 10 tells suits apart\n"
            "#b0652a and #7a7a2a; normal 25.3, protan 3.2, deutan 3.2, tritan 20.0 (CIEDE2000)\n"
            "their icons are printed too and still tell them apart\n"
            "hint: make Rust #8a4508 instead of #b0652a\n");
}

TEST(SuitsAlike, stays_a_warning_when_the_icon_is_one_file_or_not_printed) {
  const SuitLook rust = suit("Rust", "#b0652a", "a.svg"), moss = suit("Moss", "#7a7a2a", "a.svg");
  EXPECT_EQ(check_suits({rust, moss}, icons, usual).at(0).severity, Severity::warning);
  const SuitLook other = suit("Moss", "#7a7a2a", "b.svg");
  EXPECT_EQ(check_suits({rust, other}, nothing, usual).at(0).severity, Severity::warning);
}

TEST(SuitsAlike, is_a_note_when_names_are_printed) {
  EXPECT_EQ(check_suits({suit("Rust", "#b0652a"), suit("Moss", "#7a7a2a")}, names, usual)
                .at(0)
                .details.at(1),
            "their names are printed too and still tell them apart");
}

TEST(SuitsAlike, obeys_the_limit_of_the_game) {
  game::Limits lax;
  lax.suit_difference = 2;
  EXPECT_TRUE(
      check_suits({suit("Rust", "#b0652a"), suit("Moss", "#7a7a2a")}, nothing, lax).empty());
}

game::Game small_game() {
  game::Game game;
  for (const char* id : {"rust", "moss", "idle"}) {
    game::Suit made;
    made.id = id;
    game.suits.push_back(made);
  }
  game.suits[0].values["name"] = {"Rust", {}};
  game.suits[0].values["colour"] = {"#b0652a", Origin{FileName("game.toml"), 20, 10, 0}};
  game.decks.push_back({"main", "", {}, "", {}});
  for (const char* id : {"rust", "moss", ""}) {
    game::Card card;
    card.id = id;
    card.suit = id;
    card.deck = "main";
    card.copies = 2;
    game.cards.push_back(card);
  }
  return game;
}

TEST(SuitLooks, take_declared_colours_then_measured_ones_and_only_suits_in_use) {
  const auto looks = suit_looks(small_game(), {{"rust", colour("#b0652a")}},
                                {{"rust", black}, {"moss", colour("#7a7a2a")}, {"idle", black}});
  ASSERT_EQ(looks.size(), 2U);
  EXPECT_EQ(looks[0].name, "Rust");
  EXPECT_EQ(looks[0].colour, colour("#b0652a"));
  EXPECT_EQ(looks[0].origin.line, 20U);
  EXPECT_EQ(looks[1].name, "moss");
  EXPECT_EQ(looks[1].source, SuitLook::Source::measured);
}

TEST(SuitCuesOfALayout, are_found_in_groups_too) {
  game::Game game;
  EXPECT_EQ(suit_cues(game).icons, SuitCues::Printed::no);
  game::Element inner;
  inner.properties.push_back({"picture", {}, {{}, std::string("art/{suit.icon}")}});
  game::Element outer;
  outer.children.push_back(inner);
  game::Layout layout;
  layout.elements.push_back(outer);
  game.layouts.push_back(layout);
  EXPECT_EQ(suit_cues(game).icons, SuitCues::Printed::yes);
  EXPECT_EQ(suit_cues(game).names, SuitCues::Printed::no);
}

TEST(CardTotals, count_copies_by_suit_and_deck) {
  const CardTotals totals = card_totals(small_game());
  EXPECT_EQ(totals.drawings, 3);
  EXPECT_EQ(totals.cards, 6);
  using Count = std::pair<std::string, int>;
  EXPECT_EQ(totals.by_suit, (std::vector<Count>{{"rust", 2}, {"moss", 2}, {"idle", 0}, {"", 2}}));
  EXPECT_EQ(totals.by_deck, (std::vector<Count>{{"main", 6}}));
}

class MainColour : public ::testing::Test, protected DrawnFace {
 protected:
  SuitColours colours;
  void add_card(const std::string& suit_id, const char* hue) {
    scene.items.clear();
    panel("paper", bleed_box, colour("#30a0d0"));  // what all suits share
    panel("band", box(0, 0, 63.5, 12), colour(hue));
    colours.add(suit_id, look());
  }
};

TEST_F(MainColour, is_what_a_suit_does_not_share_with_the_others) {
  add_card("rust", "#b0652a");
  add_card("moss", "#2a7a3a");
  const auto found = colours.main_colours();
  ASSERT_EQ(found.size(), 2U);
  EXPECT_LT(ciede2000(to_lab(found.at("rust")), to_lab(colour("#b0652a"))), 4);
  EXPECT_LT(ciede2000(to_lab(found.at("moss")), to_lab(colour("#2a7a3a"))), 4);
}

TEST_F(MainColour, is_the_same_for_suits_that_look_the_same) {
  add_card("rust", "#b0652a");
  add_card("moss", "#b0652a");
  const auto found = colours.main_colours();
  ASSERT_EQ(found.size(), 2U);
  EXPECT_EQ(found.at("rust"), found.at("moss"));
}

TEST_F(MainColour, is_nothing_for_grey_cards_and_cards_without_a_suit) {
  panel("paper", bleed_box, colour("#909090"));
  colours.add("slate", look());
  colours.add("", look());
  EXPECT_TRUE(colours.main_colours().empty());
}

}  // namespace
}  // namespace quoin::pieces
