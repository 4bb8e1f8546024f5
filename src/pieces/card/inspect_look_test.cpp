#include <gtest/gtest.h>

#include <algorithm>

#include "pieces/card/inspect_fixture.h"
#include "pieces/card/inspect_leaves.h"
#include "pieces/card/inspect_pixels.h"

namespace quoin::pieces {
namespace {

class Look : public ::testing::Test, protected DrawnFace {
 protected:
  Colour seen(const FaceLook& look, double x, double y) {
    return colour_of(Pixels(look.picture, look.bleed).at({Mm{x}, Mm{y}}));
  }
};

TEST_F(Look, has_four_pixels_a_millimetre_and_the_bleed) {
  const FaceLook empty = look();
  EXPECT_EQ(empty.picture.width, 278);
  EXPECT_EQ(empty.picture.height, 380);
  EXPECT_EQ(seen(empty, 30, 30), white);
}

TEST_F(Look, puts_the_trim_where_the_scene_has_it) {
  panel("left", box(-3, -3, 3, 94.9), colour("#ff0000"));
  panel("corner", box(0, 0, 5, 5), colour("#0000ff"));
  const FaceLook drawn = look();
  EXPECT_EQ(seen(drawn, -0.1, 2), colour("#ff0000"));
  EXPECT_EQ(seen(drawn, 0.1, 2), colour("#0000ff"));
  EXPECT_EQ(seen(drawn, 4.9, 4.9), colour("#0000ff"));
  EXPECT_EQ(seen(drawn, 5.1, 4.9), white);
}

TEST_F(Look, keeps_for_each_line_of_text_what_was_drawn_before_it) {
  panel("sea", bleed_box, colour("#204060"));
  text("a", "one", box(10, 10, 20, 5), 9);
  panel("patch", box(8, 48, 24, 15), colour("#ffeecc"));
  text("b", "two\nthree", box(10, 50, 15, 10), 9);
  const FaceLook drawn = look();
  ASSERT_EQ(drawn.grounds.size(), 2U);
  EXPECT_EQ(drawn.grounds[0].leaf, 1U);
  ASSERT_EQ(drawn.grounds[0].stretches.size(), 1U);
  ASSERT_EQ(drawn.grounds[1].stretches.size(), 2U);
  for (const std::uint32_t pixel : drawn.grounds[0].stretches[0]) EXPECT_EQ(pixel, 0xff204060U);
  for (const std::uint32_t pixel : drawn.grounds[1].stretches[1]) EXPECT_EQ(pixel, 0xffffeeccU);
}

TEST_F(Look, sees_a_text_beneath_another_text) {
  text("under", "mmmm", box(10, 10, 40, 12), 24);
  text("over", "mmmm", box(10, 10, 40, 12), 24);
  const FaceLook drawn = look();
  ASSERT_EQ(drawn.grounds.size(), 2U);
  EXPECT_TRUE(is_paper(median_pixel(drawn.grounds[0].stretches.at(0))));
  EXPECT_TRUE(std::any_of(drawn.grounds[1].stretches.at(0).begin(),
                          drawn.grounds[1].stretches.at(0).end(), is_ink));
}

TEST_F(Look, keeps_no_ground_of_pictures_and_wide_lines) {
  panel("sea", bleed_box, colour("#204060"));
  frame("frame", box(10, 10, 40, 40), Mm{1}, white);
  EXPECT_TRUE(look().grounds.empty());
  frame("fine", box(10, 10, 40, 40), Mm{0.1}, white);
  EXPECT_EQ(look().grounds.size(), 1U);
}

TEST_F(Look, counts_on_behind_groups_that_it_draws_whole) {
  panel("red", box(10, 10, 20, 20), colour("#ff0000"));
  Item red = take_last();
  panel("blue", box(15, 15, 20, 20), colour("#0000ff"));
  Item blue = take_last();
  group("pair", {red, blue}).opacity = 0.5;
  text("a", "one", box(18, 18, 10, 5), 9);
  const FaceLook drawn = look();
  ASSERT_EQ(drawn.grounds.size(), 1U);
  EXPECT_EQ(drawn.grounds[0].leaf, 2U);
  const Colour beneath = colour_of(median_pixel(drawn.grounds[0].stretches.at(0)));
  EXPECT_NEAR(beneath.red, 0.5, 0.01);
  EXPECT_NEAR(beneath.blue, 1, 0.01);
}

TEST_F(Look, draws_a_faint_group_as_one) {
  panel("red", box(10, 10, 20, 20), colour("#ff0000"));
  Item red = take_last();
  panel("blue", box(15, 15, 20, 20), colour("#0000ff"));
  Item blue = take_last();
  group("pair", {red, blue}).opacity = 0.5;
  // As one: blue at half strength on paper, no red showing through.
  EXPECT_NEAR(seen(look(), 20, 20).green, 0.5, 0.01);
  EXPECT_NEAR(seen(look(), 20, 20).red, 0.5, 0.01);
  EXPECT_NEAR(seen(look(), 20, 20).blue, 1, 0.01);
}

TEST_F(Look, hands_no_text_to_the_checks_that_is_not_set) {
  text("a", "one", box(10, 10, 20, 5), 9);
  EXPECT_THROW(static_cast<void>(look_at(face(), shelf)), std::logic_error);
}

TEST_F(Look, places_leaves_through_all_their_groups) {
  panel("dot", box(0, 0, 2, 2), black);
  Item dot = take_last();
  dot.map = Affine::move({1_mm, 0_mm});
  group("inner", {dot}).map = Affine::scale(2, 2);
  Item inner = take_last();
  group("outer", {inner}).map = Affine::move({10_mm, 20_mm});
  const std::vector<Leaf> leaves = leaves_of(scene);
  ASSERT_EQ(leaves.size(), 1U);
  const std::optional<Rect> ink = visible_ink(leaves[0]);
  ASSERT_TRUE(ink);
  EXPECT_EQ(*ink, box(12, 20, 4, 4));
}

TEST_F(Look, counts_the_clip_of_groups) {
  panel("wide", box(0, 0, 60, 20), black);
  Item wide = take_last();
  group("window", {wide}).clip = Path::rectangle(box(10, 5, 20, 5));
  EXPECT_EQ(visible_ink(leaves_of(scene)[0]), box(10, 5, 20, 5));
}

TEST(SmallestScale, is_the_smaller_singular_value) {
  EXPECT_NEAR(smallest_scale(Affine::scale(3, 0.5)), 0.5, 1e-12);
  EXPECT_NEAR(smallest_scale(then(Affine::scale(3, 0.5), Affine::turn(Angle::degrees(37)))), 0.5,
              1e-12);
  EXPECT_NEAR(smallest_scale(Affine::turn(Angle::degrees(12))), 1, 1e-12);
  EXPECT_NEAR(smallest_scale(Affine::scale(-2, 1)), 1, 1e-12);
}

TEST(Pixels, finds_the_pixels_of_a_turned_quad) {
  const Raster raster{40, 40, std::vector<std::uint32_t>(1600, 0xff000000U)};
  const Pixels pixels(raster, Mm{0});
  const Quad diamond{Point{5_mm, 1.97_mm}, Point{8.03_mm, 5_mm}, Point{5_mm, 8.03_mm},
                     Point{1.97_mm, 5_mm}};
  // Diagonals of 6.06 mm: 18.36 square millimetres of 16 pixels each.
  EXPECT_NEAR(static_cast<double>(pixels.inside(diamond).size()), 293.8, 20);
}

TEST(Pixels, takes_places_far_off_as_the_nearest_pixel) {
  const Raster raster{2, 1, {0xff000000U, 0xffffffffU}};
  const Pixels pixels(raster, Mm{0});
  EXPECT_EQ(pixels.at({Mm{1e300}, Mm{-1e300}}), 0xffffffffU);
  EXPECT_EQ(pixels.at({Mm{-1e300}, Mm{1e300}}), 0xff000000U);
  const Quad far{Point{Mm{1e9}, Mm{1e9}}, Point{Mm{2e9}, Mm{1e9}}, Point{Mm{2e9}, Mm{2e9}},
                 Point{Mm{1e9}, Mm{2e9}}};
  EXPECT_TRUE(pixels.inside(far).empty());
}

}  // namespace
}  // namespace quoin::pieces
