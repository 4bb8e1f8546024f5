#include "media/reduced.h"

#include <gtest/gtest.h>

#include <stdexcept>

namespace quoin {
namespace {

TEST(ReducedRaster, keeps_the_mean_of_what_each_pixel_covers) {
  // Thirds of 3 px on 2: the middle pixel belongs half to either side.
  const Raster three{3, 1, {0xFF000000, 0xFF808080, 0xFFFFFFFF}};
  const Raster two = reduced_to(three, 2);
  EXPECT_EQ(two.width, 2);
  EXPECT_EQ(two.height, 1);
  EXPECT_EQ(two.pixels[0], 0xFF2B2B2BU);  // 128/3
  EXPECT_EQ(two.pixels[1], 0xFFD5D5D5U);  // (64 + 255) * 2/3
}

TEST(ReducedRaster, keeps_transparency_and_proportion) {
  Raster chequered{40, 20, {}};
  for (int y = 0; y < 20; ++y) {
    for (int x = 0; x < 40; ++x) chequered.pixels.push_back((x + y) % 2 ? 0xFF00FF00U : 0U);
  }
  const Raster small = reduced_to(chequered, 10);
  EXPECT_EQ(small.height, 5);
  for (const std::uint32_t pixel : small.pixels) EXPECT_EQ(pixel, 0x80008000U);
}

TEST(ReducedRaster, leaves_what_is_narrow_enough_and_never_loses_all_height) {
  const Raster line{100, 1, std::vector<std::uint32_t>(100, 0xFF112233U)};
  EXPECT_EQ(reduced_to(line, 100).pixels, line.pixels);
  EXPECT_EQ(reduced_to(line, 7).height, 1);
  EXPECT_EQ(reduced_to(line, 7).pixels.front(), 0xFF112233U);
  EXPECT_THROW((void)reduced_to(line, 0), std::logic_error);
}

}  // namespace
}  // namespace quoin
