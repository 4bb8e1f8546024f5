#include "media/canvas/mask.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <numbers>

namespace quoin {
namespace {

Mask empty(int width, int height) {
  return {width, height, std::vector<std::uint8_t>(static_cast<std::size_t>(width) * height)};
}
std::uint8_t& at(Mask& mask, int x, int y) {
  return mask.cover[static_cast<std::size_t>(y) * mask.width + x];
}

TEST(Blurred, edge_is_the_integral_of_the_gaussian) {
  Mask half = empty(201, 9);
  for (int y = 0; y < 9; ++y)
    for (int x = 101; x < 201; ++x) at(half, x, y) = 255;
  for (const double sigma : {2.0, 5.0, 9.45, 15.0}) {
    const Mask soft = blurred(half, sigma);
    for (int x = 60; x < 141; ++x) {
      // The edge lies between pixels 100 and 101; columns fade at the mask's own rim.
      const double exact = 0.5 * (1 + std::erf((x - 100.5) / sigma / std::numbers::sqrt2));
      const double column = soft.at(150, 4) / 255.0;
      EXPECT_NEAR(soft.at(x, 4) / 255.0, exact * column, 0.03) << sigma << " at " << x;
    }
  }
}

TEST(Blurred, keeps_the_middle_where_it_is_for_even_boxes_too) {
  for (const double sigma : {1.0, 1.6, 2.1, 2.7, 3.2, 4.3}) {
    Mask dot = empty(61, 61);
    for (int y = 28; y <= 32; ++y)
      for (int x = 28; x <= 32; ++x) at(dot, x, y) = 255;
    const Mask soft = blurred(dot, sigma);
    for (int i = 0; i < 61; ++i)
      for (int j = 0; j < 61; ++j)
        EXPECT_LE(std::abs(soft.at(i, j) - soft.at(60 - i, j)), 1) << sigma;
  }
}

TEST(Blurred, reaches_no_further_than_it_says) {
  for (const double sigma : {0.5, 1.0, 2.0, 3.3, 10.0}) {
    const int reach = blur_reach(sigma), middle = 60;
    Mask dot = empty(121, 121);
    at(dot, middle, middle) = 255;
    const Mask soft = blurred(dot, sigma);
    for (int x = 0; x < middle - reach; ++x) EXPECT_EQ(soft.at(x, middle), 0) << sigma;
  }
}

TEST(Blurred, is_nothing_below_a_third_of_a_pixel) {
  Mask dot = empty(5, 5);
  at(dot, 2, 2) = 255;
  EXPECT_EQ(blurred(dot, 0.2).cover, dot.cover);
  EXPECT_EQ(blur_reach(0.2), 0);
}

TEST(SpreadOut, makes_a_disc_of_a_point) {
  Mask dot = empty(41, 41);
  at(dot, 20, 20) = 255;
  constexpr double radius = 12;
  const Mask disc = spread_out(dot, radius);
  double area = 0;
  for (int y = 0; y < 41; ++y) {
    for (int x = 0; x < 41; ++x) {
      const double away = std::hypot(x - 20, y - 20);
      if (away < radius) {
        EXPECT_EQ(disc.at(x, y), 255);
      } else if (away > radius + 1) {
        EXPECT_EQ(disc.at(x, y), 0);
      }
      area += disc.at(x, y) / 255.0;
    }
  }
  EXPECT_NEAR(area, std::numbers::pi * std::pow(radius + 0.5, 2), 4);
}

TEST(SpreadOut, agrees_with_distances_measured_one_by_one) {
  Mask mask = empty(37, 23);
  std::srand(7);
  for (int i = 0; i < 12; ++i) at(mask, std::rand() % 37, std::rand() % 23) = 200;
  at(mask, 3, 3) = 100;  // less than half covered: not counted
  const Mask wide = spread_out(mask, 4.3);
  for (int y = 0; y < 23; ++y) {
    for (int x = 0; x < 37; ++x) {
      double nearest = 1e9;
      for (int v = 0; v < 23; ++v)
        for (int u = 0; u < 37; ++u)
          if (mask.at(u, v) > 127) nearest = std::min(nearest, std::hypot(x - u, y - v));
      const double exact = std::round(std::clamp(5.3 - nearest, 0.0, 1.0) * 255);
      EXPECT_NEAR(wide.at(x, y), exact, 1) << x << ", " << y;
    }
  }
}

TEST(SpreadOut, makes_nothing_of_nothing) {
  EXPECT_EQ(spread_out(empty(9, 4), 3).cover, empty(9, 4).cover);
  EXPECT_TRUE(spread_out(Mask{}, 3).cover.empty());
}

}  // namespace
}  // namespace quoin
