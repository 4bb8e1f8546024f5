#include <fmt/format.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "game/toml_file.h"

namespace quoin::game {
namespace {

/// Each problem on a line: "1:5 what is wrong (detail)".
std::string faults_in(const std::string& text) {
  const Result<Table> read = read_toml(text, FileName("game.toml"));
  if (read.ok()) return "none";
  std::string said;
  for (const Diagnostic& one : read.why()) {
    said += fmt::format("{}:{} {}", one.origin.line, one.origin.column, one.message);
    for (const std::string& detail : one.details) said += " (" + detail + ")";
    said += "\n";
  }
  return said;
}

TEST(TomlFaults, are_all_told) {
  EXPECT_EQ(faults_in("[game]\n"
                      "title = \"Tide\n"
                      "author \"A maker\"\n"
                      "[card\n"
                      "size = poker\n"
                      "bleed = 3mm\n"
                      "safe = 3\n"
                      "safe = 4\n"),
            "2:9 the quote that opens this text is never closed\n"
            "3:8 each line is a heading in brackets, or key = value\n"
            "4:6 a heading is a name in brackets, such as [card] or [[layouts]]\n"
            "5:8 \"poker\" is neither a number nor a text in quotes\n"
            "6:10 lengths are millimetres and written without the unit\n"
            "8:1 safe is given twice\n");
}

TEST(TomlFaults, of_one_line_each_are_all_told) {
  EXPECT_EQ(faults_in("a = 1 2\n"
                      "b = \"c\" d\n"
                      "e = [1,,2]\n"
                      "f = { a = 1, }\n"
                      "g = \"\\q\"\n"
                      "h = True\n"
                      "i: 3\n"
                      "my key = 4\n"),
            "1:7 \"1 2\" is neither a number nor a text in quotes\n"
            "2:9 something stands after the value\n"
            "3:8 two commas stand next to each other\n"
            "4:14 a comma stands before the closing }\n"
            "5:7 a backslash in double quotes begins a special character, and this is none of "
            "them\n"
            "6:5 True is written in small letters\n"
            "7:2 each line is a heading in brackets, or key = value\n"
            "8:4 a key is one word of the letters a to z, digits, - and _\n");
}

TEST(TomlFaults, of_a_list_that_is_never_closed_hide_nothing_after_it) {
  const std::string list =
      "the list cannot be read from here on: a comma or the closing ] is missing";
  EXPECT_EQ(faults_in("at = [1, 2\nsize = poker\n[card]\nbleed = 3mm\n"),
            "2:1 " + list +
                " (the list begins on line 1)\n"
                "2:8 \"poker\" is neither a number nor a text in quotes\n"
                "4:10 lengths are millimetres and written without the unit\n");
  EXPECT_EQ(faults_in("at = [\n  1,\n  2,\n\n[[layouts]]\nbleed = 3mm\n"),
            "5:3 " + list +
                " (the list begins on line 1)\n"
                "6:10 lengths are millimetres and written without the unit\n");
}

TEST(TomlFaults, of_a_list_of_many_lines_are_told_once) {
  EXPECT_EQ(faults_in("at = [\n  [1, 2\n  [3, 4],\n]\nsize = poker\n"),
            "3:3 the list cannot be read from here on: a comma or the closing ] is missing (the "
            "list begins on line 1)\n"
            "5:8 \"poker\" is neither a number nor a text in quotes\n");
  EXPECT_EQ(faults_in("names = [\n  \"a\",\n  \"b,\n  \"c\",\n]\nsize = poker\n"),
            "3:3 the quote that opens this text is never closed\n"
            "6:8 \"poker\" is neither a number nor a text in quotes\n");
  EXPECT_EQ(faults_in("at =\n  1, 2\n]\nbleed = 3mm\n"),
            "1:5 at has no value\n"
            "4:10 lengths are millimetres and written without the unit\n");
}

TEST(TomlFaults, of_a_table_in_braces_on_many_lines_are_told_once) {
  EXPECT_EQ(faults_in("s = {\n  a = 1,\n  b = 2\n}\nsize = poker\n"),
            "1:6 a table in { } must stand on one line\n"
            "5:8 \"poker\" is neither a number nor a text in quotes\n");
  EXPECT_EQ(faults_in("s = { a = 1\nsize = 2\n[card]\nbleed = 3mm\n"),
            "1:12 a table in { } must stand on one line\n"
            "4:10 lengths are millimetres and written without the unit\n");
}

TEST(TomlFaults, of_prose_without_quotes_are_told_once) {
  EXPECT_EQ(faults_in("text = Take three cards\nfrom the pile.\n\nThen go.\nbleed = 3mm\n"),
            "1:8 \"Take three cards\" is neither a number nor a text in quotes\n"
            "5:10 lengths are millimetres and written without the unit\n");
}

TEST(TomlFaults, of_a_text_in_three_quotes_end_the_search_and_say_so) {
  EXPECT_EQ(faults_in("bleed = 3mm\ntext = \"\"\"Hello\nname = \"x\"\n"),
            "1:10 lengths are millimetres and written without the unit\n"
            "2:8 the three quotes that open this text are never closed (what follows in this file "
            "was not looked at)\n");
  EXPECT_EQ(faults_in("text = \"\"\"Hello\nname = \"x\"\nother = \"\"\"World\"\"\"\nbleed = 3mm\n"),
            "3:12 something stands after the value (what follows in this file was not looked "
            "at)\n");
  EXPECT_EQ(faults_in("a = 1\ntext = \"\"\"Hello\"\"\" World\nbleed = 3mm\n"),
            "2:20 something stands after the value\n"
            "3:10 lengths are millimetres and written without the unit\n");
}

TEST(TomlFaults, of_a_heading_do_not_make_the_keys_below_it_seem_twice) {
  EXPECT_EQ(faults_in("[game]\n"
                      "title = \"x\"\n"
                      "[card\n"
                      "title = \"y\"\n"
                      "[[layouts\n"
                      "file = \"a\"\n"
                      "[layouts.when]\n"
                      "suit = \"x\"\n"
                      "[[layouts]]\n"
                      "bleed = 3mm\n"),
            "3:6 a heading is a name in brackets, such as [card] or [[layouts]]\n"
            "5:10 a heading is a name in brackets, such as [card] or [[layouts]]\n"
            "10:10 lengths are millimetres and written without the unit\n");
}

TEST(TomlFaults, name_each_repeated_key_where_its_statement_begins) {
  EXPECT_EQ(faults_in("[card]\n[game]\n[card]\nsize = 1\n[game]\n"),
            "3:2 card is given twice\n"
            "5:2 game is given twice\n");
  EXPECT_EQ(faults_in("a = [\n 1,\n]\na = [\n 2,\n]\na = 3\n"),
            "4:1 a is given twice\n"
            "7:1 a is given twice\n");
}

TEST(TomlFaults, are_told_up_to_a_bound) {
  std::string text;
  for (int i = 0; i < 30; ++i) text += fmt::format("k{} = {}mm\n", i, i);
  const Result<Table> read = read_toml(text, FileName("game.toml"));
  ASSERT_FALSE(read.ok());
  EXPECT_EQ(read.why().size(), most_toml_problems);
  EXPECT_EQ(read.why().back().details,
            std::vector<std::string>{"what follows in this file was not looked at"});
}

TEST(TomlFaults, of_a_large_file_are_not_searched_for_long) {
  std::string text;
  while (text.size() < largest_toml - 20) text += "k = [1, 2\n";
  const Result<Table> read = read_toml(text, FileName("game.toml"));
  ASSERT_FALSE(read.ok());
  EXPECT_LE(read.why().size(), most_toml_bytes / text.size());
}

TEST(TomlFaults, of_quotes_do_not_bring_deep_keys_to_light_that_fill_the_stack) {
  std::string dots = "a";
  for (int i = 0; i < 200000; ++i) dots += ".a";
  EXPECT_EQ(faults_in("x = [ \"\"\" ]\n" + dots + " = 1\n\"\"\"\ny = 1mm\n"),
            "4:1 the list cannot be read from here on: a comma or the closing ] is missing (the "
            "list begins on line 1) (what follows in this file was not looked at)\n");
}

std::string sound_text(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

/// Each character that holds TOML together, taken out of a sound file, is one mistake, and does not
/// hide another at the end of the file (but for the quotes of long texts).
TEST(TomlFaults, are_one_for_one_mistake) {
  const std::filesystem::path game = QUOIN_SOURCE_DIR "/examples/tidewrack";
  int mistakes = 0, hiding = 0;
  for (const char* name : {"game.toml", "layouts/frame.toml", "layouts/special.toml"}) {
    const std::string sound = sound_text(game / name);
    ASSERT_EQ(faults_in(sound), "none") << name;
    for (std::size_t at = 0; at < sound.size(); ++at) {
      if (std::string_view("\"[]{}=,").find(sound[at]) == std::string_view::npos) continue;
      std::string spoilt = sound;
      spoilt.erase(at, 1);
      const std::string said = faults_in(spoilt);
      const auto told = std::count(said.begin(), said.end(), '\n');
      mistakes += told > 0 ? 1 : 0;
      const std::string with_another = faults_in(spoilt + "\n[last]\nbleed = 3mm\n");
      if (with_another.find("lengths are millimetres") == std::string::npos) ++hiding;
      EXPECT_LE(told, 1) << name << ": " << sound.substr(at > 30 ? at - 30 : 0, 60) << "\n" << said;
    }
  }
  EXPECT_GT(mistakes, 300);
  EXPECT_LT(hiding, mistakes / 50);
}

}  // namespace
}  // namespace quoin::game
