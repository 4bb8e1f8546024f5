#include "trace/photo/straighten.h"

#include <gtest/gtest.h>

#include "trace/photo/photo_testing.h"

namespace quoin::trace {
namespace {

double part_of(const Raster& raster, double u, double v, int shift) {
  const int x = std::clamp(int(u * raster.width), 0, raster.width - 1);
  const int y = std::clamp(int(v * raster.height), 0, raster.height - 1);
  return raster.pixels[std::size_t(y) * std::size_t(raster.width) + std::size_t(x)] >> shift & 255;
}

/// Half red, half blue, with the border between them down the middle of its plane.
Photograph halves(double bow, const CardShape& shape) {
  PhotoWishes wishes;
  wishes.width = 480;
  wishes.height = 360;
  wishes.bow = bow;
  photo::Chance chance(5);
  const photo::Camera camera(chance, wishes, shape);
  Photograph photo;
  photo.picture = {480, 360, {}};
  const Spot middle = camera.middle();
  const auto ideal = [&](Spot p) {
    const Spot q = p - middle;
    return middle + q * (1 + bow * (q.x * q.x + q.y * q.y) / (240.0 * 240.0));
  };
  for (int y = 0; y < 360; ++y) {
    for (int x = 0; x < 480; ++x) {
      const Spot mm = camera.on_card(ideal({x + 0.5, y + 0.5}));
      photo.picture.pixels.push_back(mm.x < shape.size.width.value / 2 ? 0xFFC00000U : 0xFF0000C0U);
    }
  }
  for (int k = 0; k < 4; ++k) {
    Spot seen = camera.corner(k);
    for (int i = 0; i < 20; ++i) seen = seen + (camera.corner(k) - ideal(seen));
    photo.corners[std::size_t(k)] = seen;
  }
  return photo;
}

TEST(Straighten, leaves_an_upright_card_as_it_is) {
  Raster picture{126, 176, {}};
  for (int i = 0; i < 126 * 176; ++i) {
    picture.pixels.push_back(0xFF000000U | std::uint32_t(i * 2654435761U) >> 8);
  }
  const FoundCard card{{Spot{0, 0}, {126, 0}, {126, 176}, {0, 176}}, {}, 0};
  const Raster out = straighten(picture, card, {});
  EXPECT_EQ(out.width, 126);
  EXPECT_EQ(out.height, 176);
  EXPECT_EQ(out.pixels, picture.pixels);
}

TEST(Straighten, undoes_tilt_and_bow) {
  for (const double bow : {0.0, 0.08}) {
    const Photograph photo = halves(bow, {});
    const Raster out = straighten(photo.picture, {photo.corners, {}, bow}, {});
    EXPECT_NEAR(double(out.width) / out.height, 63.0 / 88, 0.01);
    // The border between the halves is straight and in the middle, within a pixel and a half.
    const double near = 1.5 / out.width;
    for (const double v : {0.02, 0.25, 0.5, 0.75, 0.98}) {
      EXPECT_GT(part_of(out, 0.5 - near, v, 16), 96) << bow << " " << v;
      EXPECT_GT(part_of(out, 0.5 + near, v, 0), 96) << bow << " " << v;
    }
  }
}

TEST(Straighten, gives_as_many_pixels_as_the_card_had) {
  const Photograph photo = halves(0, {});
  const Raster out = straighten(photo.picture, {photo.corners, {}, 0}, {});
  double twice = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    const Spot a = photo.corners[i], b = photo.corners[(i + 1) % 4];
    twice += a.x * b.y - a.y * b.x;
  }
  EXPECT_NEAR(double(out.width) * out.height, twice / 2, 0.02 * twice / 2);
  EXPECT_NEAR(printed_ppi(out, {}), out.height * 25.4 / 88, 1e-9);
}

TEST(Straighten, keeps_the_long_side_of_a_card_that_lies_wide) {
  const Raster picture{300, 200, std::vector<std::uint32_t>(300 * 200, 0xFF336699)};
  const FoundCard card{{Spot{10, 10}, {186, 10}, {186, 136}, {10, 136}}, {}, 0};
  EXPECT_TRUE(stands_wide(card, {}));
  const Raster out = straighten(picture, card, {});
  EXPECT_EQ(out.width, 176);
  EXPECT_EQ(out.height, 126);
}

TEST(Straighten, fills_round_corners_with_the_border_and_leaves_the_rest) {
  const CardShape shape;
  Raster picture{189, 264, {}};  // 3 px to a millimetre
  for (int y = 0; y < 264; ++y) {
    for (int x = 0; x < 189; ++x) {
      const bool on = photo::off_round_rect(x + 0.5, y + 0.5, 189, 264, 9) < 0;
      picture.pixels.push_back(on ? 0xFFEEDDCCU : 0xFF102030U);
    }
  }
  const FoundCard card{{Spot{0, 0}, {189, 0}, {189, 264}, {0, 264}}, {}, 0};
  const Raster seen = straighten(picture, card, shape);
  const Raster filled = straighten(picture, card, shape, OutsideCorners::filled);
  EXPECT_EQ(seen.pixels[0], 0xFF102030U);
  for (const std::uint32_t p : filled.pixels) {  // cubic weights ring by a level or two at an edge
    ASSERT_NEAR(double(p >> 16 & 255), 0xEE, 2);
    ASSERT_NEAR(double(p & 255), 0xCC, 2);
  }
}

}  // namespace
}  // namespace quoin::trace
