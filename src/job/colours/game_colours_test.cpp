#include "job/colours/game_colours.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "formats/png/png.h"

namespace quoin::job {
namespace {
namespace fs = std::filesystem;
using testing::ElementsAre;
using testing::HasSubstr;

class EvenCalm : public Watcher {
 public:
  bool at(std::string_view, int, int) override { return true; }
};

/// Half of one colour, half of another.
Bytes two_colours(std::uint32_t left, std::uint32_t right) {
  Raster raster{40, 40, {}};
  for (int i = 0; i < 1600; ++i) raster.pixels.push_back(i % 40 < 20 ? left : right);
  return write_png(raster, 96);
}
constexpr std::uint32_t sand = 0xFFF4E3C1, deep = 0xFF20505A, rust = 0xFFB03A2E;

class GameColours : public testing::Test {
 protected:
  void SetUp() override {
    std::string pattern = (fs::temp_directory_path() / "quoin-colours-XXXXXX").string();
    root_ = ::mkdtemp(pattern.data());
    put_file(
        "game.toml",
        "[game]\ntitle = \"Reef\"\n[card]\nsize = \"poker\"\n\n[colours]\nsand = \"#f4e3c1\"  # of "
        "the beach\n\n[[layouts]]\nfile = \"layouts/face.toml\"\n");
    put_file(
        "layouts/face.toml",
        "[[element]]\nid = \"art\"\nkind = \"picture\"\npicture = \"art/{id}.png\"\ninset = 0\n");
    put_file("cards.csv", "id\ncrab\n");
    put_file("art/crab.png", two_colours(sand, deep));
    put_file("art/clam.png", two_colours(sand, rust));
  }
  void TearDown() override { fs::remove_all(root_); }

  void put_file(const std::string& path, const Bytes& bytes) const {
    fs::create_directories((root_ / path).parent_path());
    std::ofstream(root_ / path, std::ios::binary) << bytes;
  }
  [[nodiscard]] std::string text(const std::string& path) const {
    std::ifstream in(root_ / path, std::ios::binary);
    std::ostringstream all;
    all << in.rdbuf();
    return all.str();
  }
  [[nodiscard]] std::string at(const std::string& path) const { return (root_ / path).string(); }
  static std::vector<std::string> told(const std::vector<PaletteColour>& colours) {
    std::vector<std::string> words;
    for (const PaletteColour& one : colours)
      words.push_back(one.name + " " + to_string(one.colour));
    return words;
  }

