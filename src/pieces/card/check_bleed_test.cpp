#include <gtest/gtest.h>

#include "pieces/card/inspect_fixture.h"

namespace quoin::pieces {
namespace {

std::uint32_t sea(int x, int y) {
  return 0xff204060U + static_cast<std::uint32_t>((x / 8 + y / 8) % 24);
}
/// 278 x 380 px for the bleed box, white outside the trim: 12 px on each side.
std::uint32_t painted_to_the_trim(int x, int y) {
  const bool inside = x >= 12 && x < 266 && y >= 12 && y < 368;
  return inside ? sea(x, y) : 0xffffffffU;
}
std::uint32_t bare_on_the_left(int x, int y) { return x >= 12 ? sea(x, y) : 0xffffffffU; }
/// White and dark stripes, 2 mm each, slanting.
std::uint32_t stripes(int x, int y) { return (x + y) / 8 % 2 == 0 ? 0xffffffffU : 0xff203040U; }

class Bleed : public ::testing::Test, protected DrawnFace {
 protected:
  std::string said() { return whole(only(Id::art_short_of_bleed, check())); }
};

TEST_F(Bleed, tells_a_panel_that_ends_at_the_trim) {
  panel("sea", trim_box, colour("#204060"));
  EXPECT_EQ(said(),
            "warning art.short-of-bleed face.toml:1:1 on W-07/sea\n"
            "the panel ends 0.0 mm past the trim at the top, right, bottom and left; the bleed "
            "asks for 3.0 mm\n"
            "a cut that wanders outwards leaves a pale sliver along that edge\n"
            "hint: let it run out on all sides: inset = \"bleed\"\n");
}

TEST_F(Bleed, tells_the_one_side_that_is_short_and_by_how_much) {
  panel("sea", bleed_box, colour("#204060"));
  panel("band", box(20, -1.2, 20, 12), colour("#ffdd88"));
  EXPECT_EQ(said(),
            "warning art.short-of-bleed face.toml:2:1 on W-07/band\n"
            "the panel ends 1.2 mm past the trim at the top; the bleed asks for 3.0 mm\n"
            "a cut that wanders outwards leaves a pale sliver along that edge\n"
            "hint: draw it on past the top to the edge of the bleed\n");
}

TEST_F(Bleed, takes_ink_a_little_inside_the_trim_as_meant_to_reach_it) {
  picture("art", picture_file("sea.png", 254, 356, sea), box(0.2, 0.2, 63.1, 88.5));
  EXPECT_EQ(only(Id::art_short_of_bleed, check()).at(0).message,
            "the picture ends 0.2 mm inside the trim at the top, right, bottom and left; the bleed "
            "asks for 3.0 mm");
}

TEST_F(Bleed, tells_pictures_that_are_themselves_white_in_the_bleed) {
  picture("art", picture_file("card.png", 278, 380, painted_to_the_trim), bleed_box);
  EXPECT_EQ(said(),
            "warning art.short-of-bleed face.toml:1:1 on W-07/art\n"
            "the 3.0 mm of bleed are bare along 100 % of the top, right, bottom and left edges\n"
            "a cut that wanders outwards leaves a white edge where the ink should run out\n"
            "hint: use a picture that is painted out to its own edges, or place it larger\n");
}

TEST_F(Bleed, tells_a_single_bare_side) {
  picture("art", picture_file("card.png", 278, 380, bare_on_the_left), bleed_box);
  EXPECT_EQ(only(Id::art_short_of_bleed, check()).at(0).message,
            "the 3.0 mm of bleed are bare along 100 % of the left edge");
}

TEST_F(Bleed, lets_full_bleed_art_pass) {
  picture("art", picture_file("sea.png", 278, 380, sea), bleed_box);
  panel("band", box(-3, 30, 69.5, 10), colour("#ffdd88"));
  EXPECT_EQ(said(), "");
}

TEST_F(Bleed, lets_art_with_white_parts_of_its_own_pass) {
  picture("art", picture_file("stripes.png", 278, 380, stripes), bleed_box);
  EXPECT_EQ(said(), "");
}

TEST_F(Bleed, lets_a_white_border_pass) {
  panel("sea", box(4, 4, 55.5, 80.9), colour("#204060"));
  EXPECT_EQ(said(), "");
}

TEST_F(Bleed, lets_a_short_panel_pass_when_it_is_painted_over) {
  panel("under", trim_box, colour("#204060"));
  panel("over", bleed_box, colour("#405060"));
  EXPECT_EQ(said(), "");
}

TEST_F(Bleed, asks_for_nothing_when_the_game_has_no_bleed) {
  format.bleed = Mm{0};
  panel("sea", trim_box, colour("#204060"));
  EXPECT_EQ(said(), "");
}

}  // namespace
}  // namespace quoin::pieces
