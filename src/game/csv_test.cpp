#include "game/csv.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "game/words.h"

namespace quoin::game {
namespace {

using Cells = std::vector<std::vector<std::string>>;

Cells cells_of(const CsvTable& table) {
  Cells all;
  const auto add = [&](const Row& row) {
    all.emplace_back();
    for (const Text& cell : row) all.back().push_back(cell.text);
  };
  add(table.header);
  for (const Row& row : table.rows) add(row);
  return all;
}

Checked<CsvTable> read(std::string_view bytes) { return read_csv(bytes, FileName("cards.csv")); }

Cells cells_in(std::string_view bytes) {
  const Checked<CsvTable> table = read(bytes);
  EXPECT_TRUE(table.found.empty()) << table.found.front().message;
  return cells_of(table.value);
}

std::vector<std::string> messages(const Diagnostics& found) {
  std::vector<std::string> all;
  for (const Diagnostic& one : found) all.push_back(to_string(one.origin) + ": " + one.message);
  return all;
}

// The examples of RFC 4180, section 2, "Definition of the CSV Format", by its numbers. The first
// row is a header here, as a list of cards always has one.
TEST(CsvOfRfc4180, _1_puts_each_record_on_a_line_ended_by_crlf) {
  EXPECT_EQ(cells_in("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"),
            (Cells{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
}

TEST(CsvOfRfc4180, _2_lets_the_last_line_go_without_an_end) {
  EXPECT_EQ(cells_in("aaa,bbb,ccc\r\nzzz,yyy,xxx"),
            (Cells{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
}

TEST(CsvOfRfc4180, _3_has_a_header_like_any_other_line) {
  EXPECT_EQ(cells_in("field_name,field_name2,field_name3\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"),
            (Cells{{"field_name", "field_name2", "field_name3"},
                   {"aaa", "bbb", "ccc"},
                   {"zzz", "yyy", "xxx"}}));
}

TEST(CsvOfRfc4180, _4_keeps_spaces_as_part_of_a_cell) {
  EXPECT_EQ(cells_in("a,b,c\r\naaa, bbb ,ccc\r\n"),
            (Cells{{"a", "b", "c"}, {"aaa", " bbb ", "ccc"}}));
}

TEST(CsvOfRfc4180, _5_lets_cells_be_quoted_or_not) {
  EXPECT_EQ(cells_in("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx"),
            (Cells{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
}

TEST(CsvOfRfc4180, _6_quotes_cells_with_line_breaks_and_commas) {
  EXPECT_EQ(cells_in("a,b,c\r\n\"aaa\",\"b\r\nbb\",\"c,cc\"\r\nzzz,yyy,xxx"),
            (Cells{{"a", "b", "c"}, {"aaa", "b\r\nbb", "c,cc"}, {"zzz", "yyy", "xxx"}}));
}

TEST(CsvOfRfc4180, _7_writes_a_quote_within_quotes_twice) {
  EXPECT_EQ(cells_in("a,b,c\r\n\"aaa\",\"b\"\"bb\",\"ccc\""),
            (Cells{{"a", "b", "c"}, {"aaa", "b\"bb", "ccc"}}));
}

TEST(Csv, gives_each_cell_its_line_and_its_column_in_characters) {
  const Checked<CsvTable> table = read("id,née,x\n\"a\nb\",Ω2,\"c\"\n,,d");
  const Row& first = table.value.rows.at(0);
  EXPECT_EQ(first[0].origin, (Origin{FileName("cards.csv"), 2, 1, 2}));
  EXPECT_EQ(first[1].origin, (Origin{FileName("cards.csv"), 3, 4, 2}));
  EXPECT_EQ(first[2].origin, (Origin{FileName("cards.csv"), 3, 7, 3}));
  EXPECT_EQ(table.value.rows.at(1)[2].origin, (Origin{FileName("cards.csv"), 4, 3, 1}));
}

TEST(Csv, reads_all_three_line_ends_and_passes_over_empty_lines) {
  const Cells expected{{"id", "x"}, {"a", "1"}, {"b", "2"}};
  for (const char* end : {"\n", "\r\n", "\r"}) {
    const std::string e = end;
    EXPECT_EQ(cells_in("id,x" + e + e + "a,1" + e + "  " + e + "b,2" + e + e), expected);
    const Checked<CsvTable> table = read("id,x" + e + e + "a,1" + e);
    EXPECT_EQ(table.value.rows.at(0)[1].origin.line, 3u);
    EXPECT_EQ(table.value.rows.at(0)[1].origin.column, 3u);
  }
}

TEST(Csv, passes_over_the_mark_in_front) {
  const Checked<CsvTable> table = read("\xEF\xBB\xBFid,x\na,1\n");
  EXPECT_EQ(table.value.header[0].text, "id");
  EXPECT_EQ(table.value.header[0].origin.column, 1u);
}

TEST(Csv, points_at_the_opening_of_a_quote_that_never_closes) {
  const Checked<CsvTable> table = read("id,x\na,\"1\nb,2\n");
  EXPECT_EQ(messages(table.found),
            std::vector<std::string>{
                "cards.csv:2:3: the quote that opens this cell is never closed; the cell would run "
                "to the end of the file, 2 lines further on"});
}

TEST(Csv, says_that_a_quote_never_closes_and_not_also_that_the_row_is_short) {
  EXPECT_EQ(read("id,x,y,z\na,\"1\n").found.size(), 1u);
}

TEST(Csv, tells_each_row_that_is_too_short_or_too_long) {
  const Checked<CsvTable> table = read("id,x,y\na\nb,1,2,3\nc,1,2,,\n");
  EXPECT_EQ(messages(table.found),
            (std::vector<std::string>{"cards.csv:2:1: the row ends here with 1 cell; there are 3 "
                                      "columns",
                                      "cards.csv:3:7: the row has 4 cells; there are 3 columns"}));
  for (const Row& row : table.value.rows) EXPECT_EQ(row.size(), 3u);
}

TEST(Csv, takes_the_separator_that_leaves_a_column_id) {
  EXPECT_EQ(read("id;size, mm\na;1\n").value.separator, ';');
  EXPECT_EQ(read("id,size;mm\na,1\n").value.separator, ',');
  EXPECT_EQ(read("id\tsize, mm; deep\na\t1\n").value.separator, '\t');
  EXPECT_EQ(read("id\na\n").value.separator, ',');
  EXPECT_TRUE(any_errors(read("card;size, mm\na;1\n").found));
}

TEST(Csv, stops_at_its_limits_with_a_word) {
  const CsvLimits few{.rows = 2, .columns = 3, .cells = 100};
  const FileName file("cards.csv");
  EXPECT_EQ(messages(read_csv("id\n1\n2\n3\n4\n", file, few).found),
            std::vector<std::string>{
                "cards.csv:4:1: the list has more than 2 rows; the rest is not read"});
  EXPECT_EQ(messages(read_csv("id,b,c,d\n1\n", file, few).found),
            std::vector<std::string>{
                "cards.csv:1:8: the list has more than 3 columns; the rest is not read"});
  const CsvLimits cells{.rows = 100, .columns = 100, .cells = 3};
  EXPECT_EQ(messages(read_csv("id,b\n1,2\n3,4\n", file, cells).found),
            std::vector<std::string>{
                "cards.csv:3:1: the list has more than 3 cells; the rest is not read"});
}

TEST(Csv, keeps_a_hundred_of_a_kind_and_counts_the_others) {
  std::string text = "id,x\n";
  for (int i = 0; i < 500; ++i) text += "a\n";
  const Diagnostics found = read(text).found;
  EXPECT_EQ(found.size(), 101u);
  EXPECT_EQ(to_string(found.back().origin), "cards.csv:102:1");
  EXPECT_EQ(found.back().message, "from here on 400 more of this kind, not listed");
}

TEST(CsvLine, quotes_where_reading_needs_it) {
  EXPECT_EQ(csv_line({"a", "b,c", "d\"e", "f\ng", " h", ""}),
            "a,\"b,c\",\"d\"\"e\",\"f\ng\",\" h\",\r\n");
  EXPECT_EQ(csv_line({""}), "\"\"\r\n");
}

/// Text that is hard on a reader: separators, quotes, line ends and letters of all lengths.
rc::Gen<std::string> awkward_text() {
  const auto piece = rc::gen::element<std::string>("a", "b", " ", ",", ";", "\t", "\"", "\"\"",
                                                   "\n", "\r", "\r\n", "é", "€", "𝄞", "0");
  return rc::gen::map(rc::gen::container<std::vector<std::string>>(piece),
                      [](const std::vector<std::string>& pieces) {
                        std::string all;
                        for (const std::string& one : pieces) all += one;
                        return all;
                      });
}

RC_GTEST_PROP(Csv, reads_back_any_table_that_was_written, ()) {
  const auto columns = *rc::gen::inRange<std::size_t>(1, 5);
  const auto rows = *rc::gen::container<Cells>(
      rc::gen::container<std::vector<std::string>>(columns, awkward_text()));
  std::vector<std::string> header{"id", "b", "c", "d", "e"};
  header.resize(columns);
  std::string text = csv_line(header);
  for (const auto& row : rows) text += csv_line(row);
  const Checked<CsvTable> table = read(text);
  RC_ASSERT(table.found.empty());
  Cells expected{header};
  expected.insert(expected.end(), rows.begin(), rows.end());
  RC_ASSERT(cells_of(table.value) == expected);
}

RC_GTEST_PROP(Csv, never_breaks_whatever_it_reads, (const std::string& bytes)) {
  const Checked<CsvTable> table = read(bytes);
  for (const Row& row : table.value.rows) RC_ASSERT(row.size() == table.value.header.size());
}

}  // namespace
}  // namespace quoin::game