  fs::path root_;
  EvenCalm calm_;
};

TEST_F(GameColours, are_found_in_files_together_and_untagged_ones_are_told) {
  const FoundPalette palette = palette_of_files({at("art/crab.png"), at("art/clam.png")}, {}, {});
  ASSERT_EQ(palette.colours.size(), 3U);
  EXPECT_EQ(to_string(palette.colours[0].colour), "#f4e3c1");
  EXPECT_NEAR(palette.colours[0].share, 0.5, 1e-9);
  EXPECT_EQ(palette.untagged.size(), 2U);
  EXPECT_TRUE(palette.found.empty());
}

TEST_F(GameColours, of_a_game_are_those_of_what_it_shows_under_its_own_names) {
  const FoundPalette palette = palette_of_game(root_.string(), {}, calm_);
  EXPECT_THAT(told(palette.colours),
              testing::UnorderedElementsAre("sand #f4e3c1", HasSubstr("#20505a")));
}

TEST_F(GameColours, are_written_into_the_game_once_and_what_stands_there_stays) {
  const FoundPalette palette = palette_of_files({at("art/crab.png"), at("art/clam.png")}, {},
                                                {{*parse_colour("#f4e3c1"), "sand", 0}});
  const TakenColours taken = take_colours(root_.string(), palette.colours);
  ASSERT_TRUE(taken.done);
  EXPECT_EQ(taken.added.size(), 2U);
  EXPECT_THAT(told(taken.there), ElementsAre("sand #f4e3c1"));
  EXPECT_THAT(text("game.toml"), HasSubstr("sand = \"#f4e3c1\"  # of the beach\n"));
  EXPECT_THAT(text("game.toml"), HasSubstr(" = \"#20505a\"\n"));
  const std::string before = text("game.toml");
  const TakenColours again = take_colours(root_.string(), palette.colours);
  EXPECT_TRUE(again.done);
  EXPECT_TRUE(again.added.empty());
  EXPECT_EQ(text("game.toml"), before);
}

TEST_F(GameColours, are_never_written_over_one_that_has_the_name) {
  const std::string with_names = [&] {
    std::string all = text("game.toml");
    const std::string beach = "# of the beach\n";
    return all.insert(all.find(beach) + beach.size(),
                      "deep = \"#20505a80\"\nrust = \"#101840\"  # night\n");
  }();
  put_file("game.toml", with_names);
  const TakenColours taken = take_colours(
      root_.string(),
      {{*parse_colour("#20505a"), "deep", 0.5}, {*parse_colour("#b03a2e"), "rust", 0.2}});
  ASSERT_TRUE(taken.done);
  EXPECT_THAT(told(taken.added), ElementsAre("deep-2 #20505a", "rust-2 #b03a2e"));
  EXPECT_THAT(text("game.toml"), HasSubstr("deep = \"#20505a80\"\nrust = \"#101840\"  # night\n"));
  EXPECT_THAT(text("game.toml"), HasSubstr("rust-2 = \"#b03a2e\"\n"));
}

TEST_F(GameColours, of_two_pictures_with_one_name_go_to_the_first_and_the_other_is_told) {
  put_file("more/crab.png", two_colours(sand, deep));
  RecolourOrder order;
  order.pictures = {at("art/crab.png"), at("more/crab.png")};
  order.palette = {*parse_colour("#1c5a66")};
  order.out = at("new");
  const auto made = recolour_pictures(order, calm_);
  EXPECT_TRUE(made[0].written);
  EXPECT_FALSE(made[1].written);
  EXPECT_EQ(made[1].found.at(0).id, Id::trace_file_there);
}

TEST_F(GameColours, say_what_has_none) {
  put_file("art/nothing.png", write_png(Raster{30, 30, std::vector<std::uint32_t>(900, 0)}, 96));
  const FoundPalette palette =
      palette_of_files({at("art/nothing.png"), at("art/missing.png")}, {}, {});
  EXPECT_TRUE(palette.colours.empty());
  ASSERT_EQ(palette.found.size(), 2U);
  EXPECT_EQ(palette.found[0].id, Id::palette_no_colours);
  EXPECT_EQ(palette.found[1].id, Id::picture_missing);
}

TEST_F(GameColours, pull_pictures_beside_themselves_and_never_over_a_file) {
  put_file("art/crab.svg",
           "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"9\" height=\"9\"><path "
           "fill=\"#21515b\" d=\"M0 0h9v9z\"/></svg>");
  RecolourOrder order;
  order.pictures = {at("art/crab.png"), at("art/crab.svg")};
  order.palette = {*parse_colour("#1c5a66")};
  auto made = recolour_pictures(order, calm_);
  ASSERT_TRUE(made[0].written && made[1].written);
  EXPECT_THAT(made[0].words, ElementsAre("50 % of it changed its colour."));
  const auto pulled = read_png(text("art/crab-colours.png"));
  ASSERT_TRUE(pulled);
  EXPECT_EQ(pulled->pixels[0], sand);
  EXPECT_EQ(pulled->pixels[39], 0xFF1C5A66U);
  EXPECT_THAT(text("art/crab-colours.svg"), HasSubstr("fill=\"#1c5a66\""));
  made = recolour_pictures(order, calm_);
  EXPECT_FALSE(made[0].written);
  EXPECT_EQ(made[0].found.at(0).id, Id::trace_file_there);
}

TEST_F(GameColours, write_nothing_where_nothing_is_near) {
  RecolourOrder order;
  order.pictures = {at("art/crab.png")};
  order.palette = {*parse_colour("#00ff00")};
  const auto made = recolour_pictures(order, calm_);
  EXPECT_FALSE(made[0].written);
  EXPECT_EQ(made[0].found.at(0).id, Id::palette_nothing_changed);
  EXPECT_FALSE(fs::exists(at("art/crab-colours.png")));
}

}  // namespace
}  // namespace quoin::job
