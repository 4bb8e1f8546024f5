#include "game/new_game.h"

#include <gtest/gtest.h>

#include "game/game.h"

namespace quoin::game {
namespace {

MemoryWorld world_of(const GameFolder& folder) {
  MemoryWorld world;
  for (const auto& [path, bytes] : folder) world.put(path, bytes);
  return world;
}

std::string said(const Diagnostics& found) {
  std::string all;
  for (const Diagnostic& one : found) all += to_string(one.origin) + ": " + one.message + "\n";
  return all;
}

TEST(StarterGame, reads_without_a_finding) {
  const Result<GameFolder> folder = starter_game("Day & \"Night\" \\ 夜");
  ASSERT_TRUE(folder.ok());
  const Checked<Game> read = read_game(world_of(*folder));
  EXPECT_EQ(said(read.found), "");
  EXPECT_EQ(read.value.title, "Day & \"Night\" \\ 夜");
  EXPECT_EQ(read.value.cards.size(), 8u);
  EXPECT_EQ(read.value.suits.size(), 2u);
  EXPECT_EQ(read.value.layouts.size(), 2u);
}

TEST(StarterGame, draws_only_pictures_that_it_brings) {
  const Result<GameFolder> folder = starter_game("x");
  for (const auto& [path, bytes] : *folder) {
    for (std::size_t at = bytes.find("\"art/"); at != Bytes::npos;
         at = bytes.find("\"art/", at + 1)) {
      const std::string picture = bytes.substr(at + 1, bytes.find('"', at + 1) - at - 1);
      EXPECT_TRUE(folder->contains(picture)) << path << " " << picture;
    }
  }
}

TEST(StarterGame, needs_a_title_in_utf8) {
  EXPECT_EQ(said(starter_game(" ").why()), ": the new game has no title\n");
  EXPECT_EQ(said(starter_game("K\xE4se").why()), ": the title is not UTF-8 text\n");
}

TEST(TomlText, reads_back) {
  EXPECT_EQ(toml_text("a\"b\\c\n\x01"), "\"a\\\"b\\\\c\\u000A\\u0001\"");
}

Checked<GameFolder> from(const std::vector<std::string>& files) {
  MemoryWorld world;
  for (const std::string& file : files) world.put(file, "bytes of " + file);
  return game_from_pictures(world, "Pictures", {});
}

TEST(GameFromPictures, makes_a_card_of_each_picture_in_the_order_people_count) {
  const Checked<GameFolder> made = from({"card 10.png", "card 2.PNG", "Card 1.svg"});
  EXPECT_EQ(said(made.found), "");
  EXPECT_EQ(made.value.at("cards.csv"),
            "id,name,art,copies\r\n"
            "Card-1,Card 1,art/Card-1.svg,1\r\n"
            "card-2,card 2,art/card-2.png,1\r\n"
            "card-10,card 10,art/card-10.png,1\r\n");
  EXPECT_EQ(made.value.at("art/card-2.png"), "bytes of card 2.PNG");
}

TEST(GameFromPictures, makes_a_game_that_reads_without_a_finding) {
  const Checked<GameFolder> made = from({"a.png", "Back.jpg", "sub/b.webp", "c x3.tif"});
  const Checked<Game> read = read_game(world_of(made.value));
  EXPECT_EQ(said(read.found), "");
  ASSERT_EQ(read.value.cards.size(), 3u);
  EXPECT_EQ(read.value.cards[1].id, "c");
  EXPECT_EQ(read.value.cards[1].copies, 3);
  EXPECT_EQ(read.value.card.size_name, "poker");
  for (const Card& card : read.value.cards) {
    EXPECT_EQ(read.value.layouts.at(static_cast<std::size_t>(card.back)).file.str(),
              "layouts/back.toml");
  }
}

TEST(GameFromPictures, leaves_backs_blank_when_no_picture_is_called_back) {
  const Checked<GameFolder> made = from({"a.png", "backdrop.png"});
  EXPECT_FALSE(made.value.contains("layouts/back.toml"));
  EXPECT_EQ(read_game(world_of(made.value)).value.cards.at(0).back, -1);
}

TEST(GameFromPictures, reads_copies_from_the_end_of_a_name) {
  const Checked<GameFolder> made = from({"wren x3.png", "owl x 12.png", "jay ×2.png", "tit_x4.png",
                                         "fox3.png", "x3.png", "ox x3000.png", "ox x3 b.png"});
  EXPECT_EQ(made.value.at("cards.csv"),
            "id,name,art,copies\r\n"
            "fox3,fox3,art/fox3.png,1\r\n"
            "jay,jay,art/jay.png,2\r\n"
            "owl,owl,art/owl.png,12\r\n"
            "ox-x3-b,ox x3 b,art/ox-x3-b.png,1\r\n"
            "ox-x3000,ox x3000,art/ox-x3000.png,1\r\n"
            "tit,tit,art/tit.png,4\r\n"
            "wren,wren,art/wren.png,3\r\n"
            "x3,x3,art/x3.png,1\r\n");
}

TEST(GameFromPictures, makes_ids_that_are_safe_and_told_apart) {
  const Checked<GameFolder> made =
      from({"Königin.png", "sub/königin.png", "月.png", "back.png", "sub/back.png", "a, b.png"});
  EXPECT_EQ(made.value.at("cards.csv"),
            "id,name,art,copies\r\n"
            "a-b,\"a, b\",art/a-b.png,1\r\n"
            "Koenigin,Königin,art/Koenigin.png,1\r\n"
            "back-2,back,art/back-2.png,1\r\n"
            "koenigin-2,königin,art/koenigin-2.png,1\r\n"
            "card-5,月,art/card-5.png,1\r\n");
}

TEST(GameFromPictures, mentions_other_files_and_passes_over_hidden_ones) {
  const Checked<GameFolder> made = from({"a.png", "notes.txt", ".hidden", "README"});
  EXPECT_EQ(said(made.found),
            "README: README is not a picture; no card is made of it\n"
            "notes.txt: notes.txt is not a picture; no card is made of it\n");
  EXPECT_TRUE(made.value.contains("art/a.png"));
}

TEST(GameFromPictures, leaves_pictures_where_they_lie_when_the_folder_becomes_the_game) {
  MemoryWorld world;
  for (const char* path : {"Owl x3.png", "more/Jay.svg", "back.JPG", ".cache/a.png",
                           "pack/pictures/b.png", "reprint/c.png", "{id}.png"}) {
    world.put(path, path);
  }
  const Checked<GameFolder> made =
      game_from_pictures(world, "Birds", {}, PictureFiles::where_they_lie);
  EXPECT_EQ(said(made.found), "");
  EXPECT_EQ(made.value.at("cards.csv"),
            "id,name,art,copies\r\n"
            "Jay,Jay,more/Jay.svg,1\r\n"
            "Owl,Owl,Owl x3.png,3\r\n"
            "id,{id},art/id.png,1\r\n");
  EXPECT_EQ(made.value.size(), 6U) << "five files of the game, one picture with braces";
  EXPECT_EQ(made.value.at("art/sources.csv"),
            "file,author,source,licence,changes\r\n"
            "back.JPG,,,unknown,\r\n"
            "more/Jay.svg,,,unknown,\r\n"
            "Owl x3.png,,,unknown,\r\n"
            "id.png,,,unknown,\r\n");
  for (const auto& [path, bytes] : made.value) world.put(path, bytes);
  const Checked<Game> read = read_game(world);
  EXPECT_EQ(said(read.found), "");
  EXPECT_EQ(read.value.cards.size(), 3U);
}

TEST(GameFromPictures, needs_a_picture_besides_the_back) {
  EXPECT_EQ(said(from({}).found), ": there is no picture to make a card of\n");
  const Checked<GameFolder> made = from({"back.png"});
  EXPECT_TRUE(any_errors(made.found));
  EXPECT_TRUE(made.value.empty());
}

TEST(GameFromPictures, writes_a_size_of_the_makers_own) {
  MemoryWorld world;
  world.put("a.png", "x");
  const auto size = find_size("60x90", card_sizes());
  const Checked<GameFolder> made = game_from_pictures(world, "Own size", size);
  const Checked<Game> read = read_game(world_of(made.value));
  EXPECT_EQ(said(read.found), "");
  EXPECT_EQ(read.value.card.size, (Size{Mm{60}, Mm{90}}));
  const NamedSize huge{"", {Mm{3000}, Mm{90}}, Mm{0}, ""};
  EXPECT_TRUE(any_errors(game_from_pictures(world, "Huge", huge).found));
}

}  // namespace
}  // namespace quoin::game
