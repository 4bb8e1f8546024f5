#include "geometry/polygon.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace quoin {
namespace {

Point corner(double x, double y) { return {Mm{x}, Mm{y}}; }

Polygon square(double x, double y, double side) {
  return {corner(x, y), corner(x + side, y), corner(x + side, y + side), corner(x, y + side)};
}

/// A U of three arms' width 10, open at the top: area 30 x 20 - 10 x 10.
const Polygon horseshoe{corner(0, 0),  corner(10, 0), corner(10, 10), corner(20, 10),
                        corner(20, 0), corner(30, 0), corner(30, 20), corner(0, 20)};

TEST(Polygon, area_is_positive_clockwise_on_the_page) {
  EXPECT_DOUBLE_EQ(signed_area(square(3, 4, 5)), 25);
  EXPECT_DOUBLE_EQ(signed_area({corner(0, 0), corner(0, 1), corner(1, 1)}), -0.5);
  EXPECT_DOUBLE_EQ(area(horseshoe), 500);
}

TEST(Polygon, centroid_is_that_of_the_area) {
  EXPECT_EQ(centroid(square(2, 4, 6)), corner(5, 7));
  // Of the whole less the gap: (600 x 10 - 100 x 5) / 500.
  EXPECT_NEAR(centroid(horseshoe).y.value, 11, 1e-12);
}

TEST(Polygon, is_simple_while_its_sides_do_not_cross) {
  EXPECT_TRUE(is_simple(horseshoe));
  EXPECT_FALSE(is_simple({corner(0, 0), corner(10, 10), corner(10, 0), corner(0, 10)}));
  EXPECT_FALSE(is_simple({corner(0, 0), corner(10, 0)}));
  EXPECT_FALSE(is_simple({corner(0, 0), corner(10, 0), corner(std::nan(""), 5)}));
}

TEST(Polygon, joined_ones_lose_the_side_they_share) {
  const auto joined = united({square(0, 0, 10), square(10, 0, 10), square(40, 0, 5)});
  ASSERT_EQ(joined.size(), 2U);
  EXPECT_NEAR(area(joined), 225, 1e-9);
  EXPECT_EQ(joined[0].outer.size(), 4U);
}

TEST(Polygon, joined_round_a_gap_have_a_hole) {
  const auto ring =
      united({horseshoe, {corner(0, -5), corner(30, -5), corner(30, 0), corner(0, 0)}});
  ASSERT_EQ(ring.size(), 1U);
  ASSERT_EQ(ring[0].holes.size(), 1U);
  EXPECT_NEAR(area(ring[0].holes[0]), 100, 1e-9);
}

TEST(Polygon, grows_by_the_same_width_all_round) {
  const auto wider = grown(united({square(0, 0, 10)}), Mm{3});
  ASSERT_EQ(wider.size(), 1U);
  EXPECT_NEAR(area(wider), 16 * 16, 1e-6);
  EXPECT_NEAR(area(grown(wider, Mm{-3})), 100, 1e-6);
}

TEST(Polygon, shares_what_both_cover_and_nothing_along_a_common_side) {
  EXPECT_NEAR(area(common(square(0, 0, 10), square(5, 5, 10))), 25, 1e-9);
  EXPECT_EQ(area(common(square(0, 0, 10), square(10, 0, 10))), 0);
}

TEST(Polygon, without_a_piece_is_the_rest) {
  EXPECT_NEAR(area(without(united({square(0, 0, 10)}), {square(5, 5, 10)})), 75, 1e-9);
}

TEST(Polygon, triangles_cover_it_once) {
  for (Polygon shape : {horseshoe, square(0, 0, 7)}) {
    for (int way = 0; way < 2; ++way) {
      double sum = 0;
      for (const auto& t : triangles(shape)) {
        sum += signed_area({shape[t[0]], shape[t[1]], shape[t[2]]});
      }
      EXPECT_NEAR(sum, signed_area(shape), 1e-9);
      std::reverse(shape.begin(), shape.end());
    }
  }
}

TEST(Polygon, convex_parts_are_convex_and_cover_it_once) {
  Polygon bitten{corner(0, 0)};
  for (int i = 0; i <= 12; ++i) {
    const double a = std::numbers::pi * (1 + i / 12.0);
    bitten.push_back(corner(15 + 8 * std::cos(a), -8 * std::sin(a)));
  }
  for (const Point p : {corner(30, 0), corner(30, 40), corner(0, 40)}) bitten.push_back(p);
  for (const Polygon& shape : {horseshoe, bitten}) {
    double sum = 0;
    for (const Polygon& part : convex_parts(shape)) {
      sum += area(part);
      for (std::size_t i = 0; i < part.size(); ++i) {
        const Polygon bend{part[i], part[(i + 1) % part.size()], part[(i + 2) % part.size()]};
        EXPECT_GE(signed_area(bend), -1e-9);
      }
    }
    EXPECT_NEAR(sum, area(shape), 1e-9);
  }
  EXPECT_EQ(convex_parts(square(0, 0, 5)).size(), 1U);
  EXPECT_LE(convex_parts(horseshoe).size(), 4U);
}

}  // namespace
}  // namespace quoin
