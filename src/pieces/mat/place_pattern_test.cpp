#include "pieces/mat/place_pattern.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace quoin::pieces {
namespace {

PlacePattern pattern_of(PlaceArrange arrange, int count) {
  PlacePattern pattern;
  pattern.arrange = arrange;
  pattern.count = count;
  pattern.each = {Mm{66}, Mm{92}};
  pattern.gap = Mm{4};
  pattern.radius = Mm{5};
  return pattern;
}

TEST(PlacePattern, lays_a_row_from_left_to_right) {
  const LaidPlaces laid = lay_places(pattern_of(PlaceArrange::row, 3));
  ASSERT_EQ(laid.spots.size(), 3U);
  EXPECT_EQ(laid.spots[0].middle, (Point{Mm{33}, Mm{46}}));
  EXPECT_EQ(laid.spots[2].middle, (Point{Mm{173}, Mm{46}}));
  EXPECT_EQ(laid.whole, (Size{Mm{206}, Mm{92}}));
}

TEST(PlacePattern, lays_a_grid_row_after_row) {
  PlacePattern pattern = pattern_of(PlaceArrange::grid, 5);
  pattern.columns = 2;
  const LaidPlaces laid = lay_places(pattern);
  EXPECT_EQ(laid.spots[3].middle, (Point{Mm{103}, Mm{142}}));
  EXPECT_EQ(laid.spots[4].middle, (Point{Mm{33}, Mm{238}}));
  EXPECT_EQ(laid.whole, (Size{Mm{136}, Mm{284}}));
}

TEST(PlacePattern, leaves_room_for_the_cards_beneath_a_pile) {
  const LaidPlaces laid = lay_places(pattern_of(PlaceArrange::pile, 9));
  EXPECT_EQ(laid.spots.size(), 1U);
  EXPECT_TRUE(nearly_equal(laid.whole, Size{Mm{68.4}, Mm{94.4}}));
  EXPECT_EQ(pile_edges(pattern_of(PlaceArrange::pile, 1), laid).size(), 2U);
}

TEST(PlacePattern, opens_a_fan_by_its_spread_the_middle_card_upright) {
  PlacePattern pattern = pattern_of(PlaceArrange::fan, 5);
  pattern.spread = Angle::degrees(60);
  const LaidPlaces laid = lay_places(pattern);
  EXPECT_NEAR(laid.spots.front().turn.in_degrees(), -30, 1e-9);
  EXPECT_NEAR(laid.spots[2].turn.in_degrees(), 0, 1e-9);
  EXPECT_NEAR(laid.spots.back().turn.in_degrees(), 30, 1e-9);
  EXPECT_NEAR((laid.spots[0].middle.x + laid.spots[4].middle.x).value, laid.whole.width.value,
              1e-9);
}

TEST(PlacePattern, shows_of_a_fan_what_the_cards_over_it_leave) {
  const PlacePattern pattern = pattern_of(PlaceArrange::fan, 4);
  const std::vector<Path> seen = seen_outlines(pattern, lay_places(pattern));
  ASSERT_EQ(seen.size(), 4U);
  EXPECT_GT(seen[3].steps().size(), 40U) << "the last is whole, with its round corners";
  for (const Path& path : seen) EXPECT_FALSE(path.empty());
}

RC_GTEST_PROP(PlacePattern, keeps_every_place_inside_the_whole, ()) {
  PlacePattern pattern;
  pattern.arrange = static_cast<PlaceArrange>(*rc::gen::inRange(0, 6));
  pattern.count = *rc::gen::inRange(1, 61);
  pattern.columns = *rc::gen::inRange(1, 12);
  pattern.each = {Mm{*rc::gen::inRange(20, 150) * 1.0}, Mm{*rc::gen::inRange(20, 150) * 1.0}};
  pattern.gap = Mm{*rc::gen::inRange(-10, 60) * 0.5};
  pattern.spread = Angle::degrees(*rc::gen::inRange(0, 181));
  const LaidPlaces laid = lay_places(pattern);
  const bool alone =
      pattern.arrange == PlaceArrange::single || pattern.arrange == PlaceArrange::pile;
  RC_ASSERT(static_cast<int>(laid.spots.size()) == (alone ? 1 : pattern.count));
  const Rect each{{-pattern.each.width / 2, -pattern.each.height / 2}, pattern.each};
  for (const PlaceSpot& spot : laid.spots) {
    RC_ASSERT(lies_in(bounds(place_map(spot), each), Rect{{}, laid.whole}));
  }
}

TEST(PlaceOutline, comes_close_to_the_round_corners_it_stands_for) {
  const Size each{Mm{66}, Mm{92}};
  const double corner = (4 - 3.14159265358979) * 25;  // what four quarter circles of 5 mm leave out
  EXPECT_NEAR(area(place_outline(each, Mm{5})), 66 * 92 - corner, 0.4);
  EXPECT_NEAR(area(place_outline(each, Mm{})), 66 * 92, 1e-9);
  EXPECT_TRUE(is_simple(place_outline(each, Mm{500})));
}

}  // namespace
}  // namespace quoin::pieces
