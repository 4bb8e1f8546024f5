#include <gtest/gtest.h>

#include "game/game.h"
#include "game/placeholders.h"
#include "game/schema.h"

namespace quoin::game {
namespace {

/// Two suits, two decks, one layout and a card whose cells stand in line 2.
Game small_game() {
  Game game;
  const FileName csv("cards.csv");
  for (const char* name : {"id", "name", "suit", "rank"}) game.columns.push_back({name, {}});
  game.suits.push_back(
      {"sun",
       {},
       {{"colour", {"#b3541e", {FileName("game.toml"), 9, 10, 9}}}, {"tide", {"high", {}}}}});
  game.suits.push_back({"moon", {}, {{"phase", {"new", {}}}}});
  game.decks.push_back({"main", "Tide deck", {}, "", {}});
  game.facts["title"] = {"Tidewrack", {}};
  game.facts["author"] = {"", {}};
  game.layouts.push_back({FileName("layouts/face.toml"), {}, {}});
  Card card;
  card.id = "S-1";
  card.number = 7;
  card.copies = 3;
  card.suit = "sun";
  card.deck = "main";
  card.layout = 0;
  card.cells = {{"S-1", {csv, 2, 1, 3}},
                {"Noon", {csv, 2, 5, 4}},
                {"sun", {csv, 2, 10, 3}},
                {" ", {csv, 2, 14, 1}}};
  game.cards.push_back(card);
  return game;
}

class Placeholders : public testing::Test {
 protected:
  Filled filled(std::string_view text) {
    unknown.clear();
    return fill(game, game.cards[0], text, unknown);
  }
  bool holds_for(const std::string& column, std::vector<std::string> values) {
    return holds(game, game.cards[0], {{column, std::move(values), {}}});
  }

  Game game = small_game();
  std::vector<std::string> unknown;
};

TEST_F(Placeholders, put_columns_suits_decks_and_facts_in_place) {
  EXPECT_EQ(filled("{name} of {suit.name}s, {suit.colour}").text, "Noon of suns, #b3541e");
  EXPECT_EQ(filled("{game.title}/{deck.name}/{layout}").text, "Tidewrack/Tide deck/face");
  EXPECT_EQ(filled("{card.number} x{card.copies} { name }").text, "7 x3 Noon");
  EXPECT_TRUE(unknown.empty());
}

TEST_F(Placeholders, point_at_the_cell_when_they_are_all_of_a_text) {
  EXPECT_EQ(filled("{name}").source, (Origin{FileName("cards.csv"), 2, 5, 4}));
  EXPECT_EQ(filled("{suit.colour}").source, (Origin{FileName("game.toml"), 9, 10, 9}));
  EXPECT_EQ(filled("art/{name}").source, std::nullopt);
  EXPECT_EQ(filled("plain").source, std::nullopt);
}

TEST_F(Placeholders, are_empty_for_keys_that_only_another_suit_has) {
  EXPECT_EQ(filled("<{suit.phase}>").text, "<>");
  EXPECT_EQ(filled("<{suit.icon}>").text, "<>");
  EXPECT_TRUE(unknown.empty());
}

TEST_F(Placeholders, of_unknown_names_stay_as_written_and_are_named) {
  EXPECT_EQ(filled("{nam} {suit.x} {game.x} {name").text, "{nam} {suit.x} {game.x} {name");
  EXPECT_EQ(unknown, (std::vector<std::string>{"nam", "suit.x", "game.x"}));
}

TEST_F(Placeholders, leave_doubled_braces_as_single_ones) {
  EXPECT_EQ(filled("{{name}} } {{{name}}}").text, "{name} } {Noon}");
  EXPECT_TRUE(unknown.empty());
}

TEST_F(Placeholders, are_not_looked_for_in_what_they_put_in_place) {
  game.cards[0].cells[1].text = "{suit}";
  EXPECT_EQ(filled("{name}").text, "{suit}");
}

TEST_F(Placeholders, are_told_from_doubled_braces) {
  EXPECT_TRUE(has_placeholder("a {b}"));
  EXPECT_TRUE(has_placeholder("{{{b}}}"));
  EXPECT_FALSE(has_placeholder("{{b}}"));
  EXPECT_FALSE(has_placeholder("{b"));
  EXPECT_FALSE(has_placeholder("b}"));
}

TEST_F(Placeholders, know_the_places_of_their_parts) {
  const std::vector<TextPart> parts = parts_of("é{{{ a }b{c");
  ASSERT_EQ(parts.size(), 4u);
  EXPECT_EQ(parts[0].text, "é{");
  EXPECT_EQ(parts[1].text, "a");
  EXPECT_EQ(parts[1].offset, 4u);
  EXPECT_EQ(parts[1].length, 5u);
  EXPECT_EQ(parts[2].text, "b");
  EXPECT_EQ(parts[3].kind, TextPart::Kind::open_brace);
}

TEST_F(Placeholders, ask_conditions_of_columns_suits_decks_and_layouts) {
  EXPECT_TRUE(holds_for("suit", {"moon", "sun"}));
  EXPECT_FALSE(holds_for("suit", {"moon"}));
  EXPECT_TRUE(holds_for("suit.tide", {"high"}));
  EXPECT_TRUE(holds_for("deck", {"main"}));
  EXPECT_TRUE(holds_for("layout", {"face"}));
  EXPECT_TRUE(holds_for("layout", {"layouts/face.toml"}));
}

TEST_F(Placeholders, ask_conditions_of_empty_and_filled_cells) {
  EXPECT_TRUE(holds_for("rank", {""}));
  EXPECT_FALSE(holds_for("rank", {"*"}));
  EXPECT_TRUE(holds_for("name", {"*"}));
  EXPECT_TRUE(holds_for("suit.phase", {""}));
}

TEST_F(Placeholders, need_all_conditions_to_hold) {
  const Condition yes{"name", {"Noon"}, {}}, no{"name", {"Dusk"}, {}};
  EXPECT_TRUE(holds(game, game.cards[0], {yes, yes}));
  EXPECT_FALSE(holds(game, game.cards[0], {yes, no}));
  EXPECT_TRUE(holds(game, game.cards[0], {}));
}

}  // namespace
}  // namespace quoin::game
