#include "trace/photo/cut_out.h"

#include <gtest/gtest.h>

#include <cmath>

#include "trace/trace_testing.h"

namespace quoin::trace {
namespace {

bool in_round(double x, double y) { return std::hypot(x - 40, y - 40) < 24; }
bool in_ring(double x, double y) { return in_round(x, y) && std::hypot(x - 40, y - 40) > 12; }

CutOut cut(const Raster& picture, const CutOutWishes& wishes = {}) {
  return *cut_out(picture, wishes, "it.png", {});
}
std::uint32_t at(const Raster& raster, int x, int y) {
  return raster.pixels[std::size_t(y * raster.width + x)];
}
std::string doubts_of(const CutOut& out) {
  std::string text;
  for (const Diagnostic& d : out.doubts) text += std::string(facts(d.id).name) + " ";
  return text;
}

/// The mean difference of alpha from that of the figure alone, 0..255.
double alpha_error(const Raster& out, const Raster& truth) {
  double sum = 0;
  for (std::size_t i = 0; i < out.pixels.size(); ++i) {
    sum += std::abs(double(out.pixels[i] >> 24) - double(truth.pixels[i] >> 24));
  }
  return sum / double(out.pixels.size());
}

TEST(CutOut, takes_a_plain_ground_away_to_a_part_of_a_pixel) {
  for (const std::uint32_t ground : {0xFFF4E3C1U, 0xFF2A6E3BU, 0xFF000000U}) {
    const Raster picture = picture_of(80, 80, ground, 0xFFC03020, in_round);
    const Raster truth = picture_of(80, 80, 0, 0xFFC03020, in_round);
    const CutOut out = cut(picture);
    EXPECT_EQ(doubts_of(out), "");
    EXPECT_LT(alpha_error(out.picture, truth), 0.25);
    for (std::size_t i = 0; i < truth.pixels.size(); ++i) {
      const double alpha = double(out.picture.pixels[i] >> 24) / 255;
      // What there is of a pixel has the figure's colour: nothing of the ground is left in it.
      EXPECT_NEAR(double(out.picture.pixels[i] >> 16 & 255), 0xC0 * alpha, 3);
      EXPECT_NEAR(double(out.picture.pixels[i] & 255), 0x20 * alpha, 3);
    }
  }
}

TEST(CutOut, follows_a_ground_that_shades_gently) {
  Raster picture = picture_of(80, 80, 0xFF808080, 0xFFC03020, in_round);
  for (int y = 0; y < 80; ++y) {
    for (int x = 0; x < 80; ++x) {
      if (in_round(x + 0.5, y + 0.5)) continue;
      const std::uint32_t light = 110 + std::uint32_t(x) + std::uint32_t(y * y) / 200;
      if (std::hypot(x - 39.5, y - 39.5) > 26) {
        picture.pixels[std::size_t(y * 80 + x)] = 0xFF000000U | light << 16 | light << 8 | light;
      }
    }
  }
  const CutOut out = cut(picture);
  EXPECT_EQ(at(out.picture, 2, 2), 0U);
  EXPECT_EQ(at(out.picture, 77, 77), 0U);
  EXPECT_EQ(at(out.picture, 40, 40), 0xFFC03020U);
}

TEST(CutOut, keeps_what_the_thing_encloses_unless_asked) {
  const Raster picture = picture_of(80, 80, 0xFFFFFFFF, 0xFF205080, in_ring);
  EXPECT_EQ(at(cut(picture).picture, 40, 40), 0xFFFFFFFFU);
  CutOutWishes wishes;
  wishes.enclosed = EnclosedGround::cut_out;
  EXPECT_EQ(at(cut(picture, wishes).picture, 40, 40), 0U);
  EXPECT_EQ(at(cut(picture, wishes).picture, 58, 40), 0xFF205080U);
}

TEST(CutOut, reaches_as_far_as_it_is_told) {
  const Raster picture = picture_of(80, 80, 0xFFFFFFFF, 0xFFE8E8E8, in_round);
  CutOutWishes wishes;
  wishes.reach = 0.2;
  EXPECT_EQ(at(cut(picture, wishes).picture, 40, 40), 0xFFE8E8E8U);
  wishes.reach = 1;
  const auto all_gone = cut_out(picture, wishes, "it.png", {});
  ASSERT_FALSE(all_gone.ok());
  EXPECT_EQ(all_gone.why()[0].id, Id::cut_out_nothing_left);
  EXPECT_EQ(all_gone.why()[0].message,
            "nothing would be left of it.png: all of it has the colour of its rim");
}

TEST(CutOut, keeps_a_thin_dark_line_round_a_thing_dark) {
  const auto lined = [](double x, double y) {
    const double r = std::hypot(x - 40, y - 40);
    return r < 24 && r > 22;
  };
  Raster picture = picture_of(80, 80, 0xFFFFFFFF, 0xFF101010, lined);
  for (int y = 0; y < 80; ++y) {
    for (int x = 0; x < 80; ++x) {
      if (std::hypot(x - 39.5, y - 39.5) < 21) picture.pixels[std::size_t(y * 80 + x)] = 0xFFF8F0D0;
    }
  }
  const Raster out = cut(picture).picture;
  for (int y = 0; y < 80; ++y) {
    for (int x = 0; x < 80; ++x) {
      if (std::hypot(x - 39.5, y - 39.5) < 23.4) continue;
      const std::uint32_t p = at(out, x, y);
      // Outside the line's middle every pixel is as dark as the line, whatever its alpha.
      EXPECT_LE(p & 255, 28 + (p >> 24) / 12) << x << " " << y;
    }
  }
}

TEST(CutOut, doubts_a_ground_of_many_colours) {
  Raster picture = picture_of(80, 80, 0xFFFFFFFF, 0xFFC03020, in_round);
  for (int y = 0; y < 80; ++y) {
    for (int x = 50; x < 80; ++x) {
      if (y < 12 || y > 60)
        picture.pixels[std::size_t(y * 80 + x)] = 0xFF000000U | std::uint32_t(x * y * 977);
    }
  }
  const auto out = cut_out(picture, {}, "it.png", {});
  ASSERT_TRUE(out.ok());
  for (std::uint32_t& p : picture.pixels)
    p = 0xFF000000U | std::uint32_t((&p - picture.pixels.data()) * 2654435761U) >> 8;
  const CutOut none = cut(picture);
  EXPECT_EQ(doubts_of(none), "cut-out.nothing-cut ");
  EXPECT_EQ(none.picture.pixels, picture.pixels);
}

TEST(CutOut, leaves_a_transparent_ground_alone_and_refuses_what_has_no_edge) {
  const Raster clear = picture_of(80, 80, 0, 0xFFC03020, in_round);
  EXPECT_EQ(doubts_of(cut(clear)), "cut-out.transparent-already ");
  EXPECT_EQ(cut(clear).picture.pixels, clear.pixels);
  const auto dot = cut_out({1, 1, {0xFFFFFFFF}}, {}, "dot.png", {});
  ASSERT_FALSE(dot.ok());
  EXPECT_EQ(dot.why()[0].message, "dot.png has 1 x 1 px; nothing can be cut out of fewer than 8");
  const auto plain = cut_out({9, 9, std::vector<std::uint32_t>(81, 0xFF123456)}, {}, "p.png", {});
  ASSERT_FALSE(plain.ok());
  EXPECT_EQ(plain.why()[0].id, Id::cut_out_nothing_left);
}

}  // namespace
}  // namespace quoin::trace
