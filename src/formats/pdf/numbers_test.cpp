#include "formats/pdf/numbers.h"

#include <gtest/gtest.h>

#include <limits>
#include <stdexcept>

namespace quoin::pdf {
namespace {

TEST(LengthText, keeps_four_decimals_and_no_superfluous_zeros) {
  EXPECT_EQ(length_text(595.27559055), "595.2756");
  EXPECT_EQ(length_text(612), "612");
  EXPECT_EQ(length_text(0.25), "0.25");
  EXPECT_EQ(length_text(100), "100");
}

TEST(LengthText, never_writes_a_negative_nought) {
  EXPECT_EQ(length_text(-0.0), "0");
  EXPECT_EQ(length_text(-0.00004), "0");
  EXPECT_EQ(length_text(-0.0001), "-0.0001");
}

TEST(LengthText, refuses_what_is_no_number) {
  EXPECT_THROW((void)length_text(std::numeric_limits<double>::quiet_NaN()), std::logic_error);
  EXPECT_THROW((void)length_text(std::numeric_limits<double>::infinity()), std::logic_error);
}

TEST(MatrixOnPage, puts_an_upright_drawing_with_its_bleed_where_it_belongs) {
  // A 63 x 88 mm card with 3 mm bleed, its trim at (10, 20) on A4.
  const Rect bounds{{-3_mm, -3_mm}, {69_mm, 94_mm}};
  const Matrix m = matrix_on_page(Affine::move({10_mm, 20_mm}), bounds, 297_mm);
  EXPECT_EQ(m.a, 1);
  EXPECT_EQ(m.b, 0);
  EXPECT_EQ(m.d, 1);
  EXPECT_NEAR(m.e, 7 * 72 / 25.4, 1e-9);
  EXPECT_NEAR(m.f, (297 - (20 + 91)) * 72 / 25.4, 1e-9);
}

TEST(MatrixOnPage, turns_clockwise_what_is_turned_clockwise_on_the_page) {
  const Rect bounds{{0_mm, 0_mm}, {10_mm, 20_mm}};
  const Affine map = then(Affine::turn(Angle::degrees(90)), Affine::move({50_mm, 30_mm}));
  const Matrix m = matrix_on_page(map, bounds, 100_mm);
  // The drawing's bottom left (0, 20) goes to (30, 30), its right (1, 0) to the page's down.
  EXPECT_NEAR(m.e, 30 * 72 / 25.4, 1e-9);
  EXPECT_NEAR(m.f, 70 * 72 / 25.4, 1e-9);
  EXPECT_EQ(m.text(), "0 -1 1 0 85.0394 198.4252");
}

TEST(RectangleText, counts_from_the_bottom_of_the_page) {
  EXPECT_EQ(rectangle_text({{0_mm, 0_mm}, {25.4_mm, 50.8_mm}}, 254_mm), "0 576 72 144");
}

}  // namespace
}  // namespace quoin::pdf
