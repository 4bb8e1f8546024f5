#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <opencv2/core.hpp>

#include "trace/colours/pull.h"
#include "trace/trace_testing.h"

namespace quoin::trace {
namespace {

/// What coarse coding leaves of a picture: blocks of 8 x 8 whose cosine transform (ITU-T T.81) is
/// rounded to multiples of `step`. Made with OpenCV's cv::dct; sides are multiples of 8.
Raster coded(Raster picture, float step) {
  for (const int shift : {16, 8, 0}) {
    for (int block = 0; block < picture.width / 8 * (picture.height / 8); ++block) {
      const int left = block % (picture.width / 8) * 8, top = block / (picture.width / 8) * 8;
      const auto at = [&](int k) -> std::uint32_t& {
        return picture.pixels[std::size_t((top + k / 8) * picture.width + left + k % 8)];
      };
      cv::Mat1f values(8, 8), waves;
      for (int k = 0; k < 64; ++k) values(k / 8, k % 8) = float(at(k) >> shift & 255);
      cv::dct(values, waves);
      for (float& wave : cv::Mat1f(waves)) wave = std::round(wave / step) * step;
      cv::idct(waves, values);
      for (int k = 0; k < 64; ++k) {
        const long value = std::clamp(std::lround(values(k / 8, k % 8)), 0L, 255L);
        at(k) = (at(k) & ~(255U << shift)) | std::uint32_t(value) << shift;
      }
    }
  }
  return picture;
}

TEST(Pull, reaches_the_plain_areas_of_a_picture_that_was_coded_coarsely) {
  constexpr std::uint32_t rust = 0xFFE0846C, light = 0xFFE69A82, kit_rust = 0xFFD97A64;
  const auto shape = [](double x, double y) { return std::hypot(x - 48, y - 48) < 36; };
  Raster picture = picture_of(96, 96, 0xFFFFFFFF, rust, shape);
  for (int y = 40; y < 56; ++y) {  // another shade beside it, a small step away
    for (int x = 40; x < 56; ++x) picture.pixels[std::size_t(y * 96 + x)] = light;
  }
  const Raster before = coded(picture, 16);
  const Raster after = pull(before, {*parse_colour("#d97a64")}, 4);
  int inside = 0, taken = 0, light_taken = 0;
  for (int y = 0; y < 96; ++y) {
    for (int x = 0; x < 96; ++x) {
      const bool in_light = x >= 42 && x < 54 && y >= 42 && y < 54;
      const bool by_light = x >= 36 && x < 60 && y >= 36 && y < 60;
      const bool now = after.pixels[std::size_t(y * 96 + x)] == kit_rust;
      if (in_light) light_taken += now ? 1 : 0;
      if (by_light || std::hypot(x - 47.5, y - 47.5) > 31) continue;
      ++inside;
      taken += now ? 1 : 0;
    }
  }
  EXPECT_GT(taken, 0.9 * inside);
  EXPECT_EQ(light_taken, 0);
}

}  // namespace
}  // namespace quoin::trace
