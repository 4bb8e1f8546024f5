#include "game/edit/csv_edit.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "game/edit/toml_write.h"
#include "game/words.h"

namespace quoin::game {
namespace {

using CellRow = std::vector<std::string>;
using Cells = std::vector<CellRow>;
/// The rows that a list shall have: mostly those of the old one, so they are not copied.
using WantedRows = std::vector<const CellRow*>;
using CsvSplices = std::vector<Splice>;

bool is_blank_row(const std::vector<std::string>& row) {
  return std::all_of(row.begin(), row.end(),
                     [](const std::string& cell) { return trimmed(cell).empty(); });
}

Origin row_place(const CsvText& list, std::size_t row) {
  return origin_at(list.text, list.rows[row].cells.front(), list.file);
}

Diagnostic no_such_row(const CsvText& list, std::size_t row) {
  Diagnostic problem(Id::edit_place_gone, {list.file},
                     fmt::format("there is no row {} in the list; it has {}", row + 1,
                                 counted(list.rows.size(), "row")));
  return problem.hint("look at the list as it stands now, and make the change again");
}

Diagnostic empty_row(const CsvText& list, std::size_t row) {
  const Origin where = row < list.rows.size() ? row_place(list, row) : Origin{list.file};
  Diagnostic problem(Id::edit_row_empty, where,
                     fmt::format("row {} would be left without any text", row + 1));
  return problem.hint("remove the row to take the card away");
}

Diagnostic unwritable(const CsvText& list, const std::string& column, const std::string& fault) {
  return Diagnostic(Id::edit_not_writable, {list.file},
                    fmt::format("the text for {} {}", column, fault));
}

WantedRows rows_of(const Cells& cells) {
  WantedRows rows;
  rows.reserve(cells.size() + 1);
  for (const CellRow& row : cells) rows.push_back(&row);
  return rows;
}

bool reads_as(const Cells& cells, const WantedRows& wanted) {
  return std::equal(cells.begin(), cells.end(), wanted.begin(), wanted.end(),
                    [](const CellRow& row, const CellRow* as) { return row == *as; });
}

ChangedList unchanged(const CsvText& old) {
  ChangedList same{std::make_unique<Bytes>(old.text), old};
  same.list.text = *same.text;
  return same;
}

/// The new text when it reads as these columns and rows.
Result<ChangedList> proved_list(const CsvText& old, CsvSplices splices,
                                const std::vector<std::string>& columns, const WantedRows& rows) {
  std::stable_sort(splices.begin(), splices.end(),
                   [](const Splice& a, const Splice& b) { return a.at.from < b.at.from; });
  auto text = std::make_unique<Bytes>(spliced(old.text, splices));
  Result<CsvText> read = csv_text_of(*text, old.file);
  if (read && read->columns == columns && reads_as(read->cells, rows)) {
    return ChangedList{std::move(text), std::move(*read)};
  }
  Diagnostic problem(Id::edit_not_proved, {old.file},
                     "the list cannot be changed here without changing another cell");
  return problem.hint("change it in a spreadsheet or a text editor");
}

std::string line_end_of_list(const CsvText& list) {
  const std::string_view end =
      list.text.substr(list.header.at.to, list.header.lines.to - list.header.at.to);
  return end.empty() ? "\n" : std::string(end);
}

bool has_line_end(const CsvRecord& record) { return record.lines.to > record.at.to; }

Splice take_record(const CsvText& list, std::size_t row) {
  const CsvRecord& record = list.rows[row];
  if (has_line_end(record)) return {record.lines, ""};
  std::size_t from = record.at.from;
  if (from > 0 && list.text[from - 1] == '\n') --from;
  if (from > 0 && list.text[from - 1] == '\r') --from;
  return {{from, record.at.to}, ""};
}

/// Puts a record before a row, or behind the last.
Splice put_record(const CsvText& list, std::size_t row, const std::string& record) {
  const std::string end = line_end_of_list(list);
  if (row < list.rows.size()) {
    const std::size_t at = list.rows[row].lines.from;
    return {{at, at}, record + end};
  }
  const CsvRecord& last = list.rows.empty() ? list.header : list.rows.back();
  const std::size_t at = last.lines.to;
  return {{at, at}, has_line_end(last) ? record + end : end + record};
}

std::string record_text(const CsvText& list, const std::vector<std::string>& cells) {
  std::string made;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i > 0) made += list.separator;
    made += csv_cell(cells[i], list.separator, {});
  }
  return made;
}

