#include "game/edit/toml_edit.h"

#include <gtest/gtest.h>

#include "game/edit/edit_testing.h"

namespace quoin::game {
namespace {

TEST(TomlValue, keeps_quotes_remarks_spaces_and_line_ends_round_it) {
  EXPECT_EQ(set("\xEF\xBB\xBF# top\r\n[card]\r\n  size  =\t'poker'  # of ours\r\ncorner=3.50",
                {"card", "size"}, text_node("tarot")),
            "\xEF\xBB\xBF# top\r\n[card]\r\n  size  =\t'tarot'  # of ours\r\ncorner=3.50");
  EXPECT_EQ(set("a = 'x'\n", {"a"}, text_node("it's")), "a = \"it's\"\n");
  EXPECT_EQ(set("a = \"x\"\n", {"a"}, text_node("two\nlines \\ \"q\"")),
            "a = \"two\\nlines \\\\ \\\"q\\\"\"\n");
  EXPECT_EQ(set("a = \"\"\"\r\nx\"\"\"\r\n", {"a"}, text_node("y\nz")),
            "a = \"\"\"\r\ny\r\nz\"\"\"\r\n");
  EXPECT_EQ(set("a = '''x'''\n", {"a"}, text_node("y\nz")), "a = '''y\nz'''\n");
}

TEST(TomlValue, is_found_in_tables_dotted_keys_and_lists) {
  const std::string text =
      "a.b = 1\nc = { d.e = 2, f = [ 3,  4 ] }\n[[g]]\nx = 1\n[[g]]\nx = 2\n[g.h]\ny = 3\n";
  EXPECT_EQ(set("a.b = 1\n", {"a", "b"}, number_node(7.25)), "a.b = 7.25\n");
  EXPECT_EQ(set(text, {"c", "d", "e"}, number_node(9)),
            "a.b = 1\nc = { d.e = 9, f = [ 3,  4 ] }\n[[g]]\nx = 1\n[[g]]\nx = 2\n[g.h]\ny = 3\n");
  EXPECT_EQ(set(text, {"c", "f", at(1)}, number_node(9)),
            "a.b = 1\nc = { d.e = 2, f = [ 3,  9 ] }\n[[g]]\nx = 1\n[[g]]\nx = 2\n[g.h]\ny = 3\n");
  EXPECT_EQ(set(text, {"g", at(1), "h", "y"}, number_node(9)),
            "a.b = 1\nc = { d.e = 2, f = [ 3,  4 ] }\n[[g]]\nx = 1\n[[g]]\nx = 2\n[g.h]\ny = 9\n");
  EXPECT_EQ(set("\"a.b\".'c d' = 1\n", {"a.b", "c d"}, number_node(2)), "\"a.b\".'c d' = 2\n");
}

TEST(TomlValue, changes_only_the_items_that_differ_in_a_list_of_the_same_length) {
  EXPECT_EQ(set("at = [ 5.20,  3 ] # where\n", {"at"}, node_of("[5.2, 4]")),
            "at = [ 5.20,  4 ] # where\n");
  EXPECT_EQ(set("at = [5.2, 3]\n", {"at"}, node_of("[1, 2, 3]")), "at = [1, 2, 3]\n");
  EXPECT_EQ(set("s = {colour='ink',  width = 0.30}\n", {"s"}, node_of("{width=0.3,colour='sea'}")),
            "s = {colour='sea',  width = 0.30}\n");
}

TEST(TomlValue, is_written_as_a_number_that_reads_back_the_same) {
  EXPECT_EQ(set("a = 1\n", {"a"}, number_node(100000)), "a = 100000\n");
  EXPECT_EQ(set("a = 1\n", {"a"}, number_node(0.1)), "a = 0.1\n");
  EXPECT_EQ(set("a = 1\n", {"a"}, number_node(-3.0)), "a = -3\n");
  EXPECT_EQ(set("a = 1\n", {"a"}, number_node(1e300)), "a = 1e+300\n");
  EXPECT_EQ(set("a = 1\n", {"a"}, number_node(1e-9)), "a = 1e-09\n");
}

TEST(TomlKey, is_added_behind_its_neighbours_in_their_spacing) {
  EXPECT_EQ(set("[a]\n  x=1 # one\n\n# next\n[b]\ny = 2\n", {"a", "z"}, number_node(3)),
            "[a]\n  x=1 # one\n  z=3\n\n# next\n[b]\ny = 2\n");
  EXPECT_EQ(set("[a]\nlong = 1\nx    = 2", {"a", "of"}, number_node(3)),
            "[a]\nlong = 1\nx    = 2\nof   = 3");
  EXPECT_EQ(set("# top\nuse = 'f'\n\n[[e]]\nid = 'a'\n", {"size"}, text_node("card")),
            "# top\nuse = 'f'\nsize = \"card\"\n\n[[e]]\nid = 'a'\n");
  EXPECT_EQ(set("# top\n\n[e]\nid = 'a'\n", {"size"}, number_node(1)),
            "# top\n\nsize = 1\n\n[e]\nid = 'a'\n");
  EXPECT_EQ(set("", {"size"}, number_node(1)), "size = 1\n");
  EXPECT_EQ(set("a = { }\nb = {x=1}\n", {"a", "of it"}, number_node(1)),
            "a = { \"of it\" = 1 }\nb = {x=1}\n");
  EXPECT_EQ(set("a = { }\nb = {x=1}\n", {"b", "y"}, number_node(2)), "a = { }\nb = {x=1, y=2}\n");
  EXPECT_EQ(set("[t]\na.b = 1\nc = 2\n", {"t", "a", "d"}, number_node(3)),
            "[t]\na.b = 1\na.d = 3\nc = 2\n");
}

TEST(TomlKey, gets_the_heading_that_its_neighbours_have) {
  EXPECT_EQ(set("[suits.glass]\nname = 'G'\n\n[decks.main]\nname = 'M'\n", {"suits", "rope"},
                node_of("{ name = 'R', colour = '#123456' }")),
            "[suits.glass]\nname = 'G'\n\n[suits.rope]\nname = \"R\"\ncolour = \"#123456\"\n\n"
            "[decks.main]\nname = 'M'\n");
  EXPECT_EQ(set("[game]\ntitle = 'T'", {"box", "kind"}, text_node("tuck")),
            "[game]\ntitle = 'T'\n\n[box]\nkind = \"tuck\"");
  EXPECT_EQ(set("[suits.glass]\nname = 'G'\n", {"suits", "of"}, number_node(1)),
            "[suits]\nof = 1\n\n[suits.glass]\nname = 'G'\n");
  EXPECT_EQ(set("[[element]]\nid = 'a'\n\n[[element]]\nid = 'b'\n",
                {"element", at(0), "stroke", "width"}, number_node(1)),
            "[[element]]\nid = 'a'\nstroke = { width = 1 }\n\n[[element]]\nid = 'b'\n");
}

TEST(TomlKey, goes_with_its_line_and_the_remark_on_it) {
  EXPECT_EQ(take("# of a\n[a]\nx = 1 # one\ny = 2\n", {"a", "x"}), "# of a\n[a]\ny = 2\n");
  EXPECT_EQ(take("x = 1\ny = 2", {"y"}), "x = 1");
  EXPECT_EQ(take("a = { x = 1, y = 2 }\n", {"a", "x"}), "a = { y = 2 }\n");
  EXPECT_EQ(take("a = { x = 1, y = 2 }\n", {"a", "y"}), "a = { x = 1 }\n");
  EXPECT_EQ(take("a = { x = 1 }\n", {"a", "x"}), "a = {}\n");
  EXPECT_EQ(take("a.b = 1\nc = 2\n", {"a", "b"}), "c = 2\n");
  EXPECT_EQ(take("[a]\nx = 1\n\n# of b\n[b]\ny = 2\n\n[c]\nz = 3\n", {"b"}),
            "[a]\nx = 1\n\n[c]\nz = 3\n");
  EXPECT_EQ(take("l = [\n  1, # one\n  2, # two\n  3 # three\n]\n", {"l", at(1)}),
            "l = [\n  1, # one\n  3 # three\n]\n");
  EXPECT_EQ(take("x = 1\n", {"y"}),
            "a.toml: there is no y in this file any more [edit.place-gone]");
}

const char* const three_blocks =
    "# the file\n\n# first\n[[element]]\nid = 'a'\n\n# second\n# of three\n[[element]]\nid = 'b'\n"
    "[element.stroke]\nwidth = 1\n\n[[element]]\nid = 'c' # last\n";

std::string of_element(const std::string& text, ListOp op, int place, int to = 0) {
  return outcome(changed(text, EditElement{"a.toml", op, {"element", at(place)}, at(to)}));
}

TEST(TomlBlock, goes_with_the_remarks_above_it) {
  EXPECT_EQ(of_element(three_blocks, ListOp::remove, 1),
            "# the file\n\n# first\n[[element]]\nid = 'a'\n\n[[element]]\nid = 'c' # last\n");
  EXPECT_EQ(of_element(three_blocks, ListOp::remove, 2),
            "# the file\n\n# first\n[[element]]\nid = 'a'\n\n# second\n# of three\n[[element]]\n"
            "id = 'b'\n[element.stroke]\nwidth = 1\n");
}

TEST(TomlBlock, moves_whole) {
  EXPECT_EQ(of_element(three_blocks, ListOp::move, 1, 0),
            "# the file\n\n# second\n# of three\n[[element]]\nid = 'b'\n[element.stroke]\nwidth = "
            "1\n\n# first\n[[element]]\nid = 'a'\n\n[[element]]\nid = 'c' # last\n");
  EXPECT_EQ(of_element(three_blocks, ListOp::move, 0, 2),
            "# the file\n\n# second\n# of three\n[[element]]\nid = 'b'\n[element.stroke]\nwidth = "
            "1\n\n[[element]]\nid = 'c' # last\n\n# first\n[[element]]\nid = 'a'\n");
}

TEST(TomlBlock, is_added_where_it_is_asked_for) {
  const auto added = [](const std::string& text, ValuePath path, const std::string& value) {
    return outcome(
        changed(text, EditElement{"a.toml", ListOp::add, std::move(path), 0, node_of(value)}));
  };
  EXPECT_EQ(added("[[element]]\nid='a'\n\n[[element]]\nid='b'\n", {"element", at(1)},
                  "{id = 'new', at = [1, 2], stroke = {width = 1}}"),
            "[[element]]\nid='a'\n\n[[element]]\nid=\"new\"\nat=[1, 2]\nstroke={ width = 1 }\n\n"
            "[[element]]\nid='b'\n");
  EXPECT_EQ(added("use = 'f'", {"element", at(0)}, "{id = 'new'}"),
            "use = 'f'\n\n[[element]]\nid = \"new\"");
  EXPECT_EQ(
      added("[[element]]\nid = 'g'\n\n[[element]]\nid = 'b'\n",
            {"element", at(0), "elements", at(0)}, "{id = 'in'}"),
      "[[element]]\nid = 'g'\n\n[[element.elements]]\nid = \"in\"\n\n[[element]]\nid = 'b'\n");
  EXPECT_EQ(added("", {"element", at(0)}, "{id = 'g', elements = [{id = 'a'}, {id = 'b'}]}"),
            "[[element]]\nid = \"g\"\n\n[[element.elements]]\nid = \"a\"\n\n[[element.elements]]\n"
            "id = \"b\"\n");
  EXPECT_EQ(added("e = [{ id = 'a' }]\n", {"e", at(1)}, "{id = 'b'}"),
            "e = [{ id = 'a' }, { id = \"b\" }]\n");
  EXPECT_EQ(added("l = [\n  1, # one\n  2 # two\n]\n", {"l", at(2)}, "3"),
            "l = [\n  1, # one\n  2, # two\n  3\n]\n");
}

TEST(TomlBlock, whose_parts_stand_apart_is_not_moved) {
  EXPECT_EQ(of_element("[[element]]\nx = 1\n[other]\ny = 2\n[element.stroke]\nz = 3\n"
                       "[[element]]\nx = 4\n",
                       ListOp::move, 0, 1),
            "a.toml:1:1: the value cannot be written to element 1: there is a block whose parts "
            "stand apart at this place [edit.not-possible]");
}

TEST(TomlEdit, says_what_cannot_be_written) {
  EXPECT_EQ(set("a = 1\n", {"a", "b"}, number_node(1)),
            "a.toml:1:5: the value cannot be written to a, b: there is something else than a table "
            "or a list on the way at this place [edit.not-possible]");
  EXPECT_EQ(set("[a]\nx = 1\n", {"a"}, number_node(1)),
            "a.toml:1:1: the value cannot be written to a: there is a table with headings at this "
            "place [edit.not-possible]");
  EXPECT_EQ(set("a = 1\n", {"a"}, number_node(1.0 / 0.0)),
            "a.toml:1:5: the value for a is not a number that can be measured [edit.not-writable]");
  EXPECT_EQ(set("a = 1\n", {"a"}, text_node("\xFF")),
            "a.toml:1:5: the value for a is not UTF-8 text [edit.not-writable]");
  EXPECT_EQ(set("a = \n", {"a"}, number_node(1)).substr(0, 12), "a.toml:1:5: ");
}

TEST(TomlEdit, gives_the_place_of_what_it_changed_and_the_way_back) {
  const std::string text = "[a]\nb = [1, 0x02] # two\n";
  const EditAnswer answer = changed(text, SetValue{"a.toml", {"a", "b", at(1)}, number_node(22)});
  const Edited& done = std::get<Edited>(answer);
  EXPECT_EQ(to_string(done.place), "a.toml:2:9");
  EXPECT_EQ(outcome(edit(done.inverse, done.text)), text);
}

TEST(TomlMerge, keeps_both_when_different_values_were_changed) {
  const std::string seen = "[[e]]\nid = 'a'\nx = 1\n[[e]]\nid = 'b'\nx = 2\ny = 3\n";
  const std::string now =
      "# theirs\n[[e]]\nid = 'new'\n[[e]]\nid = 'a'\nx = 1\n[[e]]\nid = 'b'\nx = 2\ny = 30\n";
  EXPECT_EQ(outcome(merged(seen, now, SetValue{"a.toml", {"e", at(1), "x"}, number_node(20)})),
            "# theirs\n[[e]]\nid = 'new'\n[[e]]\nid = 'a'\nx = 1\n[[e]]\nid = 'b'\nx = 20\ny = "
            "30\n");
}

TEST(TomlMerge, asks_when_the_same_value_was_changed) {
  const SetValue change{"a.toml", {"x"}, number_node(2)};
  EXPECT_EQ(outcome(merged("x = 1\n", "\nx = 3\n", change)), "mine: 2; theirs: 3 at a.toml:2:5");
  EXPECT_EQ(outcome(merged("x = 1\n", "x = 2\n", change)), "x = 2\n");
  EXPECT_EQ(outcome(merged("x = 1\n", "y = 2\n", change)), "mine: 2; theirs:  at a.toml");
  const Result<Claim> made = claim(change, "x = 1\n");
  ASSERT_TRUE(made.ok());
  EXPECT_EQ(outcome(edit(*made, "x = 3\n", WhenChanged::take_mine)), "x = 2\n");
}

TEST(TomlMerge, does_not_take_away_what_others_changed) {
  const std::string seen = "[[e]]\nid = 'a'\n[[e]]\nid = 'b'\n";
  const std::string now = "[[e]]\nid = 'a'\n[[e]]\nid = 'b'\nx = 1\n";
  EXPECT_EQ(outcome(merged(seen, now, EditElement{"a.toml", ListOp::remove, {"e", at(1)}})),
            "mine: ; theirs: [[e]]\nid = 'b'\nx = 1 at a.toml:3:1");
  EXPECT_EQ(outcome(merged(seen, "[[e]]\nid = 'a'\n",
                           SetValue{"a.toml", {"e", at(1), "x"}, number_node(1)})),
            "a.toml: there is no e 2, x in this file any more [edit.place-gone]");
}

}  // namespace
}  // namespace quoin::game
