#include "formats/dxf/outline.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <stdexcept>

namespace quoin::dxf {
namespace {

using testing::IsEmpty;
using testing::SizeIs;

constexpr Mm fine{0.01};

/// The cubic usually drawn for an arc about the origin.
std::pair<Point, Path::Step> usual_arc(double radius, double from, double sweep) {
  const double handle = radius * 4 / 3 * std::tan(sweep / 4);
  const auto at = [&](double angle, double along) {
    return Point{Mm{radius * std::cos(angle) - along * std::sin(angle)},
                 Mm{radius * std::sin(angle) + along * std::cos(angle)}};
  };
  const double to = from + sweep;
  return {at(from, 0), {Path::Verb::curve, {at(from, handle), at(to, -handle), at(to, 0)}}};
}

TEST(ArcOf, knows_the_usual_cubics_of_arcs_either_way_round) {
  for (const double sweep : {0.01, 0.4, 1.0, std::numbers::pi / 2, -0.3, -std::numbers::pi / 2}) {
    const auto [from, curve] = usual_arc(12.5, 0.7, sweep);
    const std::optional<Arc> arc = arc_of(from, curve);
    ASSERT_TRUE(arc) << sweep;
    EXPECT_NEAR(arc->radius.value, 12.5, 1e-6) << sweep;
    EXPECT_NEAR(arc->sweep.radians, sweep, 1e-9) << sweep;
    EXPECT_NEAR(length(arc->centre - Point{}).value, 0, 1e-5) << sweep;
  }
}

TEST(ArcOf, knows_no_other_curves) {
  auto [from, curve] = usual_arc(10, 0, 1);
  auto bent = curve, longer = curve, straight = curve;
  bent.p[0].x += 0.01_mm;
  for (Point* handle : {&longer.p[0], &longer.p[1]}) handle->y += 0.01_mm;
  straight.p[0] = from;
  for (const Path::Step& other : {bent, longer, straight}) EXPECT_FALSE(arc_of(from, other));
  const Path oval = Path::ellipse({{}, {20_mm, 10_mm}});
  EXPECT_FALSE(arc_of(oval.steps()[0].p[0], oval.steps()[1]));
}

TEST(Outlines, keep_the_arcs_of_a_rounded_rectangle) {
  const auto ways = outlines(Path::rounded_rectangle({{}, {30_mm, 20_mm}}, 3_mm), fine);
  ASSERT_THAT(ways, SizeIs(1));
  EXPECT_TRUE(ways[0].closed);
  ASSERT_THAT(ways[0].corners, SizeIs(8));
  int arcs = 0;
  for (const Corner& corner : ways[0].corners) {
    if (corner.bulge == 0) continue;
    EXPECT_NEAR(corner.bulge, std::tan(std::numbers::pi / 8), 1e-9);
    ++arcs;
  }
  EXPECT_EQ(arcs, 4);
}

TEST(Outlines, keep_within_the_tolerance_of_other_curves) {
  const Path oval = Path::ellipse({{-20_mm, -10_mm}, {40_mm, 20_mm}});
  const auto ways = outlines(oval, fine);
  ASSERT_THAT(ways, SizeIs(1));
  const auto& corners = ways[0].corners;
  EXPECT_LT(corners.size(), 300U);
  for (std::size_t i = 0; i < corners.size(); ++i) {
    // Corners lie on the Béziers, which leave the ellipse by 2.7e-4 of 20 mm; middles of chords
    // 0.01 mm more.
    const Point a = corners[i].at, b = corners[(i + 1) % corners.size()].at;
    for (const Point p : {a, a + (b - a) * 0.5}) {
      const double off = std::hypot(p.x.value / 20, p.y.value / 10) - 1;
      EXPECT_LT(std::abs(off) * 20, 2.7e-4 * 20 + 0.02);
    }
  }
}

TEST(Outlines, are_one_for_each_part_of_a_path) {
  Path path;
  path.move_to({0_mm, 0_mm}).line_to({5_mm, 0_mm});
  path.move_to({9_mm, 9_mm});  // goes nowhere
  path.move_to({0_mm, 5_mm}).line_to({5_mm, 5_mm}).line_to({5_mm, 9_mm}).line_to({0_mm, 5_mm});
  path.close().line_to({1_mm, 5_mm});
  const auto ways = outlines(path, fine);
  ASSERT_THAT(ways, SizeIs(3));
  EXPECT_FALSE(ways[0].closed);
  EXPECT_TRUE(ways[1].closed);
  EXPECT_THAT(ways[1].corners, SizeIs(3));
  EXPECT_EQ(ways[2].corners[0].at, (Point{0_mm, 5_mm}));
}

TEST(Outlines, of_nothing_are_none) {
  EXPECT_THAT(outlines({}, fine), IsEmpty());
  Path dot;
  dot.move_to({1_mm, 1_mm}).line_to({1_mm, 1_mm}).close();
  EXPECT_THAT(outlines(dot, fine), IsEmpty());
}

TEST(Outlines, refuse_places_that_are_no_numbers) {
  Path path;
  const Mm nowhere{std::numeric_limits<double>::quiet_NaN()};
  path.move_to({0_mm, 0_mm}).curve_to({nowhere, 0_mm}, {1_mm, 1_mm}, {2_mm, 0_mm});
  EXPECT_THROW((void)outlines(path, fine), std::logic_error);
}

}  // namespace
}  // namespace quoin::dxf