Result<ChangedList> with_row(const CsvText& old, std::size_t at, std::vector<std::string> row,
                             const std::string& raw) {
  if (is_blank_row(row)) return empty_row(old, at);
  const std::string fresh = record_text(old, row);
  WantedRows rows = rows_of(old.cells);
  rows.insert(rows.begin() + static_cast<std::ptrdiff_t>(at), &row);
  if (!raw.empty()) {
    Result<ChangedList> as_written =
        proved_list(old, {put_record(old, at, raw)}, old.columns, rows);
    if (as_written) return as_written;
  }
  return proved_list(old, {put_record(old, at, fresh)}, old.columns, rows);
}

Result<ChangedList> add_row_to(const CsvText& old, const EditRow& change,
                               std::vector<std::string> row, std::size_t last) {
  for (const auto& [name, text] : change.values) {
    const std::optional<std::size_t> at = old.column(name);
    if (!at) return no_such_column(old, name);
    if (const auto fault = fault_of_text(text)) return unwritable(old, name, *fault);
    row[*at] = text;
  }
  if (const std::optional<std::size_t> at = old.column("id"); at && !trimmed(row[*at]).empty()) {
    const std::string id = lower_case(trimmed(row[*at]));
    for (std::size_t i = 0; i < old.rows.size(); ++i) {
      if (lower_case(old.id(i)) != id) continue;
      Diagnostic problem(Id::edit_id_taken, row_place(old, i),
                         fmt::format("the id {} is taken by row {}", old.id(i), i + 1));
      return problem.hint(fmt::format("{} is free", free_id(old, old.id(i))));
    }
  }
  return with_row(old, std::min(change.to.value_or(last), last), std::move(row), change.written);
}

Result<ChangedList> copy_row(const CsvText& old, const EditRow& change) {
  std::vector<std::string> row = old.cells[change.row];
  EditRow adding = change;
  const std::optional<std::size_t> id = old.column("id");
  if (id && !change.values.contains("id") && !trimmed(row[*id]).empty()) {
    adding.values["id"] = free_id(old, old.id(change.row));
  }
  adding.to = std::min(change.to.value_or(change.row + 1), old.rows.size());
  adding.written.clear();
  return add_row_to(old, adding, std::move(row), old.rows.size());
}

Result<ChangedList> move_row(const CsvText& old, const EditRow& change) {
  const std::size_t to = std::min(change.to.value_or(change.row), old.rows.size() - 1);
  if (to == change.row) return unchanged(old);
  WantedRows rows = rows_of(old.cells);
  rows.erase(rows.begin() + static_cast<std::ptrdiff_t>(change.row));
  rows.insert(rows.begin() + static_cast<std::ptrdiff_t>(to), &old.cells[change.row]);
  const std::string raw(part(old.text, old.rows[change.row].at));
  const std::size_t before = to < change.row ? to : to + 1;
  return proved_list(old, {take_record(old, change.row), put_record(old, before, raw)}, old.columns,
                     rows);
}

/// Puts a cell at a place of a record; a record that ends before it stays short.
void put_cell(const CsvText& list, const CsvRecord& record, std::size_t place,
              const std::string& raw, CsvSplices& out) {
  const std::string separator(1, list.separator);
  const std::size_t have = record.cells.size();
  if (place < have) {
    const std::size_t at = record.cells[place].from;
    out.push_back({{at, at}, raw + separator});
  } else if (have >= list.columns.size() || !raw.empty()) {
    out.push_back(
        {{record.at.to, record.at.to}, std::string(place - have + 1, list.separator) + raw});
  }
}

