#include "game/encoding.h"

#include <gtest/gtest.h>

#include "game/words.h"

namespace quoin::game {
namespace {

using namespace std::string_view_literals;

// RFC 3629, section 4 (the ABNF of UTF-8): the ends of each range, and what lies just outside.
TEST(Utf8Length, takes_what_the_grammar_of_rfc_3629_allows) {
  EXPECT_EQ(utf8_length("\x7F"), 1u);
  EXPECT_EQ(utf8_length("\xC2\x80"), 2u);
  EXPECT_EQ(utf8_length("\xDF\xBF"), 2u);
  EXPECT_EQ(utf8_length("\xE0\xA0\x80"), 3u);
  EXPECT_EQ(utf8_length("\xED\x9F\xBF"), 3u);
  EXPECT_EQ(utf8_length("\xEE\x80\x80"), 3u);
  EXPECT_EQ(utf8_length("\xF0\x90\x80\x80"), 4u);
  EXPECT_EQ(utf8_length("\xF4\x8F\xBF\xBF"), 4u);
}

TEST(Utf8Length, refuses_overlong_forms_surrogates_and_places_past_the_end) {
  for (const auto bytes : {"\x80"sv, "\xC0\x80"sv, "\xC1\xBF"sv, "\xE0\x9F\xBF"sv, "\xED\xA0\x80"sv,
                           "\xF0\x8F\xBF\xBF"sv, "\xF4\x90\x80\x80"sv, "\xF5\x80\x80\x80"sv,
                           "\xFF"sv, "\xE2\x82"sv, "\xC3"sv, ""sv, "\xE2\x82\x41"sv}) {
    EXPECT_EQ(utf8_length(bytes), 0u);
  }
}

std::string said_of(std::string_view bytes) {
  const std::optional<Diagnostic> found = encoding_problem(bytes, FileName("cards.csv"));
  return found ? to_string(found->origin) + ": " + found->message : "";
}

TEST(Encoding, has_nothing_to_say_of_utf8) {
  EXPECT_EQ(said_of(""), "");
  EXPECT_EQ(said_of("\xEF\xBB\xBFid,n\n\xC3\xA9,\xF0\x9D\x84\x9E\n"), "");
}

TEST(Encoding, points_at_the_first_character_that_is_not_utf8) {
  EXPECT_EQ(said_of("id\r\n\xC3\xA9\xE9x"), "cards.csv:2:2: this character is not UTF-8 (byte E9)");
  EXPECT_EQ(said_of("a\rb\xFF"), "cards.csv:2:2: this character is not UTF-8 (byte FF)");
}

TEST(Encoding, names_utf16_with_and_without_a_mark) {
  const std::string said = "cards.csv: the file is UTF-16, not UTF-8";
  EXPECT_EQ(said_of("\xFF\xFEi\0d\0"sv), said);
  EXPECT_EQ(said_of("\xFE\xFF\0i\0d"sv), said);
  EXPECT_EQ(said_of("i\0d\0,\0x\0"sv), said);
}

TEST(Encoding, points_at_a_nul) {
  EXPECT_EQ(said_of("id,x\na,b\0c and more text"sv),
            "cards.csv:2:4: here is a NUL character, which no text has");
}

TEST(Encoding, shows_the_letter_that_an_older_code_page_meant) {
  const auto found = encoding_problem("K\xE4se", FileName("cards.csv"));
  ASSERT_TRUE(found);
  EXPECT_EQ(found->details.at(0),
            "the file seems to be in an older one-byte code page (Latin-1 or Windows-1252), where "
            "this would be \"ä\"");
}

TEST(Encoding, is_looked_at_alike_wherever_a_letter_stands) {
  for (std::size_t before = 0; before < 20; ++before) {
    for (std::size_t after : {0, 1, 7, 8, 9}) {
      const std::string front(before, 'a'), back(after, 'z');
      for (const std::string letter : {"\x7f", "\x01", "é", "夜", "🂡"}) {
        EXPECT_EQ(encoding_problem(front + letter + back, {}), std::nullopt) << before << letter;
        EXPECT_EQ(characters(front + letter + back), before + 1 + after) << before << letter;
      }
      const std::string other(1, '\xE4'), nul(1, '\0');
      for (const std::string& wrong : {other, nul}) {
        const std::string text = "aaaaaaaa\n" + front + wrong + back;
        const auto problem = encoding_problem(text, {});
        ASSERT_TRUE(problem) << before;
        EXPECT_EQ(problem->origin.line, 2U);
        EXPECT_EQ(problem->origin.column, before + 1);
      }
    }
  }
}

}  // namespace
}  // namespace quoin::game
