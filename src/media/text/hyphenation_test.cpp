#include "media/text/hyphenation.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "media/text/house.h"

namespace quoin {
namespace {

using ::testing::IsEmpty;

const Hyphenator& english() {
  static const Hyphenator hyphenator = *Hyphenator::read(house_patterns().bytes);
  return hyphenator;
}

std::string divided(std::string text, const Hyphenator& hyphenator = english()) {
  const std::vector<std::size_t> places = soft_hyphen_places(text, hyphenator);
  for (auto place = places.rbegin(); place != places.rend(); ++place) text.insert(*place, 1, '-');
  return text;
}

// Words that Liang's thesis (1983) and The TeXbook, appendix H, divide: "hy-phen-ation" is the
// worked example of both.
TEST(Hyphenator, divides_as_the_published_examples) {
  EXPECT_EQ(divided("hyphenation"), "hy-phen-ation");
  EXPECT_EQ(divided("supercalifragilisticexpialidocious"),
            "su-per-cal-ifrag-ilis-tic-ex-pi-ali-do-cious");
  EXPECT_EQ(divided("concatenation"), "con-cate-na-tion");
}

TEST(Hyphenator, leaves_two_letters_before_and_three_after_in_english) {
  EXPECT_EQ(divided("any ago able"), "any ago able");
  EXPECT_EQ(divided("reply"), "re-ply");
}

TEST(Hyphenator, divides_words_whatever_stands_round_them) {
  EXPECT_EQ(divided("“Hyphenation”, HYPHENATION; 12hyphenation"),
            "“Hy-phen-ation”, HY-PHEN-ATION; 12hy-phen-ation");
}

TEST(Hyphenator, leaves_words_alone_that_the_maker_divided) {
  EXPECT_EQ(divided("hyphen\u00ADation"), "hyphen\u00ADation");
}

TEST(Hyphenator, reads_older_encodings_and_two_levels) {
  const auto latin = Hyphenator::read(
      "ISO8859-1\nLEFTHYPHENMIN 2\nRIGHTHYPHENMIN 2\n1-1\nNEXTLEVEL\n"
      "\xE4"
      "1g\n% a remark\nau1s/x=y,1,2\n");
  ASSERT_TRUE(latin);
  EXPECT_EQ(divided("säge aust", *latin), "sä-ge aust");
}

TEST(Hyphenator, refuses_what_is_no_dictionary) {
  EXPECT_FALSE(Hyphenator::read(""));
  EXPECT_FALSE(Hyphenator::read("UTF-8\n"));
  EXPECT_FALSE(Hyphenator::read("EBCDIC\na1b\n"));
  EXPECT_FALSE(
      Hyphenator::read("UTF-8\n\xFF\xFE"
                       "1\n"));
}

TEST(Hyphenator, passes_over_words_without_end) {
  EXPECT_THAT(english().breaks(std::u32string(100000, U'a')), IsEmpty());
}

TEST(HyphenationShelf, takes_the_games_dictionary_first_and_leaves_its_fonts) {
  const auto bytes = [](const char* text) { return std::make_shared<const Bytes>(text); };
  std::vector<FontFile> files{{"fonts/a.ttf", bytes("x")},
                              {"fonts/hyph_en_US.dic", bytes("UTF-8\nx1x\n")},
                              {"fonts/hyph_qx.dic", bytes("UTF-8\nq1x\n")}};
  HyphenationShelf shelf(files);
  ASSERT_EQ(files.size(), 1U);
  EXPECT_EQ(files[0].name, "fonts/a.ttf");
  EXPECT_EQ(divided("axxa", *shelf.find("en-US")), "ax-xa");
  EXPECT_EQ(divided("aqxa", *shelf.find("qx-AA")), "aq-xa");
  EXPECT_EQ(shelf.find("qy"), nullptr);
  EXPECT_THAT(shelf.borrowed(), IsEmpty());
}

TEST(HyphenationShelf, has_american_english_of_its_own) {
  std::vector<FontFile> files;
  HyphenationShelf shelf(files);
  EXPECT_EQ(divided("hyphenation", *shelf.find("en")), "hy-phen-ation");
  EXPECT_THAT(shelf.borrowed(), IsEmpty());
}

}  // namespace
}  // namespace quoin
