#include "geometry/path.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace quoin {
namespace {

Point at(double x, double y) { return {Mm{x}, Mm{y}}; }
Rect rect(double x, double y, double w, double h) { return {at(x, y), {Mm{w}, Mm{h}}}; }

void expect_near(Rect is, Rect wanted, double within) {
  EXPECT_NEAR(is.left().value, wanted.left().value, within);
  EXPECT_NEAR(is.top().value, wanted.top().value, within);
  EXPECT_NEAR(is.right().value, wanted.right().value, within);
  EXPECT_NEAR(is.bottom().value, wanted.bottom().value, within);
}

Point on_curve(Point from, const Path::Step& c, double t) {
  const double u = 1 - t;
  const auto mix = [&](Mm Point::*axis) {
    return from.*axis * (u * u * u) + c.p[0].*axis * (3 * u * u * t) +
           c.p[1].*axis * (3 * u * t * t) + c.p[2].*axis * (t * t * t);
  };
  return {mix(&Point::x), mix(&Point::y)};
}

Path drawn(std::string_view data) {
  std::optional<PathDataError> error;
  Path path = path_from_svg(data, error);
  EXPECT_FALSE(error) << data << ": " << error->what << " at " << error->offset;
  return path;
}

std::string fault(std::string_view data) {
  std::optional<PathDataError> error;
  (void)path_from_svg(data, error);
  return error ? std::to_string(error->offset) + ": " + error->what : "none";
}

TEST(PathBounds, touch_the_curve_and_not_its_handles) {
  Path arch;
  arch.move_to(at(0, 0)).curve_to(at(0, 1), at(1, 1), at(1, 0));
  expect_near(bounds(arch), rect(0, 0, 1, 0.75), 1e-12);
}

TEST(PathBounds, find_both_turning_places_of_an_s) {
  // x' = 3(4 - 22t + 22t²), zero at t = (22 ± √132) / 44; x there worked out by hand.
  Path s;
  s.move_to(at(0, 0)).curve_to(at(4, 0), at(-3, 0), at(1, 0));
  expect_near(bounds(s), rect(-0.283349, 0, 1.566699, 0), 1e-5);
}

TEST(PathBounds, of_a_line_that_is_a_curve_are_its_ends) {
  Path line;
  line.move_to(at(2, 3)).curve_to(at(3, 4), at(4, 5), at(5, 6));
  expect_near(bounds(line), rect(2, 3, 3, 3), 1e-12);
}

TEST(PathBounds, of_nothing_are_nothing) { EXPECT_EQ(bounds(Path{}), Rect{}); }

TEST(Path, ellipse_keeps_to_its_rectangle) {
  expect_near(bounds(Path::ellipse(rect(3, -2, 20, 10))), rect(3, -2, 20, 10), 1e-12);
}

TEST(Path, rounded_corners_leave_the_circle_by_no_more_than_they_say) {
  constexpr double radius = 3.5;
  const Path path = Path::rounded_rectangle(rect(0, 0, 63.5, 88.9), Mm{radius});
  const Path::Step& corner = path.steps()[2];  // top right
  ASSERT_EQ(corner.verb, Path::Verb::curve);
  const Point from = path.steps()[1].p[0], centre = at(63.5 - radius, radius);
  for (int i = 0; i <= 100; ++i) {
    const double r = length(on_curve(from, corner, i / 100.0) - centre).value;
    EXPECT_GE(r, radius * (1 - 1e-9));
    EXPECT_LE(r, radius * (1 + 2.8e-4));
  }
}

TEST(Path, a_radius_over_half_the_side_is_cut_to_it) {
  const Path path = Path::rounded_rectangle(rect(0, 0, 10, 4), Mm{9});
  EXPECT_EQ(path.steps().front().p[0], at(2, 0));
  expect_near(bounds(path), rect(0, 0, 10, 4), 1e-12);
}

TEST(Path, may_be_appended_to_itself) {
  Path path = Path::rectangle(rect(0, 0, 1, 1));
  path.append(path);
  EXPECT_EQ(path.steps().size(), 10U);
}

TEST(Path, is_mapped_handle_by_handle) {
  const Path turned =
      mapped(Path::ellipse(rect(0, 0, 4, 2)), Affine::turn_about(at(2, 1), Angle::degrees(90)));
  expect_near(bounds(turned), rect(1, -1, 2, 4), 1e-12);
}

// The pie of SVG 1.1 section 8.3.8 (arcs01.svg): circles of radius 150 round (300, 200) and
// (275, 175), three quarters and one quarter.
TEST(PathData, draws_the_arcs_of_the_standards_first_example) {
  expect_near(bounds(drawn("M300,200 h-150 a150,150 0 1,0 150,-150 z")), rect(150, 50, 300, 300),
              0.05);
  expect_near(bounds(drawn("M275,175 v-150 a150,150 0 0,0 -150,150 z")), rect(125, 25, 150, 150),
              0.05);
}

// The four arcs of SVG 1.1 section 8.3.8 (arcs02.svg), "a100,50 0 large,sweep 100,50": both
// ellipses through (125, 75) and (225, 125) have centres (125, 125) and (225, 75); bounds follow
// from which quadrants are passed.
TEST(PathData, chooses_among_four_arcs_by_the_flags) {
  expect_near(bounds(drawn("M 125,75 a100,50 0 1,0 100,50")), rect(25, 75, 200, 100), 0.05);
  expect_near(bounds(drawn("M 125,75 a100,50 0 1,1 100,50")), rect(125, 25, 200, 100), 0.05);
  const Path left = drawn("M 125,75 a100,50 0 0,0 100,50");
  const Path right = drawn("M 125,75 a100,50 0 0,1 100,50");
  expect_near(bounds(left), rect(125, 75, 100, 50), 1e-9);
  expect_near(bounds(right), rect(125, 75, 100, 50), 1e-9);
  EXPECT_NEAR(left.steps()[1].p[0].x.value, 125, 1e-9);  // sets out downwards
  EXPECT_NEAR(right.steps()[1].p[0].y.value, 75, 1e-9);  // sets out to the right
}

// The first bump of the ribbon in SVG 1.1 section 8.3.8: the ends are √(50² + 25²) apart, more than
// twice the radius, so that by F.6.6 half a circle of half that distance is drawn.
TEST(PathData, stretches_radii_that_are_too_small) {
  const Path bump = drawn("M650,325 a25,25 -30 0,1 50,-25");
  ASSERT_EQ(bump.steps().size(), 3U);
  const Point top = bump.steps()[1].p[2];
  EXPECT_NEAR(length(top - at(675, 312.5)).value, std::hypot(50, 25) / 2, 1e-9);
  EXPECT_LT(top.y.value, 300);
}

TEST(PathData, draws_arcs_without_radius_as_lines_and_arcs_to_nowhere_not_at_all) {
  EXPECT_EQ(drawn("M0 0 A0 5 0 0 1 4 4").steps()[1].verb, Path::Verb::line);
  EXPECT_EQ(drawn("M0 0 A5 5 0 0 1 0 0").steps().size(), 1U);
}

TEST(PathData, repeats_a_command_and_goes_on_with_lines_after_a_move) {
  const Path path = drawn("m1 1 2 0 0 2zl5 5");
  const auto& steps = path.steps();
  ASSERT_EQ(steps.size(), 6U);
  EXPECT_EQ(steps[2].p[0], at(3, 3));
  EXPECT_EQ(steps[4].verb, Path::Verb::move);  // a new part starts where the closed one began
  EXPECT_EQ(steps[4].p[0], at(1, 1));
  EXPECT_EQ(steps[5].p[0], at(6, 6));
}

TEST(PathData, mirrors_the_last_handle_for_smooth_curves) {
  const Path cubic = drawn("M0 0C1 2 3 2 4 0S7-2 8 0");
  EXPECT_EQ(cubic.steps()[2].p[0], at(5, -2));
  const Path after_line = drawn("M0 0L4 0S7-2 8 0");
  EXPECT_EQ(after_line.steps()[2].p[0], at(4, 0));
  const Path quadratic = drawn("M0 0Q3 3 6 0T12 0");
  EXPECT_NEAR(quadratic.steps()[2].p[0].y.value, -2, 1e-12);  // two thirds of the way to (9, -3)
  EXPECT_NEAR(quadratic.steps()[2].p[0].x.value, 8, 1e-12);
}

TEST(PathData, reads_numbers_packed_as_the_grammar_allows) {
  const Path packed = drawn("M.5.5-1-1+2e0,1.");
  EXPECT_EQ(packed.steps()[1].p[0], at(-1, -1));
  EXPECT_EQ(packed.steps()[2].p[0], at(2, 1));
  EXPECT_EQ(drawn("M0 0a1 1 0 00.5.5").steps().back().p[2], at(0.5, 0.5));
  EXPECT_TRUE(drawn(" \n").empty());
}

TEST(PathData, says_where_it_stopped_and_what_it_met) {
  EXPECT_EQ(fault("M 10"), "4: a number was expected, not the end");
  EXPECT_EQ(fault("L 1 1"), "0: the drawing must start with M or m, not with 'L'");
  EXPECT_EQ(fault("M0 0 a1 1 0 2 0 1 1"), "12: an arc's flag must be 0 or 1, not '2'");
  EXPECT_EQ(fault("M0,0,"), "5: a number was expected, not the end");
  EXPECT_EQ(fault("M,0,0"), "1: a number was expected, not ','");
  EXPECT_EQ(fault("M0 0 l1 1 ä"), "10: a command letter was expected, not 'ä'");
  EXPECT_EQ(fault("M0 0 L inf 0"), "7: a number was expected, not 'i'");
  EXPECT_EQ(fault("M0 0 L +-1 0"), "7: a number was expected, not '+'");
  EXPECT_EQ(fault("M0 0 L 1e999 0"), "7: a length over a million millimetres");
  EXPECT_EQ(fault("M0 0 L 2000000 0"), "7: a length over a million millimetres");
}

TEST(PathData, keeps_what_was_drawn_before_the_fault) {
  std::optional<PathDataError> error;
  const Path path = path_from_svg("M0 0 L1 1 L2 x", error);
  ASSERT_TRUE(error);
  EXPECT_EQ(path.steps().size(), 2U);
}

}  // namespace
}  // namespace quoin
