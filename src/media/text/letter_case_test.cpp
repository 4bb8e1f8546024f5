#include "media/text/letter_case.h"

#include <gtest/gtest.h>

namespace quoin {
namespace {

// Source: Unicode Character Database, SpecialCasing.txt (ß, Turkish and Azeri i).
TEST(UpperCase, follows_the_language) {
  EXPECT_EQ(upper_case("title", "en"), "TITLE");
  EXPECT_EQ(upper_case("ışık titiz", "tr"), "IŞIK TİTİZ");
  EXPECT_EQ(upper_case("titiz", "az-Latn"), "TİTİZ");
  EXPECT_EQ(upper_case("straße", "de-AT"), "STRASSE");
  EXPECT_EQ(upper_case("ﬂut", "de"), "FLUT");
}

// Source: Unicode Standard, section 7.2: Greek capitals drop the tonos, and a dialytika marks a
// vowel pair that the tonos had kept apart.
TEST(UpperCase, takes_the_accents_off_greek) {
  EXPECT_EQ(upper_case("Άγιος", "el"), "ΑΓΙΟΣ");
  EXPECT_EQ(upper_case("μάιος", "el"), "ΜΑΪΟΣ");
  EXPECT_EQ(upper_case("ναύτης", "el"), "ΝΑΥΤΗΣ");
  EXPECT_EQ(upper_case("προϊόν", "el"), "ΠΡΟΪΟΝ");
  EXPECT_EQ(upper_case("εδώ ή εκεί", "el"), "ΕΔΩ Ή ΕΚΕΙ");
}

TEST(ValidUtf8, marks_what_is_no_text) {
  EXPECT_EQ(valid_utf8("a\xC3"), "a\uFFFD");
  EXPECT_EQ(valid_utf8(std::string("a\0b", 3)), "a\uFFFDb");
  EXPECT_EQ(valid_utf8("naïve"), "naïve");
}

TEST(PrimaryLanguage, is_what_stands_before_the_region) {
  EXPECT_EQ(primary_language("de-AT"), "de");
  EXPECT_EQ(primary_language("pt_BR"), "pt");
  EXPECT_EQ(primary_language("en"), "en");
}

}  // namespace
}  // namespace quoin
