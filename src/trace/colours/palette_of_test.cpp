#include "trace/colours/palette_of.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "trace/trace_testing.h"

namespace quoin::trace {
namespace {

std::vector<PaletteColour> palette_of_one(const Raster& picture, const PaletteWishes& wishes = {}) {
  const std::array<const Raster*, 1> all{&picture};
  return palette_of(all, wishes);
}

double difference(Colour a, std::uint32_t b) {
  const Colour known{(b >> 16 & 255) / 255.0, (b >> 8 & 255) / 255.0, (b & 255) / 255.0, 1};
  return ciede2000(to_lab(a), to_lab(known));
}

bool in_a_disc(double x, double y, double radius) { return std::hypot(x - 40, y - 40) < radius; }

Raster filled(int width, int height, std::uint32_t pixel) {
  return {width, height,
          std::vector<std::uint32_t>(std::size_t(width) * std::size_t(height), pixel)};
}

TEST(PaletteOf, finds_the_colours_of_a_smooth_disc_and_no_mixture_of_them) {
  const Raster disc =
      picture_of(80, 80, sand, sea, [](double x, double y) { return in_a_disc(x, y, 24); });
  const auto palette = palette_of_one(disc);
  ASSERT_EQ(palette.size(), 2U);
  EXPECT_LT(difference(palette[0].colour, sand), 1);
  EXPECT_LT(difference(palette[1].colour, sea), 1);
  EXPECT_NEAR(palette[1].share, std::numbers::pi * 24 * 24 / 6400, 0.01);
  EXPECT_NEAR(palette[0].share + palette[1].share, 1, 1e-6);
}

TEST(PaletteOf, counts_several_pictures_together) {
  const Raster one = filled(10, 10, sand), other = filled(10, 30, sea);
  const std::array<const Raster*, 2> both{&one, &other};
  const auto palette = palette_of(both);
  ASSERT_EQ(palette.size(), 2U);
  EXPECT_LT(difference(palette[0].colour, sea), 1);
  EXPECT_NEAR(palette[0].share, 0.75, 1e-9);
}

TEST(PaletteOf, keeps_no_more_colours_than_asked_for_and_those_of_the_largest_areas) {
  Raster bars = filled(60, 20, 0xFFFFFFFF);
  constexpr std::array<std::uint32_t, 3> inks{0xFFC04A3A, 0xFF2A6E3F, 0xFF20505A};
  for (int i = 0; i < 1200; ++i) {
    const int x = i % 60;
    bars.pixels[std::size_t(i)] = inks[x < 30 ? 0 : x < 50 ? 1 : 2];
  }
  PaletteWishes two;
  two.most = 2;
  const auto palette = palette_of_one(bars, two);
  ASSERT_EQ(palette.size(), 2U);
  EXPECT_LT(difference(palette[0].colour, inks[0]), 1);
  EXPECT_LT(difference(palette[1].colour, inks[1]), 1);
}

TEST(PaletteOf, takes_near_colours_for_one) {
  Raster halves = filled(40, 20, 0xFF20505A);
  for (int i = 0; i < 800; ++i) {
    if (i % 40 >= 25) halves.pixels[std::size_t(i)] = 0xFF22525C;
  }
  EXPECT_EQ(palette_of_one(halves).size(), 1U);
}

TEST(PaletteOf, names_are_keys_unlike_each_other_and_unlike_those_of_the_game) {
  Raster bars = filled(60, 20, 0xFF1F4FB0);
  for (int i = 0; i < 1200; ++i) {
    if (i % 60 >= 35) bars.pixels[std::size_t(i)] = 0xFF3A78C8;
  }
  PaletteWishes wishes;
  wishes.named = {{"blue", *parse_colour("#ff0000")}, {"lagoon", *parse_colour("#3a78c8")}};
  const auto palette = palette_of_one(bars, wishes);
  ASSERT_EQ(palette.size(), 2U);
  EXPECT_EQ(palette[1].name, "lagoon");  // the game's own name for it
  EXPECT_NE(palette[0].name, "blue");    // the game's name for another
  for (const PaletteColour& one : palette) {
    EXPECT_EQ(one.name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-"),
              std::string::npos)
        << one.name;
  }
}

TEST(PaletteOf, has_nothing_for_transparent_pictures_and_for_noise) {
  EXPECT_TRUE(palette_of_one(filled(20, 20, 0)).empty());
  EXPECT_TRUE(palette_of({}).empty());
  Raster noise = filled(64, 64, 0);
  std::uint32_t state = 7;
  for (std::uint32_t& pixel : noise.pixels) {
    state = state * 1664525U + 1013904223U;  // any generator: the numbers only must not repeat
    pixel = 0xFF000000U | state >> 8;
  }
  EXPECT_TRUE(palette_of_one(noise).empty());
}

TEST(PaletteOf, has_one_colour_for_a_plain_picture_and_for_one_pixel) {
  ASSERT_EQ(palette_of_one(filled(30, 30, sea)).size(), 1U);
  const auto palette = palette_of_one(filled(1, 1, sea));
  ASSERT_EQ(palette.size(), 1U);
  EXPECT_LT(difference(palette[0].colour, sea), 1);
  EXPECT_EQ(palette[0].share, 1);
}

}  // namespace
}  // namespace quoin::trace
