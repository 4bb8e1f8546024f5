#include "cli/terminal.h"

#include <gtest/gtest.h>

namespace quoin::cli {
namespace {

TEST(Columns, counts_characters_and_not_bytes) {
  EXPECT_EQ(columns("Tidewrack"), 9);
  EXPECT_EQ(columns("é·—"), 3);
}

TEST(Columns, counts_wide_characters_twice_and_marks_not_at_all) {
  EXPECT_EQ(columns("港"), 2);
  EXPECT_EQ(columns("e\xCC\x81"), 1);  // e and a combining acute
}

TEST(Columns, passes_over_colour_codes) { EXPECT_EQ(columns("\x1b[1;31merror\x1b[0m"), 5); }

TEST(Wrapped, breaks_between_words_and_indents_the_rest) {
  EXPECT_EQ(wrapped("one two three four", 9, 2), "one two\n  three\n  four");
}

TEST(Wrapped, keeps_a_long_word_whole) {
  EXPECT_EQ(wrapped("a incomprehensibilities b", 8, 0), "a\nincomprehensibilities\nb");
}

TEST(Wrapped, leaves_text_alone_without_a_width) {
  EXPECT_EQ(wrapped("one two three", 0, 4), "one two three");
}

TEST(Wrapped, keeps_the_indent_of_the_first_line) {
  EXPECT_EQ(wrapped("   one two three", 9, 3), "   one\n   two\n   three");
}

}  // namespace
}  // namespace quoin::cli
