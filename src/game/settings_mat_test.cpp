#include <gtest/gtest.h>

#include "game/game.h"

namespace quoin::game {
namespace {

MemoryWorld world_with_mat(const std::string& keys, const std::string& layout = "") {
  MemoryWorld world;
  world.put("game.toml", "[game]\ntitle = \"Tides\"\n\n[mat]\n" + keys);
  world.put("cards.csv", "id,name\nW-01,Wrack\n");
  const std::string name =
      "[[element]]\nid = \"name\"\nkind = \"text\"\ntext = \"{name}\"\nat = [5, 5]\n"
      "size = [50, 10]\n";
  world.put("layouts/face.toml", name);
  world.put("layouts/mat.toml", layout);
  return world;
}

Checked<Game> game_with_mat(const std::string& keys, const std::string& layout = "") {
  const MemoryWorld world = world_with_mat(keys, layout);
  return read_game(world);
}

std::string told_of_mat(const Diagnostics& found) {
  std::string all;
  for (const Diagnostic& one : found) {
    all += to_string(one.origin) + ": " + std::string(facts(one.id).name) + ": " + one.message;
    for (const std::string& hint : one.hints) all += "; " + hint;
    all += "\n";
  }
  return all;
}

TEST(MatSettings, need_nothing_but_the_heading) {
  const auto read = game_with_mat("");
  ASSERT_TRUE(read.value.mat);
  const MatWishes& mat = *read.value.mat;
  EXPECT_EQ(mat.size, (Size{Mm{594}, Mm{420}}));
  EXPECT_EQ(mat.size_name, "A2");
  EXPECT_EQ(mat.material, MatMaterial::paper);
  EXPECT_FALSE(mat.bleed);
  EXPECT_EQ(mat.safe, Mm{8});
  EXPECT_EQ(mat.hem, Mm{});
  EXPECT_EQ(mat.shrink_across, 0);
  EXPECT_EQ(mat.viewing_distance, Mm{600});
  EXPECT_EQ(mat.overlap, Mm{8});
  ASSERT_NE(mat_layout(read.value), nullptr);
  EXPECT_EQ(mat_layout(read.value)->file.str(), "layouts/mat.toml");
  EXPECT_EQ(told_of_mat(read.found), "");
}

TEST(MatSettings, are_read_for_cloth_with_its_hem_and_shrinkage) {
  const auto read = game_with_mat(
      "size = \"700x500\"\nmaterial = \"cloth\"\nhem = 25\nshrinkage = [3, 2]\nbleed = 4\n"
      "safe = 12\nviewing-distance = 750\noverlap = 10\n");
  const MatWishes& mat = *read.value.mat;
  EXPECT_EQ(mat.size, (Size{Mm{700}, Mm{500}}));
  EXPECT_EQ(mat.size_name, "");
  EXPECT_EQ(mat.material, MatMaterial::cloth);
  EXPECT_EQ(mat.hem, Mm{25});
  EXPECT_DOUBLE_EQ(mat.shrink_across, 0.03);
  EXPECT_DOUBLE_EQ(mat.shrink_down, 0.02);
  EXPECT_EQ(mat.bleed, Mm{4});
  EXPECT_EQ(mat.safe, Mm{12});
  EXPECT_EQ(mat.viewing_distance, Mm{750});
  EXPECT_EQ(mat.overlap, Mm{10});
}

TEST(MatSettings, turn_named_sizes_and_leave_others_as_they_are_written) {
  const auto size = [](const std::string& keys) { return game_with_mat(keys).value.mat->size; };
  EXPECT_EQ(size("size = \"A3\""), (Size{Mm{420}, Mm{297}}));
  EXPECT_EQ(size("size = \"A3\"\norientation = \"portrait\""), (Size{Mm{297}, Mm{420}}));
  EXPECT_EQ(size("size = \"300x500\""), (Size{Mm{300}, Mm{500}}));
  EXPECT_EQ(size("size = \"300x500\"\norientation = \"landscape\""), (Size{Mm{500}, Mm{300}}));
}

TEST(MatSettings, forget_hem_and_shrinkage_of_paper) {
  const auto read = game_with_mat("hem = 30\nshrinkage = [3, 3]\n");
  EXPECT_EQ(read.value.mat->hem, Mm{});
  EXPECT_EQ(read.value.mat->shrink_down, 0);
}

TEST(MatSettings, refuse_sizes_that_no_table_holds) {
  EXPECT_EQ(
      told_of_mat(game_with_mat("size = \"5000x5000\"").found),
      "game.toml:5:8: mat.impossible-size: the mat is 5000 x 5000 mm; each side can be 100 to "
      "2000 mm; write size = \"A2\", or width and height in mm: \"600x400\"\n");
  EXPECT_EQ(told_of_mat(game_with_mat("size = \"80x400\"").found),
            "game.toml:5:8: mat.impossible-size: the mat is 80 x 400 mm; each side can be 100 to "
            "2000 mm; write size = \"A2\", or width and height in mm: \"600x400\"\n");
  EXPECT_EQ(game_with_mat("size = \"1e300x1\"").found.size(), 1U);
  EXPECT_EQ(game_with_mat("size = \"A2x\"").found.size(), 1U);
}

TEST(MatSettings, a_game_without_the_heading_has_none) {
  MemoryWorld world = world_with_mat("");
  world.put("game.toml", "[game]\ntitle = \"Tides\"\n");
  const auto read = read_game(world);
  EXPECT_FALSE(read.value.mat);
  EXPECT_EQ(mat_layout(read.value), nullptr);
}

TEST(MatLayout, that_is_missing_is_told_where_it_is_asked_for) {
  MemoryWorld world = world_with_mat("layout = \"layouts/matt.toml\"\n");
  const auto read = read_game(world);
  EXPECT_EQ(mat_layout(read.value), nullptr);
  ASSERT_FALSE(read.found.empty());
  EXPECT_EQ(facts(read.found.front().id).name, "game.missing-file");
  EXPECT_EQ(to_string(read.found.front().origin), "game.toml:5:10");
}

TEST(MatLayout, knows_places_and_no_panels) {
  const std::string place = "[[element]]\nid = \"draw\"\nkind = \"place\"\nat = [10, 10]\n";
  EXPECT_EQ(told_of_mat(game_with_mat("", place).found), "");
  EXPECT_EQ(told_of_mat(game_with_mat("", place + "panel = \"front\"\n").found).substr(0, 38),
            "layouts/mat.toml:5:1: game.unknown-key");
}

TEST(MatLayout, is_the_only_one_with_places) {
  MemoryWorld world = world_with_mat("");
  world.put("layouts/face.toml",
            "[[element]]\nid = \"pile\"\nkind = \"place\"\nat = [1, 1]\nlabel = \"{name}\"\n");
  EXPECT_EQ(
      told_of_mat(read_game(world).found),
      "layouts/face.toml:1:1: mat.place-elsewhere: pile is a place for cards, but this layout "
      "is not the mat's; leave it out, or name the layout under [mat] as its layout\n");
}

TEST(MatLayout, has_no_card_to_take_words_from) {
  const std::string words =
      "[[element]]\nid = \"head\"\nkind = \"text\"\ntext = \"{name} {game.title}\"\nat = [1, 1]\n"
      "size = [90, 9]\n";
  EXPECT_EQ(
      told_of_mat(game_with_mat("", words).found),
      "layouts/mat.toml:4:9: game.unknown-column: there is no \"name\" on the mat; on the mat "
      "there are box.cards, game.author, game.language, game.licence, game.subtitle, "
      "game.title, game.version and game.website\n");
}

}  // namespace
}  // namespace quoin::game