void take_cell(const CsvRecord& record, std::size_t place, CsvSplices& out) {
  if (place >= record.cells.size()) return;
  if (place > 0)
    out.push_back({{record.cells[place - 1].to, record.cells[place].to}, ""});
  else if (record.cells.size() > 1)
    out.push_back({{record.cells[0].from, record.cells[1].from}, ""});
}

std::optional<Diagnostic> fault_of_name(const CsvText& list, const std::string& name) {
  if (const auto fault = fault_of_text(name)) return unwritable(list, "the column's name", *fault);
  if (trimmed(name).empty()) {
    return Diagnostic(Id::edit_column_name, {list.file}, "the column has no name")
        .hint("give it one");
  }
  if (!list.column(trimmed(name))) return std::nullopt;
  return Diagnostic(Id::edit_column_name, {list.file},
                    fmt::format("there is a column {} already", trimmed(name)))
      .hint("give the new one another name");
}

Result<ChangedList> add_column(const CsvText& old, const EditColumn& change) {
  if (auto fault = fault_of_name(old, change.column)) return *fault;
  const std::size_t place = std::min(change.place.value_or(old.columns.size()), old.columns.size());
  const auto offset = static_cast<std::ptrdiff_t>(place);
  std::vector<std::string> columns = old.columns;
  const std::string name(trimmed(change.column));
  columns.insert(columns.begin() + offset, name);
  CsvSplices splices;
  put_cell(old, old.header, place, csv_cell(name, old.separator, {}), splices);
  Cells cells = old.cells;
  const bool filled = change.written.size() == old.rows.size();
  for (std::size_t i = 0; i < old.rows.size(); ++i) {
    const std::string raw = filled ? change.written[i] : "";
    put_cell(old, old.rows[i], place, raw, splices);
    cells[i].insert(cells[i].begin() + offset, text_of_cell(raw));
  }
  for (const CsvRecord& each : old.blank) put_cell(old, each, place, "", splices);
  return proved_list(old, std::move(splices), columns, rows_of(cells));
}

Result<ChangedList> remove_column(const CsvText& old, const EditColumn& change) {
  const std::optional<std::size_t> place = old.column(change.column);
  if (!place) return no_such_column(old, change.column);
  std::vector<std::string> columns = old.columns;
  columns.erase(columns.begin() + static_cast<std::ptrdiff_t>(*place));
  CsvSplices splices;
  take_cell(old.header, *place, splices);
  Cells cells = old.cells;
  for (std::size_t i = 0; i < old.rows.size(); ++i) {
    take_cell(old.rows[i], *place, splices);
    cells[i].erase(cells[i].begin() + static_cast<std::ptrdiff_t>(*place));
    if (is_blank_row(cells[i])) return empty_row(old, i);
  }
  for (const CsvRecord& each : old.blank) take_cell(each, *place, splices);
  return proved_list(old, std::move(splices), columns, rows_of(cells));
}

Result<ChangedList> rename_column(const CsvText& old, const EditColumn& change) {
  const std::optional<std::size_t> place = old.column(change.column);
  if (!place) return no_such_column(old, change.column);
  const std::string name(trimmed(change.to));
  if (name == change.column) return unchanged(old);
  if (auto fault = fault_of_name(old, change.to)) return *fault;
  std::vector<std::string> columns = old.columns;
  columns[*place] = name;
  const Stretch at = old.header.cells[*place];
  return proved_list(old, {{at, csv_cell(name, old.separator, part(old.text, at))}}, columns,
                     rows_of(old.cells));
}

}  // namespace

