#include "trace/colours/pull.h"

#include <gtest/gtest.h>

#include "trace/trace_testing.h"

namespace quoin::trace {
namespace {

const std::vector<Colour> kit{*parse_colour("#f2e0bc"), *parse_colour("#24565f")};
constexpr std::uint32_t kit_sand = 0xFFF2E0BC, kit_sea = 0xFF24565F;

int largest_step(const Raster& a, const Raster& b) {
  int most = 0;
  for (std::size_t i = 0; i < a.pixels.size(); ++i) {
    for (const int shift : {0, 8, 16, 24}) {
      most = std::max(most,
                      std::abs(int(a.pixels[i] >> shift & 255) - int(b.pixels[i] >> shift & 255)));
    }
  }
  return most;
}

bool in_the_disc(double x, double y) { return std::hypot(x - 30, y - 30) < 20; }

TEST(Pull, gives_what_would_have_been_painted_with_the_palette) {
  const Raster before = picture_of(60, 60, sand, sea, in_the_disc);
  const Raster wanted = picture_of(60, 60, kit_sand, kit_sea, in_the_disc);
  EXPECT_GT(largest_step(before, wanted), 2);
  const Raster after = pull(before, kit, 8);
  EXPECT_LE(largest_step(after, wanted), 2);
  EXPECT_EQ(after.pixels[0], kit_sand);
  EXPECT_EQ(after.pixels[30 * 60 + 30], kit_sea);
}

TEST(Pull, leaves_alone_what_is_out_of_reach) {
  const Raster before = picture_of(60, 60, sand, 0xFFC04A3A, in_the_disc);
  const Raster after = pull(before, kit, 8);
  EXPECT_EQ(after.pixels[30 * 60 + 30], 0xFFC04A3A);
  EXPECT_EQ(after.pixels[0], kit_sand);
  EXPECT_EQ(pull(before, kit, 0).pixels, before.pixels);
  EXPECT_EQ(pull(before, {}, 8).pixels, before.pixels);
}

TEST(Pull, keeps_a_gradient_that_passes_through_a_colour_of_the_palette) {
  Raster ramp{64, 16, {}};
  for (int i = 0; i < 64 * 16; ++i) {
    const auto v = std::uint32_t(60 + i % 64 * 2);
    ramp.pixels.push_back(0xFF000000U | v << 16 | v << 8 | v);
  }
  EXPECT_EQ(pull(ramp, {*parse_colour("#808080")}, 10).pixels, ramp.pixels);
}

TEST(Pull, keeps_alpha_and_colours_the_edges_towards_it) {
  const Raster before = picture_of(60, 60, 0, sea, in_the_disc);
  const Raster wanted = picture_of(60, 60, 0, kit_sea, in_the_disc);
  const Raster after = pull(before, kit, 8);
  for (std::size_t i = 0; i < after.pixels.size(); ++i) {
    ASSERT_EQ(after.pixels[i] >> 24, before.pixels[i] >> 24);
  }
  EXPECT_LE(largest_step(after, wanted), 2);
}

}  // namespace
}  // namespace quoin::trace
