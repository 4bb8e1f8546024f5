#include "pieces/card/measure_face.h"

#include <gtest/gtest.h>

#include "pieces/card/inspect_fixture.h"

namespace quoin::pieces {
namespace {

FaceMeasure measured(DrawnFace& drawn) {
  const FaceLook look = drawn.look();
  return measure_face(drawn.face(), look);
}

TEST(MeasureFace, finds_the_border_round_a_frame) {
  DrawnFace drawn;
  drawn.panel("ground", drawn.bleed_box, colour("#f5eddc"));
  // The line runs 2.5 mm inside the trim and is 0.6 mm wide: 2.2 mm of border are left.
  drawn.frame("frame", grown(drawn.trim_box, Mm{-2.5}), Mm{0.6}, black);
  const FaceMeasure measure = measured(drawn);
  ASSERT_TRUE(measure.border);
  EXPECT_NEAR(measure.border->width.value, 2.2, 0.01);
  EXPECT_EQ(measure.border->element, "frame");
}

TEST(MeasureFace, finds_the_border_round_a_panel_and_not_one_that_nobody_sees) {
  DrawnFace drawn;
  drawn.panel("ground", drawn.bleed_box, colour("#24475a"));
  drawn.panel("same", grown(drawn.trim_box, Mm{-1}), colour("#24475a"));
  drawn.panel("picture", grown(drawn.trim_box, Mm{-4}), colour("#f5eddc"));
  const FaceMeasure measure = measured(drawn);
  ASSERT_TRUE(measure.border);
  EXPECT_EQ(measure.border->element, "picture");
  EXPECT_NEAR(measure.border->width.value, 4, 0.01);
}

TEST(MeasureFace, sees_no_border_in_a_panel_that_is_uneven_or_runs_off) {
  DrawnFace drawn;
  drawn.panel("ground", drawn.bleed_box, colour("#24475a"));
  drawn.panel("foot", box(5, 60, 53.5, 20), white);
  EXPECT_FALSE(measured(drawn).border);
}

TEST(MeasureFace, knows_how_near_the_edge_words_come) {
  DrawnFace drawn;
  drawn.text("name", "Bladder Wrack", box(10, 10, 40, 8), 9);
  const FaceMeasure near_enough = measured(drawn);
  EXPECT_GT(near_enough.kept, Mm{9});
  EXPECT_LT(near_enough.kept, Mm{14});
  EXPECT_EQ(near_enough.kept_element, "name");
  EXPECT_TRUE(near_enough.is_paper_at_edge);
  DrawnFace empty;
  EXPECT_EQ(measured(empty).kept, FaceMeasure::far);
}

TEST(MeasureFace, counts_the_ink_of_each_plate) {
  DrawnFace drawn;
  const Rect half{drawn.bleed_box.at,
                  {drawn.bleed_box.size.width / 2, drawn.bleed_box.size.height}};
  drawn.panel("cyan", half, Colour{0, 1, 1, 1});
  const FaceMeasure cyan = measured(drawn);
  EXPECT_NEAR(cyan.ink[0], 0.5, 0.01);
  EXPECT_NEAR(cyan.ink[1] + cyan.ink[2] + cyan.ink[3], 0, 0.01);
  drawn.panel("black", drawn.bleed_box, black);
  EXPECT_NEAR(measured(drawn).ink[3], 1, 0.005);
}

}  // namespace
}  // namespace quoin::pieces