std::string csv_cell(std::string_view text, char separator, std::string_view before) {
  const bool asked = text.find_first_of("\"\r\n") != std::string_view::npos ||
                     text.find(separator) != std::string_view::npos || text.starts_with(' ') ||
                     text.starts_with('\t') || text.ends_with(' ') || text.ends_with('\t');
  if (!asked && !before.starts_with('"')) return std::string(text);
  std::string quoted = "\"";
  for (const char c : text) quoted += c == '"' ? "\"\"" : std::string(1, c);
  return quoted + "\"";
}

std::string text_of_cell(std::string_view raw) {
  if (!raw.starts_with('"')) return std::string(raw);
  std::string text;
  std::size_t i = 1;
  for (; i < raw.size(); ++i) {
    if (raw[i] == '"' && raw.substr(i + 1, 1) != "\"") break;
    if (raw[i] == '"') ++i;
    text += raw[i];
  }
  const std::string_view more = raw.substr(std::min(i + 1, raw.size()));
  return trimmed(more).empty() ? text : text + std::string(more);
}

std::string free_id(const CsvText& list, const std::string& id) {
  std::set<std::string> taken;
  for (std::size_t i = 0; i < list.rows.size(); ++i) taken.insert(lower_case(list.id(i)));
  for (int number = 2;; ++number) {
    const std::string wanted = fmt::format("{}-{}", id, number);
    if (!taken.contains(lower_case(wanted))) return wanted;
  }
}

Diagnostic no_such_column(const CsvText& list, const std::string& name) {
  Diagnostic problem(Id::edit_unknown_column, {list.file},
                     fmt::format("the list has no column {}", in_quotes(name)));
  const std::string near = instead_of(name, list.columns);
  if (!near.empty()) problem.hint(near);
  return problem;
}

Result<ChangedList> change_csv(const CsvText& old, const SetCell& change) {
  const std::optional<std::size_t> at = old.column(change.column);
  if (!at) return no_such_column(old, change.column);
  if (change.row >= old.rows.size()) return no_such_row(old, change.row);
  if (const auto fault = fault_of_text(change.text)) {
    return unwritable(old, change.column, *fault);
  }
  CellRow row = old.cells[change.row];
  row[*at] = change.text;
  if (is_blank_row(row)) return empty_row(old, change.row);
  if (row == old.cells[change.row] && !change.written) return unchanged(old);
  WantedRows rows = rows_of(old.cells);
  rows[change.row] = &row;
  const CsvRecord& record = old.rows[change.row];
  const bool said = change.written && text_of_cell(*change.written) == change.text;
  const std::string raw =
      said ? *change.written : csv_cell(change.text, old.separator, old.written(change.row, *at));
  const std::size_t have = record.cells.size();
  if (*at < have) return proved_list(old, {{record.cells[*at], raw}}, old.columns, rows);
  const std::string filling(*at - have + 1, old.separator);
  return proved_list(old, {{{record.at.to, record.at.to}, filling + raw}}, old.columns, rows);
}

Result<ChangedList> change_csv(const CsvText& old, const EditRow& change) {
  if (old.columns.empty()) return no_such_row(old, change.row);
  if (change.op == ListOp::add) {
    return add_row_to(old, change, std::vector<std::string>(old.columns.size()), old.rows.size());
  }
  if (change.row >= old.rows.size()) return no_such_row(old, change.row);
  if (change.op == ListOp::copy) return copy_row(old, change);
  if (change.op == ListOp::move) return move_row(old, change);
  WantedRows rows = rows_of(old.cells);
  rows.erase(rows.begin() + static_cast<std::ptrdiff_t>(change.row));
  return proved_list(old, {take_record(old, change.row)}, old.columns, rows);
}

Result<ChangedList> change_csv(const CsvText& old, const EditColumn& change) {
  switch (change.op) {
    case ColumnOp::add:
      return add_column(old, change);
    case ColumnOp::remove:
      return remove_column(old, change);
    case ColumnOp::rename:
      return rename_column(old, change);
  }
  return no_such_column(old, change.column);
}

}  // namespace quoin::game
