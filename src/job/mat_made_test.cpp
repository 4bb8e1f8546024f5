#include "job/mat_made.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>

namespace quoin::job {
namespace {
namespace fs = std::filesystem;
using testing::Contains;
using testing::HasSubstr;
using testing::Not;

class Steady : public Watcher {
 public:
  bool at(std::string_view, int, int) override { return true; }
};

/// A game of two cards with a mat of 300 x 200 mm.
MemoryWorld game_with_mat(const std::string& keys) {
  MemoryWorld world;
  world.put("game.toml",
            "[game]\ntitle = \"Small\"\n[card]\nsize = \"poker\"\n[[layouts]]\n"
            "file = \"layouts/face.toml\"\n[mat]\nsize = \"300x200\"\n" +
                keys);
  const std::string ground =
      "[[element]]\nid = \"ground\"\nkind = \"shape\"\ninset = \"bleed\"\nfill = \"#e8e0d0\"\n";
  world.put("layouts/face.toml", ground);
  world.put("layouts/mat.toml",
            ground + "[[element]]\nid = \"row\"\nkind = \"place\"\narrange = \"row\"\ninset = 0\n");
  world.put("cards.csv", "id\nadder\nboar\n");
  return world;
}

class MatOfPack : public testing::Test {
 protected:
  void SetUp() override {
    std::string pattern = (fs::temp_directory_path() / "quoin-mat-XXXXXX").string();
    root_ = ::mkdtemp(pattern.data());
    wishes_.out = (root_ / "pack").string();
  }
  void TearDown() override { fs::remove_all(root_); }

  static std::vector<std::string> mat_files(const Outcome& outcome) {
    std::vector<std::string> names;
    for (const pack::Staging::File& file : outcome.files) {
      if (file.path.find("mat") != std::string::npos) names.push_back(file.path);
    }
    std::sort(names.begin(), names.end());
    return names;
  }
  static std::vector<std::string> told(const Outcome& outcome) {
    std::vector<std::string> names;
    for (const Diagnostic& one : outcome.found) names.emplace_back(facts(one.id).name);
    return names;
  }

  fs::path root_;
  Wishes wishes_;
  Steady steady_;
};

TEST_F(MatOfPack, is_written_for_home_shop_and_as_a_picture) {
  const Outcome outcome = make(game_with_mat(""), wishes_, steady_);
  ASSERT_TRUE(outcome.published);
  EXPECT_EQ(mat_files(outcome),
            (std::vector<std::string>{"home/mat.pdf", "pictures/mat.png", "shop/mat.pdf"}));
  ASSERT_TRUE(outcome.mat_tiling);
  EXPECT_EQ(outcome.mat_tiling->tiles.size(), 2U);
  EXPECT_THAT(report(outcome), HasSubstr("\"mat\": {\n    \"size\": {\n      \"width_mm\": 300.0,\n"
                                         "      \"height_mm\": 200.0"));
}

TEST_F(MatOfPack, is_counted_in_what_the_game_takes) {
  wishes_.decks = 2;
  const Outcome outcome = check(game_with_mat(""), wishes_, steady_);
  const auto run =
      std::find_if(outcome.making->costs.runs.begin(), outcome.making->costs.runs.end(),
                   [](const making::RunCosts& one) { return one.decks == 2; });
  ASSERT_NE(run, outcome.making->costs.runs.end());
  EXPECT_EQ(run->stuff.mat_sheets, 4);
  EXPECT_GT(run->work.mat, 0);
  // #e8e0d0 over 306 x 206 mm, twice: its plates by hand, each less the black that all have.
  const double sides = 2 * 306.0 * 206 / (210 * 297);
  const double of_cards = 4 * 69.5 * 94.9 / (210 * 297);  // two cards a deck, bleed and all
  EXPECT_NEAR(run->stuff.ink[2], (sides + of_cards) * (0xe8 - 0xd0) / 255.0, 0.02);
}

TEST_F(MatOfPack, is_not_made_for_a_reprint) {
  wishes_.only = {"adder"};
  const Outcome outcome = make(game_with_mat(""), wishes_, steady_);
  ASSERT_TRUE(outcome.published);
  EXPECT_TRUE(mat_files(outcome).empty());
}

TEST_F(MatOfPack, is_left_to_the_shop_when_the_sheets_are_too_small) {
  const Outcome outcome =
      make(game_with_mat("overlap = 50\n[printer]\nmargin = 60\n[sheets]\npaper = \"A4\"\n"),
           wishes_, steady_);
  EXPECT_THAT(told(outcome), Contains("mat.sheet-too-small"));
  EXPECT_THAT(mat_files(outcome), Not(Contains("home/mat.pdf")));
}

TEST_F(MatOfPack, is_the_same_to_the_byte_from_the_cache) {
  wishes_.cache_folder = (root_ / "cache").string();
  fs::create_directories(wishes_.cache_folder);
  const auto picture = [&] {
    const Outcome outcome = make(game_with_mat(""), wishes_, steady_);
    EXPECT_TRUE(outcome.published);
    return real_world(wishes_.out)->read("pictures/mat.png", std::size_t{1} << 24).bytes;
  };
  const auto first = picture(), second = picture();
  ASSERT_TRUE(first && second);
  EXPECT_EQ(*first, *second);
}

TEST_F(MatOfPack, that_nobody_can_make_is_told_and_writes_nothing) {
  MemoryWorld world = game_with_mat("");
  world.put("game.toml",
            "[game]\ntitle = \"Small\"\n[[layouts]]\nfile = \"layouts/face.toml\"\n[mat]\n"
            "size = \"5000x5000\"\n");
  const Outcome outcome = make(world, wishes_, steady_);
  EXPECT_FALSE(outcome.published);
  EXPECT_THAT(told(outcome), Contains("mat.impossible-size"));
}

}  // namespace
}  // namespace quoin::job
