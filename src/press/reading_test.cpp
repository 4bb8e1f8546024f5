#include "press/reading.h"

#include <gtest/gtest.h>

namespace quoin::press {
namespace {

double mm(std::string_view words) {
  const auto length = length_in_words(words);
  return length ? length->value : -12345;
}

TEST(LengthInWords, takes_millimetres_as_people_write_them) {
  EXPECT_DOUBLE_EQ(mm("149.5"), 149.5);
  EXPECT_DOUBLE_EQ(mm("149,5 mm"), 149.5);
  EXPECT_DOUBLE_EQ(mm("  149,5mm "), 149.5);
  EXPECT_DOUBLE_EQ(mm("14.95 cm"), 149.5);
  EXPECT_DOUBLE_EQ(mm("+0,3"), 0.3);
  EXPECT_DOUBLE_EQ(mm("-.3 MM"), -0.3);
  EXPECT_DOUBLE_EQ(mm("\u2212 0.3 mm"), -0.3);
  EXPECT_DOUBLE_EQ(mm("3/10 mm"), 0.3);
}

TEST(LengthInWords, takes_inches) {
  EXPECT_DOUBLE_EQ(mm("5 7/8 in"), 149.225);
  EXPECT_DOUBLE_EQ(mm("5.886\""), 5.886 * 25.4);
  EXPECT_DOUBLE_EQ(mm("-1/16 inch"), -1.5875);
  EXPECT_DOUBLE_EQ(mm("2\u00bd inches"), 63.5);
  EXPECT_DOUBLE_EQ(mm("1\u2033"), 25.4);
}

TEST(LengthInWords, refuses_what_it_does_not_understand) {
  for (const char* words : {"", "  ", "long", "1.2.3", "1 2", "1/0", "5 7/0 in", "3 miles", "1e3",
                            "mm", "-", "12000 mm", "nan", "inf", "1 / 2 / 3", "0x10"}) {
    EXPECT_FALSE(length_in_words(words)) << words;
  }
}

TEST(LineInWords, takes_lines_and_what_lies_between_two) {
  EXPECT_EQ(line_in_words("3"), 3);
  EXPECT_EQ(line_in_words("+3"), 3);
  EXPECT_EQ(line_in_words("-2"), -2);
  EXPECT_EQ(line_in_words("between 3 and 4"), 3.5);
  EXPECT_EQ(line_in_words("Between -1 and 0"), -0.5);
  EXPECT_EQ(line_in_words("3 or 4"), 3.5);
  EXPECT_EQ(line_in_words("3,5"), 3.5);
  EXPECT_EQ(line_in_words("3 1/2"), 3.5);
}

TEST(LineInWords, refuses_lines_that_are_not_there) {
  for (const char* words : {"", "21", "-30", "between 3 and 5", "3 and", "three", "3 mm", "3 4"}) {
    EXPECT_FALSE(line_in_words(words)) << words;
  }
}

}  // namespace
}  // namespace quoin::press
