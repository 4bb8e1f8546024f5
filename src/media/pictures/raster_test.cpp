#include "media/pictures/raster.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "media/pictures/samples.h"

namespace quoin::pictures {
namespace {

/// 3 x 2 grey pixels 10, 20, 30 over 40, 50, 60.
Bitmap six() {
  Bitmap bitmap;
  bitmap.width = 3;
  bitmap.height = 2;
  bitmap.model = ColourModel::grey;
  bitmap.samples = {10, 20, 30, 40, 50, 60};
  return bitmap;
}

std::vector<int> greys(const Raster& raster) {
  std::vector<int> values;
  for (const std::uint32_t pixel : raster.pixels) values.push_back(pixel & 0xff);
  return values;
}

// What each orientation does to the stored rows: Exif 2.32, table of tag Orientation ("the 0th row
// is at the visual right-hand side", and so on).
TEST(Upright, follows_each_of_the_eight_orientations) {
  const std::vector<std::vector<int>> expected = {
      {10, 20, 30, 40, 50, 60},  // 1: as stored
      {30, 20, 10, 60, 50, 40},  // 2: column 0 at the right
      {60, 50, 40, 30, 20, 10},  // 3: row 0 at the foot, column 0 at the right
      {40, 50, 60, 10, 20, 30},  // 4: row 0 at the foot
      {10, 40, 20, 50, 30, 60},  // 5: row 0 at the left, column 0 on top
      {40, 10, 50, 20, 60, 30},  // 6: row 0 at the right, column 0 on top
      {60, 30, 50, 20, 40, 10},  // 7: row 0 at the right, column 0 at the foot
      {30, 60, 20, 50, 10, 40},  // 8: row 0 at the left, column 0 at the foot
  };
  for (int orientation = 1; orientation <= 8; ++orientation) {
    const Raster raster = upright(six(), orientation);
    EXPECT_EQ(raster.width, orientation < 5 ? 3 : 2);
    EXPECT_EQ(greys(raster), expected[static_cast<std::size_t>(orientation - 1)])
        << "orientation " << orientation;
  }
}

TEST(Upright, multiplies_colours_by_alpha) {
  Bitmap bitmap;
  bitmap.width = bitmap.height = 1;
  bitmap.has_alpha = true;
  bitmap.samples = {200, 100, 50, 128};
  EXPECT_EQ(upright(bitmap, 1).pixels, std::vector<std::uint32_t>{0x80643219});
}

TEST(Upright, makes_rgb_of_inks_without_a_profile_by_the_plain_formula) {
  Bitmap bitmap;
  bitmap.width = bitmap.height = 1;
  bitmap.model = ColourModel::cmyk;
  bitmap.samples = {0, 51, 255, 102};  // 0, 20, 100 and 40 %
  // R = 1 x 0.6 = 153, G = 0.8 x 0.6 = 122.4, B = 0
  EXPECT_EQ(upright(bitmap, 1).pixels, std::vector<std::uint32_t>{0xff997a00});
}

TEST(Upright, follows_an_embedded_profile) {
  Bitmap bitmap;
  bitmap.width = bitmap.height = 1;
  bitmap.samples = {255, 0, 0};
  bitmap.profile = samples::swapped_rgb_profile();
  const std::uint32_t green = upright(bitmap, 1).pixels.front();
  EXPECT_LT(green >> 16 & 0xff, 8U);
  EXPECT_GT(green >> 8 & 0xff, 247U);

  bitmap.model = ColourModel::grey;
  bitmap.samples = {64};
  bitmap.profile = samples::linear_grey_profile();
  // A quarter of the light: sRGB's curve gives 1.055 x 0.251 ^ (1 / 2.4) - 0.055 = 0.5377, 137.
  EXPECT_NEAR(upright(bitmap, 1).pixels.front() & 0xff, 137, 1);
}

Raster raster_of(int width, int height, const std::vector<int>& greys) {
  Raster raster{width, height, {}};
  for (const int grey : greys) raster.pixels.push_back(0xff000000U | unsigned(grey) * 0x010101U);
  return raster;
}

TEST(Halved, is_the_mean_of_four) {
  const Raster half = halved(raster_of(4, 2, {0, 10, 100, 104, 20, 30, 100, 101}));
  EXPECT_EQ(half.width, 2);
  EXPECT_EQ(half.height, 1);
  EXPECT_THAT(greys(half), testing::ElementsAre(15, 101));
}

TEST(Halved, shares_the_middle_pixel_of_an_odd_side) {
  // 3 px become 2 of one and a half each: (30 + 60 / 2) / 1.5 and (60 / 2 + 90) / 1.5.
  const Raster half = halved(raster_of(3, 1, {30, 60, 90}));
  EXPECT_THAT(greys(half), testing::ElementsAre(40, 80));
}

TEST(Halved, keeps_an_even_colour_at_any_size) {
  for (const auto& [width, height] : {std::pair{7, 5}, {1, 9}, {8, 3}, {1, 1}}) {
    const Raster half = halved(raster_of(width, height, std::vector<int>(width * height, 77)));
    EXPECT_EQ(half.pixels.size(), std::size_t((width + 1) / 2 * ((height + 1) / 2)));
    EXPECT_THAT(greys(half), testing::Each(77));
  }
}

TEST(WidthFor, never_falls_below_what_was_asked) {
  EXPECT_EQ(width_for(1000, 0), 1000);
  EXPECT_EQ(width_for(1000, 1001), 1000);
  EXPECT_EQ(width_for(1000, 300), 500);
  EXPECT_EQ(width_for(1000, 250), 250);
  EXPECT_EQ(width_for(1000, 1), 1);
}

}  // namespace
}  // namespace quoin::pictures
