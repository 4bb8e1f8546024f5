#include "game/edit/csv_edit.h"

#include <gtest/gtest.h>

#include "game/edit/edit_testing.h"

namespace quoin::game {
namespace {

constexpr const char* list_file = "cards.csv";

std::string cell(const std::string& text, int row, const std::string& id, const std::string& column,
                 const std::string& value) {
  return outcome(changed(text, SetCell{list_file, at(row), id, column, value}));
}

std::string row(const std::string& text, EditRow change) {
  change.file = list_file;
  return outcome(changed(text, change));
}

TEST(CsvCell, keeps_the_rest_of_the_list_byte_for_byte) {
  const std::string text =
      "\xEF\xBB\xBFid;name ;\"text\"\r\n\r\na;\"Adder\" ;x;\r\n;;\r\nb;Boar\r\nc;'C';\"one\r\n"
      "two\"";
  EXPECT_EQ(cell(text, 0, "a", "name", "Asp"),
            "\xEF\xBB\xBFid;name ;\"text\"\r\n\r\na;\"Asp\";x;\r\n;;\r\nb;Boar\r\nc;'C';\"one\r\n"
            "two\"");
  EXPECT_EQ(cell(text, 1, "b", "text", "more"),
            "\xEF\xBB\xBFid;name ;\"text\"\r\n\r\na;\"Adder\" ;x;\r\n;;\r\nb;Boar;more\r\nc;'C';"
            "\"one\r\ntwo\"");
  EXPECT_EQ(cell(text, 2, "c", "text", "short"),
            "\xEF\xBB\xBFid;name ;\"text\"\r\n\r\na;\"Adder\" ;x;\r\n;;\r\nb;Boar\r\nc;'C';"
            "\"short\"");
}

TEST(CsvCell, is_quoted_when_it_must_be) {
  EXPECT_EQ(cell("id,t\na,x\n", 0, "a", "t", "one, two"), "id,t\na,\"one, two\"\n");
  EXPECT_EQ(cell("id,t\na,x\n", 0, "a", "t", "a \"b\""), "id,t\na,\"a \"\"b\"\"\"\n");
  EXPECT_EQ(cell("id,t\na,x\n", 0, "a", "t", "two\nlines"), "id,t\na,\"two\nlines\"\n");
  EXPECT_EQ(cell("id,t\na,x\n", 0, "a", "t", " x"), "id,t\na,\" x\"\n");
  EXPECT_EQ(cell("id;t\na;x\n", 0, "a", "t", "one, two"), "id;t\na;one, two\n");
  EXPECT_EQ(cell("id\tt\na\tx\n", 0, "a", "t", ""), "id\tt\na\t\n");
}

TEST(CsvCell, is_found_by_the_id_of_its_row) {
  EXPECT_EQ(cell("id,t\na,x\nb,y\n", 0, "b", "t", "z"), "id,t\na,x\nb,z\n");
  EXPECT_EQ(cell("t\nx\ny\n", 1, "", "t", "z"), "t\nx\nz\n");
  EXPECT_EQ(cell("id,t\na,x\n", 0, "q", "t", "z"),
            "cards.csv: the card q is not in the list any more [edit.place-gone]");
  EXPECT_EQ(cell("id,text\na,x\n", 0, "a", "txt", "z"),
            "cards.csv: the list has no column \"txt\" [edit.unknown-column]");
  EXPECT_EQ(cell("id,t\na,x\n", 4, "", "t", "z"),
            "cards.csv: row 5 is not in the list any more [edit.place-gone]");
  EXPECT_EQ(cell("t\nx\n", 0, "", "t", " "),
            "cards.csv:2:1: row 1 would be left without any text [edit.row-empty]");
  EXPECT_EQ(cell("id,t\na,x\n", 0, "a", "t", "\xC3"),
            "cards.csv: the text for t is not UTF-8 text [edit.not-writable]");
}

TEST(CsvRow, is_added_copied_removed_and_moved) {
  const std::string text = "id,n\r\na,1\r\nb,\"2\"\r\nc,3";
  EXPECT_EQ(row(text, {.file = {}, .op = ListOp::add, .to = {}, .values = {{"id", "d"}}}),
            "id,n\r\na,1\r\nb,\"2\"\r\nc,3\r\nd,");
  EXPECT_EQ(row(text, {.file = {}, .op = ListOp::add, .to = 0, .values = {{"id", "d"}}}),
            "id,n\r\nd,\r\na,1\r\nb,\"2\"\r\nc,3");
  EXPECT_EQ(row(text, {.file = {}, .op = ListOp::copy, .row = 1, .id = "b"}),
            "id,n\r\na,1\r\nb,\"2\"\r\nb-2,2\r\nc,3");
  EXPECT_EQ(row(text, {.file = {}, .op = ListOp::remove, .row = 2, .id = "c"}),
            "id,n\r\na,1\r\nb,\"2\"");
  EXPECT_EQ(row(text, {.file = {}, .op = ListOp::move, .row = 2, .id = "c", .to = 0}),
            "id,n\r\nc,3\r\na,1\r\nb,\"2\"");
  EXPECT_EQ(row(text, {.file = {}, .op = ListOp::move, .row = 0, .id = "a", .to = 2}),
            "id,n\r\nb,\"2\"\r\nc,3\r\na,1");
  EXPECT_EQ(row(text, {.file = {}, .op = ListOp::add, .values = {{"id", "B"}}}),
            "cards.csv:3:1: the id b is taken by row 2 [edit.id-taken]");
  EXPECT_EQ(row(text, {.file = {}, .op = ListOp::add, .values = {}}),
            "cards.csv: row 4 would be left without any text [edit.row-empty]");
}

std::string column(const std::string& text, EditColumn change) {
  change.file = list_file;
  return outcome(changed(text, change));
}

TEST(CsvColumn, is_added_removed_and_renamed) {
  const std::string text = "id,\"n\",t\na,1,x\nb,2\n,,\nc,3,z,\n";
  EXPECT_EQ(column(text, {.file = {}, .op = ColumnOp::add, .column = "new"}),
            "id,\"n\",t,new\na,1,x,\nb,2\n,,,\nc,3,z,,\n");
  EXPECT_EQ(column(text, {.file = {}, .op = ColumnOp::add, .column = "new", .place = 0}),
            "new,id,\"n\",t\n,a,1,x\n,b,2\n,,,\n,c,3,z,\n");
  EXPECT_EQ(column(text, {.file = {}, .op = ColumnOp::remove, .column = "n"}),
            "id,t\na,x\nb\n,\nc,z,\n");
  EXPECT_EQ(column(text, {.file = {}, .op = ColumnOp::rename, .column = "n", .to = "rank"}),
            "id,\"rank\",t\na,1,x\nb,2\n,,\nc,3,z,\n");
  EXPECT_EQ(column(text, {.file = {}, .op = ColumnOp::rename, .column = "n", .to = "id"}),
            "cards.csv: there is a column id already [edit.column-name]");
  EXPECT_EQ(column(text, {.file = {}, .op = ColumnOp::add, .column = " "}),
            "cards.csv: the column has no name [edit.column-name]");
  EXPECT_EQ(column("id\na\n", {.file = {}, .op = ColumnOp::remove, .column = "id"}),
            "cards.csv:2:1: row 1 would be left without any text [edit.row-empty]");
}

TEST(CsvColumn, comes_back_to_the_rows_it_was_taken_from) {
  const std::string text = "id,n,t\na,\"1\",x\nb,2,y\n";
  const EditAnswer taken = changed(text, EditColumn{list_file, ColumnOp::remove, "n"});
  const Edited& done = std::get<Edited>(taken);
  EXPECT_EQ(outcome(edit(done.inverse, done.text)), text);
  EXPECT_EQ(outcome(edit(done.inverse, "id,t\nnew,z\nb,y\na,x\n")),
            "id,n,t\nnew,,z\nb,2,y\na,\"1\",x\n");
}

TEST(CsvMerge, keeps_both_when_different_cells_were_changed) {
  EXPECT_EQ(outcome(merged("id,n,t\na,1,x\nb,2,y\n", "t,id,n\nq,new,0\ny,b,22\nx,a,1\n",
                           SetCell{list_file, 1, "b", "t", "why"})),
            "t,id,n\nq,new,0\nwhy,b,22\nx,a,1\n");
  EXPECT_EQ(outcome(merged("id,n\na,1\nb,2\n", "id,n\nz,0\na,1\nb,2\n",
                           EditRow{list_file, ListOp::add, 0, "", 1, {{"id", "new"}}})),
            "id,n\nz,0\na,1\nnew,\nb,2\n");
}

TEST(CsvMerge, asks_when_the_same_cell_was_changed) {
  const SetCell change{list_file, 0, "a", "n", "2"};
  EXPECT_EQ(outcome(merged("id,n\na,1\n", "id,n\na,3\n", change)),
            "mine: 2; theirs: 3 at cards.csv:2:3");
  EXPECT_EQ(outcome(merged("id,n\na,1\n", "id,n\nb,1\n", change)),
            "cards.csv: the card a is not in the list any more [edit.place-gone]");
  EXPECT_EQ(
      outcome(merged("id,n\na,1\n", "id,n\na,3\n", EditRow{list_file, ListOp::remove, 0, "a"})),
      "mine: ; theirs: a,3 at cards.csv:2:1");
}

TEST(CsvEdit, refuses_a_list_that_cannot_be_read_for_certain) {
  EXPECT_EQ(cell("id,t\na,\"x\n", 0, "a", "t", "y"),
            "cards.csv:2:3: the quote that opens this cell is never closed; the cell would run to "
            "the end of the file, 1 line further on [game.csv-unclosed-quote]");
  EXPECT_EQ(cell(std::string("\xFF\xFEi\0d\0", 6), 0, "", "id", "y"),
            "cards.csv: the file is UTF-16, not UTF-8 [game.encoding]");
  EXPECT_EQ(cell("id,t\na,caf\xE9\n", 0, "a", "t", "y"),
            "cards.csv:2:6: this character is not UTF-8 (byte E9) [game.encoding]");
}

}  // namespace
}  // namespace quoin::game
