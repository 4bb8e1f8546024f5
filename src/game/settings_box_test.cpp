#include <gtest/gtest.h>

#include "game/game.h"

namespace quoin::game {
namespace {

Checked<Game> game_with_box(const std::string& keys) {
  MemoryWorld world;
  world.put("game.toml", "[game]\ntitle = \"Tides\"\n\n[box]\n" + keys);
  world.put("cards.csv", "id,name\nW-01,Wrack\n");
  world.put("layouts/face.toml",
            "[[elements]]\nid = \"name\"\nkind = \"text\"\ntext = \"{name}\"\n"
            "box = [5, 5, 50, 10]\n");
  return read_game(world);
}

TEST(BoxSettings, need_nothing_but_the_heading) {
  const auto read = game_with_box("kind = \"tuck\"\n");
  ASSERT_TRUE(read.value.box);
  const BoxWishes& box = *read.value.box;
  EXPECT_EQ(box.kind, "tuck");
  EXPECT_EQ(box.ends, Ends::reverse);
  EXPECT_EQ(box.locks, Locks::slits);
  EXPECT_EQ(box.clearance, (std::array{Mm{0.6}, Mm{1}, Mm{0.6}}));
  EXPECT_EQ(box.slack, Mm{3});
  EXPECT_EQ(box.parts, NetParts::automatic);
  EXPECT_EQ(box.lines, NetLines::front);
  EXPECT_FALSE(box.inside || box.tuck || box.pile || box.sleeves || box.board.caliper);
  EXPECT_EQ(to_string(box.place("tuck")), to_string(box.origin));
  EXPECT_EQ(box.origin.line, 4U);
}

TEST(BoxSettings, are_read_with_their_places) {
  const auto read = game_with_box(
      "kind = \"sleeve\"\nends = \"straight\"\nlocks = \"none\"\nclass = \"folding-boxboard\"\n"
      "grammage = 300\npile = [60, 19.4]\nsleeves = [66, 91, 0.12]\ninside = [64.5, 90.4, 17.2]\n"
      "notch = 0\nfit = 0.4\nparts = \"two\"\nlines = \"back\"\n");
  ASSERT_TRUE(read.value.box);
  const BoxWishes& box = *read.value.box;
  EXPECT_EQ(box.kind, "sleeve");
  EXPECT_EQ(box.ends, Ends::straight);
  EXPECT_EQ(box.locks, Locks::none);
  EXPECT_EQ(box.board.paper_class, "folding-boxboard");
  EXPECT_EQ(box.board.grammage, 300);
  EXPECT_EQ(box.pile->cards, 60);
  EXPECT_EQ(box.pile->height, Mm{19.4});
  EXPECT_EQ((*box.sleeves)[2], Mm{0.12});
  EXPECT_EQ((*box.inside)[1], Mm{90.4});
  EXPECT_EQ(box.notch, Mm{0});
  EXPECT_EQ(box.parts, NetParts::two);
  EXPECT_EQ(box.lines, NetLines::back);
  EXPECT_EQ(to_string(box.place("notch")), "game.toml:13:9");
}

TEST(BoxSettings, of_an_unknown_kind_name_the_known_ones) {
  const auto read = game_with_box("kind = \"tuk\"\n");
  ASSERT_FALSE(read.found.empty());
  const Diagnostic& first = read.found.front();
  EXPECT_EQ(first.id, Id::game_unknown_word);
  EXPECT_EQ(to_string(first.origin), "game.toml:5:8");
}

TEST(BoxSettings, of_a_pile_of_no_cards_say_what_a_pile_begins_with) {
  const auto read = game_with_box("pile = [0.5, 19.4]\n");
  ASSERT_FALSE(read.found.empty());
  EXPECT_EQ(to_string(read.found.front().origin), "game.toml:5:9");
  EXPECT_EQ(read.found.front().message,
            "pile begins with 0.5; it begins with a whole number of cards, 1 or more");
  EXPECT_FALSE(read.value.box->pile);
}

TEST(BoxSettings, read_the_layout_and_its_bleed) {
  MemoryWorld world;
  world.put("game.toml",
            "[game]\ntitle = \"Tides\"\n[box]\nlayout = \"layouts/box.toml\"\nbleed = 2\n"
            "[decks.main]\n[[layouts]]\nfile = \"layouts/face.toml\"\n");
  world.put("cards.csv", "id,copies\nW-01,3\n");
  world.put("layouts/face.toml",
            "[[element]]\nid = \"id\"\nkind = \"text\"\ntext = \"{id}\"\nat = [5, 5]\n"
            "size = [9, 9]\n");
  world.put("layouts/box.toml",
            "[[element]]\nid = \"n\"\nkind = \"text\"\npanel = \"front\"\n"
            "text = \"{box.cards}\"\n");
  const auto read = read_game(world);
  EXPECT_TRUE(read.found.empty()) << read.found.front().message;
  ASSERT_NE(box_layout(read.value), nullptr);
  EXPECT_EQ(box_layout(read.value)->elements.at(0).id, "n");
  EXPECT_EQ(read.value.box->bleed, Mm{2});
  EXPECT_EQ(look_up(read.value, Card{}, "box.cards")->text, "3");
}

TEST(BoxSettings, are_none_without_the_heading) {
  MemoryWorld world;
  world.put("game.toml", "[game]\ntitle = \"Tides\"\n");
  EXPECT_FALSE(read_game(world).value.box);
}

}  // namespace
}  // namespace quoin::game
