// Random changes of random files and of the demo's own: the new text reads as the old with just
// that value changed (toml++ is the judge, and where values stand), bytes outside it are the same,
// and the way back gives the old bytes.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "game/csv.h"
#include "game/edit/csv_edit.h"
#include "game/edit/edit_testing.h"
#include "game/edit/node_edit.h"
#include "game/edit/toml_edit.h"
#include "game/toml_shape.h"

namespace quoin::game {
namespace {

int pick(int low, int high) { return *rc::gen::inRange(low, high + 1); }

template <typename T>
const T& one_from(const std::vector<T>& all) {
  return all[static_cast<std::size_t>(pick(0, static_cast<int>(all.size()) - 1))];
}

std::string random_words() {
  static const std::vector<std::string> parts{"tide", "é",  "'", "\"", "\\", "#", ",", "]", "}",
                                              " ",    "\t", "=", "\n", "網", "[", "{", ";", "x"};
  std::string text;
  for (int i = pick(0, 6); i > 0; --i) text += one_from(parts);
  return text;
}

/// A value as a maker may write it.
std::string random_written(int depth) {
  static const std::vector<std::string> plain{"1",
                                              "-0.50",
                                              "0x1F",
                                              "1_000",
                                              "true",
                                              "'lit # al'",
                                              "\"es\\\"c\"",
                                              "2024-01-02 03:04:05",
                                              "\"\"\"\nmany\nlines\"\"\"",
                                              "'''one '' two'''",
                                              "\"\"",
                                              "6.02e3"};
  const int kind = depth > 2 ? 0 : pick(0, 5);
  if (kind < 4) return one_from(plain);
  std::string inside;
  const bool is_list = kind == 4;
  const bool lines = is_list && pick(0, 2) == 0;
  const int count = pick(0, 3);
  for (int i = 0; i < count; ++i) {
    if (i > 0) inside += lines ? "," : one_from<std::string>({", ", ",", " , "});
    if (lines) inside += i > 0 && pick(0, 1) == 0 ? " # remark, ]\n  " : "\n  ";
    std::string value = random_written(depth + 1);
    // Texts of many lines and lists with line ends have no place in braces.
    if (!is_list && value.find('\n') != std::string::npos) value = "7";
    inside +=
        is_list ? value : "k" + std::to_string(i) + one_from<std::string>({" = ", "="}) + value;
  }
  if (lines && count > 0) inside += pick(0, 1) == 0 ? ",\n" : " # last\n";
  const std::string blank = pick(0, 1) == 0 ? " " : "";
  return is_list ? "[" + blank + inside + blank + "]" : "{" + blank + inside + blank + "}";
}

std::string random_entries(const std::string& line_end, const std::string& prefix) {
  std::string text;
  for (int i = pick(0, 4); i > 0; --i) {
    if (pick(0, 3) == 0) text += "# remark = 1" + line_end;
    if (pick(0, 5) == 0) text += line_end;
    text += one_from<std::string>({"", "", "  "}) + prefix + std::to_string(i) +
            one_from<std::string>({" = ", "=", "  =\t"}) + random_written(0);
    text += one_from<std::string>({"", "", " # of it"}) + line_end;
  }
  return text;
}

/// A file in any spelling that TOML allows; all of one line end.
std::string random_toml() {
  std::string text = one_from<std::string>({"", "# the file\n\n", "# close\n"});
  text += random_entries("\n", "top");
  for (int i = pick(0, 2); i > 0; --i) {
    text += one_from<std::string>({"\n", "", "\n\n# above\n"});
    text += "[table" + std::to_string(i) + "]" + one_from<std::string>({"\n", " # t\n"});
    text += random_entries("\n", "a");
    if (pick(0, 1) == 0) text += "dot.ted = 1\n";
    if (pick(0, 2) == 0)
      text += "[table" + std::to_string(i) + ".sub]\n" + random_entries("\n", "s");
  }
  for (int i = pick(0, 4); i > 0; --i) {
    text += one_from<std::string>({"\n", "", "\n# above\n# twice\n", "\n# apart\n\n"});
    text += "[[element]]\n";
    if (pick(0, 1) == 0) text += "id = 'e" + std::to_string(i) + "'\n";
    text += random_entries("\n", "b");
    for (int j = pick(0, 2); j > 0; --j) {
      text += "[[element.elements]]\n" + random_entries("\n", "c");
    }
  }
  if (pick(0, 3) == 0 && text.ends_with('\n')) text.pop_back();
  if (pick(0, 2) == 0) {
    std::string carriage;
    for (const char c : text) carriage += c == '\n' ? std::string("\r\n") : std::string(1, c);
    text = carriage;
  }
  return (pick(0, 4) == 0 ? "\xEF\xBB\xBF" : "") + text;
}

Node random_value(int depth) {
  switch (depth > 2 ? pick(0, 2) : pick(0, 4)) {
    case 0:
      return text_node(random_words());
    case 1:
      return number_node(pick(-4000, 4000) / one_from<double>({1, 8, 10, 1e7}));
    case 2:
      return {{}, pick(0, 1) == 0};
    case 3: {
      List list;
      for (int i = pick(0, 3); i > 0; --i) list.push_back(random_value(depth + 1));
      return {{}, list};
    }
    default: {
      Table table;
      for (int i = pick(0, 3); i > 0; --i) {
        table.push_back({"n " + std::to_string(i), {}, random_value(depth + 1)});
      }
      return {{}, table};
    }
  }
}

void paths_below(const Node& value, const ValuePath& path, std::vector<ValuePath>& out) {
  if (!path.empty()) out.push_back(path);
  if (value.table()) {
    for (const Entry& entry : *value.table()) {
      ValuePath below = path;
      below.emplace_back(entry.key);
      paths_below(entry.value, below, out);
    }
  }
  if (value.list()) {
    for (std::size_t i = 0; i < value.list()->size(); ++i) {
      ValuePath below = path;
      below.emplace_back(i);
      paths_below((*value.list())[i], below, out);
    }
  }
}

Node read_again(const Bytes& text) {
  Result<Table> read = read_toml(text, FileName("a.toml"));
  if (!read) throw std::logic_error("no TOML: " + text);
  return {{}, std::move(*read)};
}

std::vector<ValuePath> paths_of(const Node& top) {
  std::vector<ValuePath> paths;
  paths_below(top, {}, paths);
  return paths;
}

std::size_t same_at_start(const Bytes& a, const Bytes& b) {
  const auto [in_a, in_b] = std::mismatch(a.begin(), a.end(), b.begin(), b.end());
  return static_cast<std::size_t>(in_a - a.begin());
}

std::size_t same_at_end(const Bytes& a, const Bytes& b) {
  const auto [in_a, in_b] = std::mismatch(a.rbegin(), a.rend(), b.rbegin(), b.rend());
  return static_cast<std::size_t>(in_a - a.rbegin());
}

/// Where toml++ says that a value begins.
std::size_t offset_of_value(const Bytes& text, const Origin& origin) {
  const std::size_t mark = text.starts_with("\xEF\xBB\xBF") ? 3 : 0;
  const std::string_view rest = std::string_view(text).substr(mark);
  const std::string_view line = line_of(rest, origin.line);
  return static_cast<std::size_t>(line.data() - text.data()) + offset_of(line, origin.column);
}

/// Whether a value stands by itself, not as a table or list under headings.
bool stands_alone(const std::string& written) { return !written.empty(); }

void check_setting(const Bytes& text, const ValuePath& path, const Node& value) {
  const Node top = read_again(text);
  const EditAnswer answer = changed(text, SetValue{"a.toml", path, value});
  const auto* done = std::get_if<Edited>(&answer);
  RC_LOG() << "in:\n" << text << "\nout: " << outcome(answer) << "\n";
  RC_ASSERT(done);
  Node model = top;
  RC_ASSERT(set_node(model, path, value));
  RC_ASSERT(canonical(read_again(done->text)) == canonical(model));
  const std::string& old = std::get<SetValue>(done->inverse.change).written;
  RC_ASSERT(stands_alone(old));
  const std::size_t from = offset_of_value(text, node_at(top, path)->origin);
  RC_ASSERT(text.compare(from, old.size(), old) == 0);
  if (done->text != text) {
    RC_ASSERT(same_at_start(text, done->text) >= from);
    RC_ASSERT(same_at_end(text, done->text) + from + old.size() >= text.size());
  }
  RC_ASSERT(outcome(edit(done->inverse, done->text)) == text);
}

bool is_under_heading(const Bytes& text, const ValuePath& path) {
  const TomlSource source(text);
  return !find_value(source, path);
}

RC_GTEST_PROP(RandomToml, a_value_that_is_set_changes_nothing_else, ()) {
  const Bytes text = random_toml();
  std::vector<ValuePath> paths = paths_of(read_again(text));
  std::erase_if(paths, [&](const ValuePath& path) { return is_under_heading(text, path); });
  RC_PRE(!paths.empty());
  const ValuePath path = one_from(paths);
  check_setting(text, path, random_value(0));
}

RC_GTEST_PROP(RandomToml, a_key_that_is_added_or_taken_away_changes_nothing_else, ()) {
  const Bytes text = random_toml();
  const Node top = read_again(text);
  std::vector<ValuePath> paths = paths_of(top);
  paths.emplace_back();
  ValuePath path = one_from(paths);
  const Node* holder = node_at(top, path);
  if (holder->table()) path.emplace_back("fresh");
  if (holder->list()) path.emplace_back(holder->list()->size());
  const bool is_list = holder->list() != nullptr;
  RC_PRE(is_list || holder->table() != nullptr);
  RC_PRE(!is_list || !is_under_heading(text, {path.begin(), path.end() - 1}));
  const Node value = random_value(0);
  const EditAnswer added = changed(text, SetValue{"a.toml", path, value});
  const auto* done = std::get_if<Edited>(&added);
  RC_LOG() << "in:\n" << text << "\nout: " << outcome(added) << "\n";
  RC_ASSERT(done);
  Node model = top;
  RC_ASSERT(set_node(model, path, value));
  RC_ASSERT(canonical(read_again(done->text)) == canonical(model));
  const EditAnswer taken = edit(done->inverse, done->text);
  RC_ASSERT(std::holds_alternative<Edited>(taken));
  RC_ASSERT(canonical(read_again(std::get<Edited>(taken).text)) == canonical(top));
}

RC_GTEST_PROP(RandomToml, anything_can_be_taken_away_alone, ()) {
  const Bytes text = random_toml();
  const Node top = read_again(text);
  const std::vector<ValuePath> paths = paths_of(top);
  RC_PRE(!paths.empty());
  const ValuePath path = one_from(paths);
  const EditAnswer taken = changed(text, SetValue{"a.toml", path, std::nullopt});
  const auto* done = std::get_if<Edited>(&taken);
  RC_LOG() << "in:\n" << text << "\nout: " << outcome(taken) << "\n";
  RC_ASSERT(done);
  const auto* index = std::get_if<std::size_t>(&path.back());
  const ValuePath list(path.begin(), path.end() - 1);
  const Node now = read_again(done->text);
  const Node* rest = node_at(now, list);
  const std::size_t size = rest && rest->list() ? rest->list()->size() : 0;
  const bool is_gone = index != nullptr ? size + 1 == node_at(top, list)->list()->size()
                                        : node_at(now, path) == nullptr;
  RC_ASSERT(is_gone);
  const EditAnswer back = edit(done->inverse, done->text);
  RC_ASSERT(std::holds_alternative<Edited>(back));
  RC_ASSERT(canonical(read_again(std::get<Edited>(back).text)) == canonical(top));
}

RC_GTEST_PROP(RandomToml, items_of_lists_move_without_changing, ()) {
  const Bytes text = random_toml();
  const Node top = read_again(text);
  std::vector<ValuePath> items;
  for (const ValuePath& path : paths_of(top)) {
    if (std::holds_alternative<std::size_t>(path.back())) items.push_back(path);
  }
  RC_PRE(!items.empty());
  const ValuePath path = one_from(items);
  const ValuePath list(path.begin(), path.end() - 1);
  const int size = static_cast<int>(node_at(top, list)->list()->size());
  const auto to = static_cast<std::size_t>(pick(0, size - 1));
  const EditAnswer moved = changed(text, EditElement{"a.toml", ListOp::move, path, to});
  const auto* done = std::get_if<Edited>(&moved);
  RC_LOG() << "in:\n" << text << "\nout: " << outcome(moved) << "\n";
  RC_ASSERT(done);
  Node model = top;
  RC_ASSERT(move_node(model, path, to));
  RC_ASSERT(canonical(read_again(done->text)) == canonical(model));
  const EditAnswer back = edit(done->inverse, done->text);
  RC_ASSERT(std::holds_alternative<Edited>(back));
  RC_ASSERT(canonical(read_again(std::get<Edited>(back).text)) == canonical(top));
}

RC_GTEST_PROP(RandomToml, blocks_come_and_go_whole, ()) {
  const Bytes text = random_toml();
  const Node top = read_again(text);
  const Node* list = node_at(top, {"element"});
  const int size = list ? static_cast<int>(list->list()->size()) : 0;
  const auto place = static_cast<std::size_t>(pick(0, size));
  Node block{{}, Table{{"id", {}, text_node(random_words())}, {"v", {}, random_value(0)}}};
  const EditAnswer added =
      changed(text, EditElement{"a.toml", ListOp::add, {"element", place}, 0, block});
  const auto* done = std::get_if<Edited>(&added);
  RC_LOG() << "in:\n" << text << "\nout: " << outcome(added) << "\n";
  RC_ASSERT(done);
  Node model = top;
  RC_ASSERT(insert_node(model, {"element", place}, block));
  RC_ASSERT(canonical(read_again(done->text)) == canonical(model));
  const EditAnswer back = edit(done->inverse, done->text);
  RC_ASSERT(std::holds_alternative<Edited>(back));
  RC_ASSERT(canonical(read_again(std::get<Edited>(back).text)) == canonical(top));
}

std::string random_list(char separator) {
  const std::string end = one_from<std::string>({"\n", "\r\n"});
  const int rows = pick(1, 6);
  // A first row of one name says nothing of the separator, and commas are taken for it.
  const int columns = pick(separator == ',' ? 1 : 2, 4);
  std::string text = pick(0, 4) == 0 ? "\xEF\xBB\xBF" : "";
  for (int row = 0; row <= rows; ++row) {
    if (row > 0 && pick(0, 6) == 0) text += end;
    const int cells = row > 0 && pick(0, 4) == 0 ? pick(1, columns + 1) : columns;
    for (int i = 0; i < cells; ++i) {
      if (i > 0) text += separator;
      if (row == 0) {
        text += i == 0 ? "id" : "c" + std::to_string(i);
      } else {
        const std::string cell = i == 0 ? "r" + std::to_string(row) : random_words();
        text += csv_cell(cell, separator, pick(0, 2) == 0 ? "\"" : "");
      }
    }
    if (row < rows || pick(0, 2) > 0) text += end;
  }
  return text;
}

std::vector<std::vector<std::string>> cells_of(const Bytes& text) {
  std::vector<std::vector<std::string>> cells;
  for (const Row& row : read_csv(text, FileName("cards.csv")).value.rows) {
    cells.emplace_back();
    for (const Text& cell : row) cells.back().push_back(cell.text);
  }
  return cells;
}

RC_GTEST_PROP(RandomList, a_cell_that_is_set_changes_no_other, ()) {
  const Bytes text = random_list(one_from<char>({',', ';', '\t'}));
  const Checked<CsvTable> before = read_csv(text, FileName("cards.csv"));
  const auto row =
      static_cast<std::size_t>(pick(0, static_cast<int>(before.value.rows.size()) - 1));
  const auto column =
      static_cast<std::size_t>(pick(0, static_cast<int>(before.value.header.size()) - 1));
  const std::string value = column == 0 ? "new" : random_words();
  const std::string id = before.value.rows[row][0].text;
  // Rows without a text of their own are no cards, and are not counted.
  for (const Row& each : before.value.rows) RC_PRE(!each[0].text.empty());
  const EditAnswer answer =
      changed(text, SetCell{"cards.csv", row, id, before.value.header[column].text, value});
  const auto* done = std::get_if<Edited>(&answer);
  RC_LOG() << "in:\n" << text << "\nout: " << outcome(answer) << "\n";
  RC_ASSERT(done);
  auto model = cells_of(text);
  model[row][column] = value;
  RC_ASSERT(cells_of(done->text) == model);
  const EditAnswer back = edit(done->inverse, done->text);
  RC_ASSERT(std::holds_alternative<Edited>(back));
  RC_ASSERT(cells_of(std::get<Edited>(back).text) == cells_of(text));
  const std::optional<std::string>& old = std::get<SetCell>(done->inverse.change).written;
  if (old) RC_ASSERT(std::get<Edited>(back).text == text);
  RC_ASSERT(same_at_start(text, done->text) + same_at_end(text, done->text) +
                old.value_or("").size() >=
            text.size());
}

RC_GTEST_PROP(RandomList, rows_and_columns_come_back_to_their_places, ()) {
  const Bytes text = random_list(one_from<char>({',', ';', '\t'}));
  const auto cells = cells_of(text);
  const int rows = static_cast<int>(cells.size());
  const auto row = static_cast<std::size_t>(pick(0, rows - 1));
  const auto to = static_cast<std::size_t>(pick(0, rows - 1));
  const std::string id = cells[row][0];
  const std::vector<Change> changes{
      EditRow{"cards.csv", ListOp::remove, row, id},
      EditRow{"cards.csv", ListOp::move, row, id, to},
      EditRow{"cards.csv", ListOp::copy, row, id, to},
      EditRow{"cards.csv", ListOp::add, 0, "", to, {{"id", "fresh"}}},
      EditColumn{"cards.csv", ColumnOp::add, "fresh", "", static_cast<std::size_t>(pick(0, 3))},
      EditColumn{"cards.csv", ColumnOp::rename, "id", "name"}};
  const EditAnswer answer = changed(text, one_from(changes));
  const auto* done = std::get_if<Edited>(&answer);
  RC_LOG() << "in:\n" << text << "\nout: " << outcome(answer) << "\n";
  RC_ASSERT(done);
  const EditAnswer back = edit(done->inverse, done->text);
  RC_ASSERT(std::holds_alternative<Edited>(back));
  RC_ASSERT(cells_of(std::get<Edited>(back).text) == cells);
}

Bytes demo_file(const std::string& path) {
  std::ifstream in(std::string(QUOIN_SOURCE_DIR) + "/examples/" + path, std::ios::binary);
  std::ostringstream all;
  all << in.rdbuf();
  return all.str();
}

TEST(DemoGame, each_value_can_be_set_and_set_back) {
  int tried = 0, seen = 0;
  for (const char* file : {"game.toml", "layouts/face.toml", "layouts/back.toml",
                           "layouts/frame.toml", "layouts/rule.toml", "layouts/special.toml"}) {
    const Bytes text = demo_file(std::string("tidewrack/") + file);
    const Node top = read_again(text);
    for (const ValuePath& path : paths_of(top)) {
      const Node* value = node_at(top, path);
      if (value->table() || value->list() || ++seen % 4 != 0) continue;
      const Node fresh = value->text() ? text_node(*value->text() + " – neu'") : number_node(7.125);
      const EditAnswer answer = changed(text, SetValue{"a.toml", path, fresh});
      ASSERT_TRUE(std::holds_alternative<Edited>(answer)) << file << ": " << words_of(path);
      const Edited& done = std::get<Edited>(answer);
      const std::size_t from = offset_of_value(text, value->origin);
      const std::size_t size = std::get<SetValue>(done.inverse.change).written.size();
      EXPECT_GE(same_at_start(text, done.text), from) << file << ": " << words_of(path);
      EXPECT_GE(same_at_end(text, done.text) + from + size, text.size());
      EXPECT_EQ(outcome(edit(done.inverse, done.text)), text);
      ++tried;
    }
  }
  EXPECT_GT(tried, 60);
}

TEST(DemoGame, each_block_can_be_taken_away_and_put_back) {
  for (const char* file : {"layouts/face.toml", "layouts/frame.toml", "layouts/special.toml"}) {
    const Bytes text = demo_file(std::string("tidewrack/") + file);
    const Node top = read_again(text);
    const std::size_t size = node_at(top, {"element"})->list()->size();
    for (std::size_t i = 0; i < size; ++i) {
      const EditAnswer answer =
          changed(text, EditElement{"a.toml", ListOp::remove, {"element", i}});
      ASSERT_TRUE(std::holds_alternative<Edited>(answer)) << file;
      const Edited& done = std::get<Edited>(answer);
      EXPECT_EQ(outcome(edit(done.inverse, done.text)), text) << file << " " << i;
    }
  }
}

TEST(DemoGame, each_cell_can_be_set_and_set_back) {
  const Bytes text = demo_file("tidewrack/cards.csv");
  const CsvTable list = read_csv(text, FileName("cards.csv")).value;
  for (std::size_t row = 0; row < list.rows.size(); row += 17) {
    for (const Text& column : list.header) {
      const SetCell change{"cards.csv", row, list.rows[row][0].text, column.text, "a, \"b\""};
      const EditAnswer answer = changed(text, change);
      ASSERT_TRUE(std::holds_alternative<Edited>(answer)) << row << column.text;
      const Edited& done = std::get<Edited>(answer);
      EXPECT_EQ(outcome(edit(done.inverse, done.text)), text) << row << column.text;
    }
  }
}

}  // namespace
}  // namespace quoin::game
