#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "media/text.h"

namespace quoin {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

/// Runs as one text: /italic/, =bold=, =/both/=, <symbol>; plain text as it is.
std::string told(std::string_view markup, std::vector<std::string>* unknown = nullptr) {
  const auto shell = std::make_shared<const InlineSymbol>();
  std::vector<std::string> here;
  std::string text;
  for (const TextRun& run :
       read_markup(markup, {{"shell", shell}, {"two words", shell}}, unknown ? *unknown : here)) {
    std::string piece = run.symbol ? "<" + run.text + ">" : run.text;
    if (run.italic) piece = "/" + piece + "/";
    if (run.bold) piece = "=" + piece + "=";
    text += piece;
  }
  return text;
}

TEST(ReadMarkup, tells_italic_bold_and_both) {
  EXPECT_EQ(told("a *b* c"), "a /b/ c");
  EXPECT_EQ(told("a _b_ c"), "a /b/ c");
  EXPECT_EQ(told("a **b** __c__"), "a =b= =c=");
  EXPECT_EQ(told("***b***"), "=/b/=");
  EXPECT_EQ(told("**a *b* c**"), "=a ==/b/== c=");
  EXPECT_EQ(told("*a **b** c*"), "/a /=/b/=/ c/");
}

// Expectations of CommonMark 0.30, section 6.2, examples 350 to 480, as far as they concern what a
// card has.
TEST(ReadMarkup, keeps_to_the_examples_of_the_standard) {
  EXPECT_EQ(told("a * foo bar*"), "a * foo bar*");
  EXPECT_EQ(told("foo*bar*"), "foo/bar/");
  EXPECT_EQ(told("5*6*78"), "5/6/78");
  EXPECT_EQ(told("_ foo bar_"), "_ foo bar_");
  EXPECT_EQ(told("foo_bar_baz"), "foo_bar_baz");
  EXPECT_EQ(told("aa_\"bb\"_cc"), "aa_\"bb\"_cc");
  EXPECT_EQ(told("foo-_(bar)_"), "foo-/(bar)/");
  EXPECT_EQ(told("_foo*"), "_foo*");
  EXPECT_EQ(told("*foo bar *"), "*foo bar *");
  EXPECT_EQ(told("*(*foo)"), "*(*foo)");
  EXPECT_EQ(told("**foo*"), "*/foo/");
  EXPECT_EQ(told("*foo**"), "/foo/*");
  EXPECT_EQ(told("*foo**bar*"), "/foo**bar/");
  EXPECT_EQ(told("foo***bar***baz"), "foo=/bar/=baz");
  EXPECT_EQ(told("*foo _bar* baz_"), "/foo _bar/ baz_");
  EXPECT_EQ(told("foo ***"), "foo ***");
}

TEST(ReadMarkup, leaves_marks_that_never_close_as_characters) {
  EXPECT_EQ(told("2 * 3 ** and *so on"), "2 * 3 ** and *so on");
  EXPECT_EQ(told("**"), "**");
}

TEST(ReadMarkup, never_carries_emphasis_into_the_next_paragraph) {
  EXPECT_EQ(told("*a\nb*"), "*a\nb*");
  EXPECT_EQ(told("*a*\n*b*"), "/a/\n/b/");
}

TEST(ReadMarkup, takes_escaped_marks_as_characters) {
  EXPECT_EQ(told(R"(\*a\* \[shell] \\ \q)"), R"(*a* [shell] \ \q)");
}

TEST(ReadMarkup, puts_symbols_in_their_place) {
  EXPECT_EQ(told("take [shell][shell], *or [shell]*"), "take <shell><shell>, /or //<shell>/");
  EXPECT_EQ(told("[two words]"), "<two words>");
}

TEST(ReadMarkup, names_unknown_symbols_once_and_leaves_them) {
  std::vector<std::string> unknown;
  EXPECT_EQ(told("[shel] and [shel], [see page 3], [], [a\nb] [", &unknown),
            "[shel] and [shel], [see page 3], [], [a\nb] [");
  EXPECT_THAT(unknown, ElementsAre("shel"));
}

TEST(ReadMarkup, reads_bytes_that_are_no_text_as_question_marks_of_unicode) {
  EXPECT_EQ(told("a\xFF*b*"), "a\uFFFD/b/");
  EXPECT_THAT(told(""), IsEmpty());
}

TEST(ReadMarkup, ends_soon_however_many_marks_there_are) {
  std::string marks;
  for (int i = 0; i < 20000; ++i) marks += "*a _b ";
  EXPECT_EQ(told(marks), marks);
  const std::string open(50000, '*');
  EXPECT_EQ(told(open + "a"), open + "a");
}

}  // namespace
}  // namespace quoin
