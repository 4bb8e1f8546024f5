#include "press/fit.h"

#include <gmock/gmock.h>

#include <boost/math/distributions/fisher_f.hpp>
#include <cmath>
#include <random>

namespace quoin::press {
namespace {

Pair pair(double x, double y, double u, double v) { return {{Mm{x}, Mm{y}}, {Mm{u}, Mm{v}}}; }

const std::vector<Point> a4_corners{
    {15_mm, 15_mm}, {195_mm, 15_mm}, {15_mm, 282_mm}, {195_mm, 282_mm}};

/// Places over an A4 sheet, moved by a map, with a normal error in each coordinate.
std::vector<Pair> sheet(const Affine& map, double deviation, std::mt19937& random) {
  std::normal_distribution<double> normal(0, 1);
  std::vector<Pair> pairs;
  for (const double x : {12.0, 105.0, 198.0}) {
    for (const double y : {12.0, 148.5, 285.0}) {
      const Point meant{Mm{x}, Mm{y}};
      const Vec off{Mm{deviation * normal(random)}, Mm{deviation * normal(random)}};
      pairs.push_back({meant, map(meant) + off});
    }
  }
  return pairs;
}

const Affine slanted{1.003, 0.002, -0.001, 0.998, Mm{0.7}, Mm{-0.4}};

TEST(FitAffine, finds_the_map_of_exact_places) {
  std::mt19937 random(1);
  const auto fit = fit_affine(sheet(slanted, 0, random));
  ASSERT_TRUE(fit);
  EXPECT_NEAR(fit->map.a, slanted.a, 1e-12);
  EXPECT_NEAR(fit->map.b, slanted.b, 1e-12);
  EXPECT_NEAR(fit->map.c, slanted.c, 1e-12);
  EXPECT_NEAR(fit->map.d, slanted.d, 1e-12);
  EXPECT_NEAR(fit->map.e.value, 0.7, 1e-9);
  EXPECT_NEAR(fit->map.f.value, -0.4, 1e-9);
  EXPECT_NEAR(fit->rms.value, 0, 1e-9);
}

TEST(FitAffine, leaves_a_misread_place_out) {
  std::mt19937 random(2);
  std::vector<Pair> pairs = sheet(slanted, 0.01, random);
  pairs[4].found.x += 3_mm;
  const auto fit = fit_affine(pairs);
  ASSERT_TRUE(fit);
  EXPECT_FALSE(fit->kept[4]);
  EXPECT_EQ(fit->used, 8);
  EXPECT_LT(length(fit->map(Point{105_mm, 148_mm}) - slanted(Point{105_mm, 148_mm})).value, 0.03);
}

TEST(FitAffine, has_none_of_places_on_a_line_or_of_two) {
  EXPECT_FALSE(fit_affine({pair(0, 0, 0, 0), pair(10, 10, 10, 10), pair(50, 50, 50, 50.1)}));
  EXPECT_FALSE(fit_affine({pair(0, 0, 0, 0), pair(10, 0, 10, 0)}));
  EXPECT_FALSE(fit_affine({}));
}

TEST(FitAffine, says_nothing_of_the_error_of_three_places) {
  const auto fit = fit_affine({pair(0, 0, 1, 0), pair(100, 0, 101, 0), pair(0, 100, 1, 101)});
  ASSERT_TRUE(fit);
  EXPECT_EQ(fit->deviation, Mm{});
  EXPECT_FALSE(bound(*fit, a4_corners, {}));
}

TEST(FitAffine, states_a_bound_that_covers_the_truth_in_95_of_100) {
  std::mt19937 random(20261125);
  int covered = 0;
  constexpr int trials = 4000;
  for (int i = 0; i < trials; ++i) {
    const auto fit = fit_affine(sheet(slanted, 0.06, random), {10_mm});
    ASSERT_TRUE(fit);
    const Point corner = a4_corners[3];
    const auto at_corner = bound(*fit, {corner}, {});
    ASSERT_TRUE(at_corner);
    covered += length(fit->map(corner) - slanted(corner)) <= *at_corner ? 1 : 0;
  }
  EXPECT_NEAR(covered / static_cast<double>(trials), 0.95, 0.012);
}

TEST(FitAffine, bounds_by_the_quantile_of_f_that_boost_has) {
  std::mt19937 random(3);
  const auto fit = fit_affine(sheet(slanted, 0.06, random), {10_mm});
  ASSERT_TRUE(fit);
  const boost::math::fisher_f f(2, 2.0 * fit->used - 6);
  const double expected =
      std::sqrt(2 * boost::math::quantile(f, 0.95)) * fit->error_at(a4_corners[0]).value;
  const auto found = bound(*fit, {a4_corners[0]}, {});
  ASSERT_TRUE(found);
  EXPECT_NEAR(found->value, expected, 1e-9);
}

TEST(FitAffine, pools_what_is_known_with_what_is_seen) {
  std::mt19937 random(4);
  const auto exact = fit_affine(sheet(slanted, 0, random));
  ASSERT_TRUE(exact);
  EXPECT_NEAR(bound(*exact, a4_corners, {})->value, 0, 1e-6);
  EXPECT_GT(bound(*exact, a4_corners, {0.06_mm, 8})->value, 0.06);
}

TEST(FitAffine, covers_all_corners_together_in_95_of_100) {
  std::mt19937 random(20261126);
  int covered = 0;
  constexpr int trials = 4000;
  for (int i = 0; i < trials; ++i) {
    const auto fit = fit_affine(sheet(slanted, 0.06, random), {10_mm});
    const auto at_most = bound(*fit, a4_corners, {0.06_mm, 8});
    bool all = true;
    for (const Point corner : a4_corners) {
      all = all && length(fit->map(corner) - slanted(corner)) <= *at_most;
    }
    covered += all ? 1 : 0;
  }
  EXPECT_GT(covered / static_cast<double>(trials), 0.94);
}

/// S. Umeyama, IEEE PAMI 13(4), 1991, the example of section IV (reference values as published).
TEST(FitSimilarity, gives_the_published_example) {
  const std::vector<Pair> pairs{pair(0, 0, 0, 0), pair(1, 0, -1, 0), pair(0, 2, 0, 2)};
  const auto free = fit_similarity(pairs, Scaling::free);
  ASSERT_TRUE(free);
  EXPECT_NEAR(free->scale, std::sqrt(13) / 5, 1e-12);
  EXPECT_NEAR(free->map.a, free->scale * 3 / std::sqrt(13), 1e-12);
  EXPECT_NEAR(free->map.c, free->scale * 2 / std::sqrt(13), 1e-12);
  EXPECT_NEAR(free->map.e.value, -0.8, 1e-12);
  EXPECT_NEAR(free->map.f.value, 0.4, 1e-12);
  EXPECT_NEAR(free->mean_square, 8.0 / 15, 1e-12);
  EXPECT_GT(free->map.determinant(), 0);
  const auto rigid = fit_similarity(pairs, Scaling::none);
  ASSERT_TRUE(rigid);
  EXPECT_NEAR(rigid->map.e.value, -0.9804836, 1e-6);
  EXPECT_NEAR(rigid->map.f.value, 0.2968665, 1e-6);
  EXPECT_NEAR(rigid->mean_square, 0.6197549, 1e-6);
}

/// A turn of 0.1 degrees, a scale of 1.001 and a move of 0.5, -0.3, places rounded to 1e-6.
TEST(FitSimilarity, gives_a_known_similarity_back) {
  const std::vector<Pair> pairs{
      pair(10, 10, 10.492514, 9.727455), pair(200, 10, 200.682224, 10.059399),
      pair(200, 287, 200.198285, 287.335977), pair(10, 287, 10.008575, 287.004033),
      pair(105, 148.5, 105.345399, 148.531716)};
  const auto fit = fit_similarity(pairs, Scaling::free);
  ASSERT_TRUE(fit);
  EXPECT_NEAR(fit->turn.in_degrees(), 0.1, 1e-6);
  EXPECT_NEAR(fit->scale, 1.001, 1e-8);
  EXPECT_NEAR(fit->map.e.value, 0.5, 1e-5);
  EXPECT_NEAR(fit->map.f.value, -0.3, 1e-5);
  const auto affine = fit_affine(pairs);
  ASSERT_TRUE(affine);
  EXPECT_NEAR(affine->map.a, fit->map.a, 1e-7);
}

TEST(FitSimilarity, has_none_of_one_place) {
  EXPECT_FALSE(fit_similarity({pair(1, 1, 2, 2)}, Scaling::free));
  EXPECT_FALSE(fit_similarity({pair(1, 1, 2, 2), pair(1, 1, 2, 2)}, Scaling::free));
}

TEST(PartsOf, name_what_a_map_does_to_a_sheet) {
  const Point centre{105_mm, 148.5_mm};
  Affine map = then(Affine::scale(1.01, 0.99), Affine::turn_about({}, Angle::degrees(0.5)));
  const Point at = map(centre);
  map.e += centre.x - at.x + 2_mm;
  map.f += centre.y - at.y;
  const Parts parts = parts_of(map, centre);
  EXPECT_NEAR(parts.shift.x.value, 2, 1e-9);
  EXPECT_NEAR(parts.shift.y.value, 0, 1e-9);
  EXPECT_NEAR(parts.turn.in_degrees(), 0.5, 1e-9);
  EXPECT_NEAR(parts.scale_x, 1.01, 1e-12);
  EXPECT_NEAR(parts.scale_y, 0.99, 1e-12);
  EXPECT_NEAR(parts.skew.radians, 0, 1e-12);
}

}  // namespace
}  // namespace quoin::press
