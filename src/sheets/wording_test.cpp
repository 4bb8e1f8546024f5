#include "sheets/wording.h"

#include <gtest/gtest.h>

namespace quoin::sheets {
namespace {

TEST(Wording, drops_zeros_that_say_nothing) {
  EXPECT_EQ(number(Mm{9.75}), "9.75");
  EXPECT_EQ(number(Mm{15.1}), "15.1");
  EXPECT_EQ(number(Mm{100}), "100");
  EXPECT_EQ(number(Mm{0}), "0");
}

TEST(Wording, rounds_to_a_hundredth_and_never_to_minus_nothing) {
  EXPECT_EQ(number(Mm{1.3499999}), "1.35");
  EXPECT_EQ(number(Mm{-0.001}), "0");
  EXPECT_EQ(number(Mm{-1.5}), "-1.5");
}

TEST(Wording, counts_one_apart_from_many) {
  EXPECT_EQ(counted(1, "sheet"), "1 sheet");
  EXPECT_EQ(counted(11, "card"), "11 cards");
  EXPECT_EQ(counted(2, "box"), "2 boxes");
  EXPECT_EQ(millimetres(Size{Mm{63.5}, Mm{88.9}}), "63.5 x 88.9 mm");
}

}  // namespace
}  // namespace quoin::sheets
