#include "game/toml_file.h"

#include <gtest/gtest.h>

namespace quoin::game {
namespace {

const FileName file("game.toml");

Table table_in(const std::string& text) {
  Result<Table> read = read_toml(text, file);
  EXPECT_TRUE(read.ok()) << (read.ok() ? "" : read.why()[0].message);
  return read.ok() ? *read : Table{};
}

/// "game.toml:1:5: what is wrong | hint".
std::string said_of(const std::string& text) {
  const Result<Table> read = read_toml(text, file);
  if (read.ok()) return "";
  const Diagnostic& first = read.why().front();
  std::string said = to_string(first.origin) + ": " + first.message;
  for (const std::string& hint : first.hints) said += " | " + hint;
  return said;
}

TEST(TomlFile, keeps_keys_in_the_order_of_the_file) {
  const Table table = table_in("z = 1\n[b]\nk = 1\n[a]\ny = 2\nx = 3\n");
  ASSERT_EQ(table.size(), 3u);
  EXPECT_EQ(table[0].key, "z");
  EXPECT_EQ(table[1].key, "b");
  EXPECT_EQ(table[2].key, "a");
  EXPECT_EQ((*table[2].value.table())[0].key, "y");
}

TEST(TomlFile, gives_keys_and_values_their_places_in_characters) {
  const Table table = table_in("# é\n\"ö\" = [\"ü\", 2, {a = true}]\n");
  EXPECT_EQ(table[0].key_origin, (Origin{file, 2, 1, 3}));
  EXPECT_EQ(table[0].value.origin, (Origin{file, 2, 7, 20}));
  const List& list = *table[0].value.list();
  EXPECT_EQ(list[0].origin, (Origin{file, 2, 8, 3}));
  EXPECT_EQ(list[1].origin, (Origin{file, 2, 13, 1}));
  EXPECT_EQ((*list[2].table())[0].value.origin, (Origin{file, 2, 21, 4}));
}

TEST(TomlFile, reads_whole_numbers_and_fractions_as_numbers) {
  const Table table = table_in("a = 3\nb = 0.25\nc = 0x10\nd = 1_000\n");
  EXPECT_EQ(*table[0].value.number(), 3);
  EXPECT_EQ(*table[1].value.number(), 0.25);
  EXPECT_EQ(*table[2].value.number(), 16);
  EXPECT_EQ(*table[3].value.number(), 1000);
}

TEST(TomlFile, keeps_a_date_as_the_text_it_was_written_as) {
  const Table table = table_in("day = 2020-01-02 # x\nt = 07:32:00\n");
  EXPECT_EQ(*table[0].value.text(), "2020-01-02");
  EXPECT_EQ(*table[1].value.text(), "07:32:00");
}

TEST(TomlFile, refuses_infinities) {
  EXPECT_EQ(said_of("a = inf\n"),
            "game.toml:1:5: this is not a number that can be measured | write an ordinary number, "
            "such as 3.5");
  EXPECT_NE(said_of("a = [1, nan]\n"), "");
}

TEST(TomlFile, bounds_how_deep_values_lie_in_each_other) {
  const auto lists = [](std::size_t n) {
    return "a = " + std::string(n, '[') + std::string(n, ']') + "\n";
  };
  EXPECT_EQ(said_of(lists(63)), "");
  EXPECT_EQ(said_of(lists(65)),
            "game.toml:1:69: tables and lists lie more than 64 deep in each other here | a game "
            "needs four or five; look for a bracket too many");
  EXPECT_NE(said_of(lists(100000)), "");
}

TEST(TomlFile, bounds_the_parts_of_a_dotted_key_before_they_fill_the_stack) {
  std::string key = "a";
  for (int i = 0; i < 200000; ++i) key += ".a";
  EXPECT_EQ(said_of("x = 1\n" + key + " = 1\n"),
            "game.toml:2:1: tables and lists lie more than 64 deep in each other here | a game "
            "needs four or five; look for a bracket too many");
  EXPECT_NE(said_of("[" + key + "]\n"), "");
}

TEST(TomlFile, does_not_take_dots_in_texts_and_numbers_for_keys) {
  EXPECT_EQ(said_of("a = \"" + std::string(100, '.') + "\" # " + std::string(100, '.') + "\n"), "");
  std::string places = "a = [";
  for (int i = 0; i < 100; ++i) places += "[0.5, 0.25], ";
  EXPECT_EQ(said_of(places + "]\n"), "");
}

TEST(TomlFile, bounds_the_size_of_a_file) {
  EXPECT_EQ(
      said_of(std::string(largest_toml + 1, '\n')),
      "game.toml: the file has 4194305 bytes; at most 4194304 are read | move long texts into "
      "cards.csv, or split the file");
}

TEST(TomlSyntax, says_what_is_missing_and_what_to_write) {
  const std::vector<std::pair<std::string, std::string>> cases = {
      {"a = \n", "1:5: a has no value | write one after the =, or delete the line"},
      {"ink = #1d2b33\n", "1:7: ink has no value | a colour stands in quotes: ink = \"#1d2b33\""},
      {"size = poker\n",
       "1:8: \"poker\" is neither a number nor a text in quotes | if it is a text, write size = "
       "\"poker\""},
      {"size = 63.5x88.9\n",
       "1:12: \"63.5x88.9\" is neither a number nor a text in quotes | if it is a text, write size "
       "= \"63.5x88.9\""},
      {"bleed = 3mm\n",
       "1:10: lengths are millimetres and written without the unit | write bleed = 3"},
      {"bleed = 3,5\n", "1:10: decimals are written with a point | write bleed = 3.5"},
      {"bleed = .5\n",
       "1:9: a number needs a digit before and after its point | write bleed = 0.5, or 5.0"},
      {"italic = True\n", "1:10: True is written in small letters | write italic = true"},
      {"title = \"Tide\n",
       "1:9: the quote that opens this text is never closed | close it on the same line, or use "
       "\"\"\" for a text of many lines"},
      {"title = \"\"\"Tide\n",
       "1:9: the three quotes that open this text are never closed | write the same three quotes "
       "where the text ends"},
      {"title = “Tide”\n",
       "1:9: these quotes are curled; only straight ones hold a text | use \" before and after the "
       "text"},
      {"path = \"art\\quay.svg\"\n",
       "1:13: a backslash in double quotes begins a special character, and this is none of them | "
       "write \\\\ for a backslash, or use single quotes"},
      {"at = [1, 2\nsize = 3\n",
       "2:1: the list cannot be read from here on: a comma or the closing ] is missing | write it "
       "as [1, 2, 3]: commas between, ] at the end"},
      {"at = [1,, 2]\n", "1:9: two commas stand next to each other | delete one of them"},
      {"s = { a = 1\n}\n",
       "1:12: a table in { } must stand on one line | join the lines, or write it below a heading "
       "of its own"},
      {"s = { a = 1, }\n", "1:14: a comma stands before the closing } | delete the comma"},
      {"[card\n",
       "1:6: a heading is a name in brackets, such as [card] or [[layouts]] | close the brackets, "
       "and leave nothing else on the line"},
      {"title: \"Tide\"\n",
       "1:6: each line is a heading in brackets, or key = value | write = instead of the colon"},
      {"My game\n",
       "1:4: each line is a heading in brackets, or key = value | write it as key = value, or put "
       "# in front of a remark"},
      {"My game = 1\n",
       "1:4: a key is one word of the letters a to z, digits, - and _ | put other names in quotes: "
       "\"My game\" = …"},
      {"größe = 1\n",
       "1:3: a key is one word of the letters a to z, digits, - and _ | put other names in quotes: "
       "\"größe\" = …"},
      {"a = 1\na = 2\n", "2:1: a is given twice | keep one of the two lines"},
      {"[card]\n[card]\n",
       "2:2: card is given twice | write each heading once and put all its keys below it"},
  };
  for (const auto& [text, said] : cases) EXPECT_EQ(said_of(text), "game.toml:" + said) << text;
}

}  // namespace
}  // namespace quoin::game
