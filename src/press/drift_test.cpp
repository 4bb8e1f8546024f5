#include "press/drift.h"

#include <gmock/gmock.h>

#include "press/sheet_layout.h"

namespace quoin::press {
namespace {

Profile askew_printer() {
  Profile profile;
  profile.back = {{0.6_mm, -0.4_mm}, Angle::degrees(0.1), 1.001, 0.999, Angle::degrees(0.02)};
  profile.scale_x = 0.998;
  profile.scale_y = 1.001;
  profile.within = Mm{0.08};
  return profile;
}

SheetMeasured moved(double across) { return {Affine::move({Mm{across}, Mm{}}), 0.1_mm, 0.02_mm}; }

TEST(Drift, has_places_all_over_the_sheet_and_what_is_off_at_each) {
  const Profile profile = askew_printer();
  const Drift drift = drift_of(profile, {moved(0.5), moved(0.7)});
  ASSERT_EQ(drift.places.size(), 20U);
  for (const DriftPlace& place : drift.places) {
    EXPECT_GE(place.at.x, 20_mm);
    EXPECT_LE(place.at.y, 277_mm);
    EXPECT_LT(length(mean_back(profile)(place.at) - (place.at + place.mean)), Mm{1e-9});
    ASSERT_EQ(place.sheets.size(), 2U);
    EXPECT_NEAR(place.sheets[1].x.value, 0.7, 1e-9);
    EXPECT_NEAR(place.reach.value, 0.08, 1e-9) << "no spread is known";
  }
  // The next place is 56.7 mm away: arrows of 0.94 mm and a reach of 0.08 fit 20 times larger.
  EXPECT_EQ(drift.magnified, 20);
}

TEST(Drift, of_a_sheet_lying_sideways_has_more_places_across) {
  Profile profile = askew_printer();
  profile.paper = turned(profile.paper);
  const Drift drift = drift_of(profile, {});
  EXPECT_EQ(drift.places[4].at.y, 20_mm);
  EXPECT_EQ(drift.places[5].at.x, 20_mm);
  EXPECT_TRUE(drift.places[0].sheets.empty());
}

TEST(Drift, reaches_farther_where_a_turn_has_a_longer_arm) {
  Profile profile = askew_printer();
  profile.spread = {0.1_mm, 0.2_mm, Angle::degrees(0.05)};
  const Drift drift = drift_of(profile, {});
  // 1.96 · hypot(0.2, 0.00087266 · 154.07) + 0.08 at a corner, by hand.
  EXPECT_NEAR(drift.places[0].reach.value, 0.5523, 0.0001);
  EXPECT_LT(drift.places[9].reach, drift.places[0].reach);
}

TEST(Meeting, of_the_mean_falls_on_its_front_once_it_is_corrected) {
  for (const auto flip : {game::FlipEdge::long_edge, game::FlipEdge::short_edge}) {
    Profile profile = askew_printer();
    profile.flip = flip;
    const Affine behind = turned_over(profile.paper, flip);
    const Meeting meeting = meeting_of(profile, mean_back(profile));
    for (const Point p : worst_corners(profile.paper)) {
      EXPECT_LT(length(meeting.front_after(p) - p), Mm{1e-9}) << "at its true size";
      EXPECT_LT(length(meeting.back_after(behind(p)) - p), Mm{1e-9});
      EXPECT_GT(length(meeting.back_before(behind(p)) - meeting.front_before(p)), Mm{0.3});
    }
  }
}

TEST(Meeting, of_one_sheet_keeps_what_it_strays_from_the_mean) {
  Profile profile;
  profile.back.shift = {0.6_mm, 0_mm};
  const Meeting meeting = meeting_of(profile, Affine::move({0.8_mm, 0.1_mm}));
  const Affine behind = turned_over(profile.paper, profile.flip);
  const Point p{40_mm, 50_mm};
  EXPECT_NEAR((meeting.back_before(behind(p)) - p).x.value, 0.8, 1e-9);
  EXPECT_NEAR((meeting.back_after(behind(p)) - p).x.value, 0.2, 1e-9);
  EXPECT_NEAR((meeting.back_after(behind(p)) - p).y.value, 0.1, 1e-9);
}

}  // namespace
}  // namespace quoin::press
