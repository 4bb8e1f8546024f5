#include "formats/decimal.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

namespace quoin {
namespace {

TEST(Decimal, says_no_more_digits_than_count) {
  EXPECT_EQ(decimal(1.5, 4), "1.5");
  EXPECT_EQ(decimal(-0.00001, 4), "0");
  EXPECT_EQ(decimal(2.00004, 4), "2");
  EXPECT_EQ(decimal(1.0 / 3, 4), "0.3333");
}

TEST(Decimal, keeps_the_zeros_of_whole_numbers) {
  EXPECT_EQ(decimal(100, 4), "100");
  EXPECT_EQ(decimal(100, 0), "100");
  EXPECT_EQ(decimal(-0.4, 0), "0");
}

TEST(Decimal, refuses_what_is_no_number) {
  EXPECT_THROW((void)decimal(std::nan(""), 4), std::logic_error);
  EXPECT_THROW((void)decimal(INFINITY, 4), std::logic_error);
}

}  // namespace
}  // namespace quoin
