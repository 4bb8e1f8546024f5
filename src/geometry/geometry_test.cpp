#include "geometry/geometry.h"

#include <gtest/gtest.h>

namespace quoin {
namespace {

TEST(Affine, turns_exactly_at_right_angles) {
  const Affine quarter = Affine::turn(Angle::degrees(90));
  EXPECT_EQ(quarter(Point{1_mm, 0_mm}), (Point{0_mm, 1_mm}));
  EXPECT_EQ(Affine::turn(Angle::degrees(180))(Point{1_mm, 2_mm}), (Point{-1_mm, -2_mm}));
  EXPECT_EQ(Affine::turn(Angle::degrees(-90))(Point{1_mm, 0_mm}), (Point{0_mm, -1_mm}));
  EXPECT_EQ(Affine::turn(Angle::degrees(720)), Affine{});
}

TEST(Affine, does_the_first_before_the_second) {
  const Affine both = then(Affine::move({1_mm, 0_mm}), Affine::turn(Angle::degrees(90)));
  EXPECT_EQ(both(Point{0_mm, 0_mm}), (Point{0_mm, 1_mm}));
}

TEST(Affine, is_undone_by_its_inverse) {
  const Affine map = then(Affine::turn(Angle::degrees(33)), Affine::move({3_mm, -7_mm}));
  const Point there = (*inverse(map))(map(Point{5_mm, 6_mm}));
  EXPECT_NEAR(there.x.value, 5, 1e-12);
  EXPECT_NEAR(there.y.value, 6, 1e-12);
  EXPECT_FALSE(inverse(Affine::scale(0, 1)));
}

TEST(Affine, turns_about_a_point_that_stays) {
  const Affine map = Affine::turn_about({10_mm, 20_mm}, Angle::degrees(90));
  EXPECT_EQ(map(Point{10_mm, 20_mm}), (Point{10_mm, 20_mm}));
  EXPECT_EQ(map(Point{11_mm, 20_mm}), (Point{10_mm, 21_mm}));
}

TEST(Rect, overlaps_only_where_both_are) {
  const Rect a{{0_mm, 0_mm}, {10_mm, 10_mm}};
  EXPECT_EQ(overlap(a, Rect{{5_mm, 5_mm}, {10_mm, 10_mm}}), (Rect{{5_mm, 5_mm}, {5_mm, 5_mm}}));
  EXPECT_FALSE(overlap(a, Rect{{10_mm, 0_mm}, {5_mm, 5_mm}}));
}

TEST(Rect, grows_outwards) {
  const Rect grown_rect = grown(Rect{{0_mm, 0_mm}, {10_mm, 20_mm}}, 3_mm);
  EXPECT_EQ(grown_rect, (Rect{{-3_mm, -3_mm}, {16_mm, 26_mm}}));
}

TEST(Rect, has_bounds_round_a_turned_one) {
  const Rect box = bounds(Affine::turn(Angle::degrees(90)), Rect{{0_mm, 0_mm}, {10_mm, 20_mm}});
  EXPECT_EQ(box, (Rect{{-20_mm, 0_mm}, {20_mm, 10_mm}}));
}

}  // namespace
}  // namespace quoin
