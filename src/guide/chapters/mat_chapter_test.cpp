#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "guide/making_fixture.h"

namespace quoin::guide {
namespace {

using testing::HasSubstr;
using testing::Not;

/// All that the chapter says, and how many pictures it has.
struct MatChapter {
  std::string words;
  int pictures = 0;

  explicit MatChapter(const Chapter& chapter) {
    for (const Block& block : chapter.blocks) {
      if (const auto* heading = std::get_if<Heading>(&block)) add(heading->words);
      if (const auto* paragraph = std::get_if<Paragraph>(&block)) add(paragraph->words);
      if (const auto* list = std::get_if<TickList>(&block)) {
        for (const std::string& item : list->items) add(item);
      }
      if (const auto* caution = std::get_if<Caution>(&block)) {
        add(caution->title);
        for (const std::string& line : caution->lines) add(line);
      }
      if (const auto* steps = std::get_if<Steps>(&block)) {
        for (const Step& step : steps->steps) add(step.words);
        pictures += static_cast<int>(steps->steps.size());
      }
      if (const auto* picture = std::get_if<Picture>(&block)) {
        add(picture->caption);
        ++pictures;
      }
    }
  }
  void add(const std::string& more) { words += more + "\n"; }
};

TEST(MatChapterOfGuide, is_left_out_without_a_mat) {
  EXPECT_TRUE(make_the_mat(SmallMaking("").making()).blocks.empty());
}

TEST(MatChapterOfGuide, tells_how_sheets_are_trimmed_and_joined_with_pictures_and_cautions) {
  const SmallMaking made("[mat]\n");
  const MatChapter told(make_the_mat(made.making()));
  EXPECT_THAT(told.words, HasSubstr("The mat is 594 x 420 mm when it is finished, with 1 place"));
  EXPECT_THAT(told.words, HasSubstr("8 sheets of A4 are the mat"));
  EXPECT_THAT(told.words, HasSubstr("**A2**: trim the left edge along the line."));
  EXPECT_THAT(told.words, HasSubstr("the guard stays on"));
  EXPECT_THAT(told.words, HasSubstr("the rules where you live, come first"));
  EXPECT_THAT(told.words, HasSubstr("print at 100 %; trim to 594 x 420 mm"));
  EXPECT_THAT(told.words, Not(HasSubstr("The hem")));
  EXPECT_EQ(told.pictures, 4);
}

TEST(MatChapterOfGuide, tells_of_one_sheet_when_one_is_enough) {
  const SmallMaking made("[mat]\nsize = \"190x280\"\n");
  const MatChapter told(make_the_mat(made.making()));
  EXPECT_THAT(told.words, HasSubstr("1 sheet of A4"));
  EXPECT_THAT(told.words, Not(HasSubstr("Join")));
  EXPECT_EQ(told.pictures, 1);
}

TEST(MatChapterOfGuide, tells_of_hem_and_iron_for_cloth) {
  const SmallMaking made("[mat]\nmaterial = \"cloth\"\nhem = 25\nshrinkage = [3, 2]\n");
  const MatChapter told(make_the_mat(made.making()));
  EXPECT_THAT(told.words, HasSubstr("Fold 25 mm to the back"));
  EXPECT_THAT(told.words, HasSubstr("width 1.0309 times (3 % lost)"));
  EXPECT_THAT(told.words, HasSubstr("Iron and needle"));
  EXPECT_THAT(told.words, HasSubstr("comes first"));
}

TEST(MatChapterOfGuide, tells_of_the_shop_alone_when_the_sheets_are_too_small) {
  const SmallMaking made("[mat]\noverlap = 50\n[printer]\nmargin = 60\n");
  const MatChapter told(make_the_mat(made.making()));
  EXPECT_THAT(told.words, HasSubstr("From a shop"));
  EXPECT_THAT(told.words, Not(HasSubstr("From your own printer")));
}

}  // namespace
}  // namespace quoin::guide
