#include "trace/fidelity.h"

#include <gtest/gtest.h>

#include <random>

#include "trace/trace_testing.h"

namespace quoin::trace {
namespace {

Raster plain(int width, int height, std::uint32_t colour) {
  return {width, height, std::vector<std::uint32_t>(std::size_t(width) * height, colour)};
}

TEST(Compare, finds_no_difference_between_a_picture_and_itself) {
  const Raster picture =
      picture_of(40, 40, 0xFFF4E3C1, 0xFF20505A, [](double x, double y) { return x > y; });
  const Comparison same = compare(picture, picture);
  EXPECT_EQ(same.mean, 0);
  EXPECT_EQ(same.worst, 0);
  EXPECT_NEAR(same.ssim, 1, 1e-6);
}

TEST(Compare, measures_a_plain_change_in_ciede2000) {
  const Colour a{0.2, 0.4, 0.6, 1}, b{0.6, 0.4, 0.2, 1};
  const Comparison change = compare(plain(20, 20, 0xFF336699), plain(20, 20, 0xFF996633));
  EXPECT_NEAR(change.mean, ciede2000(to_lab(a), to_lab(b)), 1e-4);
  EXPECT_NEAR(change.worst, change.mean, 1e-4);
}

TEST(Compare, lays_transparent_parts_on_white) {
  EXPECT_EQ(compare(plain(20, 20, 0), plain(20, 20, 0xFFFFFFFF)).mean, 0);
}

TEST(DifferencePicture, glows_where_the_two_differ) {
  const Raster one = plain(20, 20, 0xFFFFFFFF);
  Raster other = one;
  other.pixels[45] = 0xFF000000;
  const Raster shown = difference_picture(one, other);
  EXPECT_EQ(shown.pixels[45], 0xFFCD141EU);
  EXPECT_EQ(shown.pixels[46], 0xFFFFFFFFU);
}

TEST(Judge, calls_a_flat_drawing_good_and_counts_it) {
  const Raster picture = picture_of(200, 160, 0xFFF4E3C1, 0xFF20505A, [](double x, double y) {
    return std::hypot(x - 90, y - 80) < 50;
  });
  const Tracing tracing = redrawn(picture);
  const Judgement judgement = judge(picture, tracing, write_svg(tracing, "disc"));
  EXPECT_EQ(judgement.verdict, Verdict::good);
  EXPECT_LT(judgement.comparison.mean, 0.1);
  EXPECT_EQ(judgement.colours, 2);
  EXPECT_EQ(judgement.faces, 2);
  ASSERT_EQ(judgement.reasons.size(), 1U);
  EXPECT_TRUE(judgement.reasons.front().starts_with("it differs by 0.0"));
}

TEST(Judge, cannot_help_a_picture_of_a_few_pixels) {
  const Raster picture =
      picture_of(16, 16, 0xFFF4E3C1, 0xFF20505A, [](double x, double) { return x > 7; });
  const Tracing tracing = redrawn(picture);
  const Judgement judgement = judge(picture, tracing, write_svg(tracing, "small"));
  EXPECT_EQ(judgement.verdict, Verdict::cannot_be_helped);
  EXPECT_EQ(judgement.reasons.front(),
            "it has 16 x 16 px; a drawing needs 24 along its shorter side");
}

TEST(Judge, would_rather_keep_texture_as_a_picture) {
  std::mt19937 chance(2);
  Raster texture{200, 200, {}};
  double shade = 128;
  for (int i = 0; i < 200 * 200; ++i) {
    shade = std::clamp(shade + double(chance() % 61) - 30, 0.0, 255.0);
    const auto grey = static_cast<std::uint32_t>(shade);
    texture.pixels.push_back(0xFF000000U | grey << 16 | (grey * 2 / 3) << 8 | grey / 3);
  }
  const Tracing tracing = redrawn(texture);
  EXPECT_EQ(judge(texture, tracing, write_svg(tracing, "bark")).verdict,
            Verdict::better_as_picture);
}

}  // namespace
}  // namespace quoin::trace
