#include "game/csv.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "game/csv_records.h"
#include "game/encoding.h"
#include "game/words.h"

namespace quoin::game {
namespace {

constexpr std::string_view separators = ",;\t";

std::string_view name_of(char separator) {
  if (separator == ';') return "semicolons";
  return separator == '\t' ? "tabs" : "commas";
}

/// How the first row falls apart with each separator.
struct HeaderReading {
  char separator = ',';
  std::size_t cells = 0;
  bool has_id = false;
};

HeaderReading try_header(std::string_view text, FileName file, char separator) {
  Findings ignored;
  Row row;
  CsvRecords(text, file, separator).next(row, ignored);
  const bool has_id = std::any_of(row.begin(), row.end(),
                                  [](const Text& cell) { return trimmed(cell.text) == "id"; });
  return {separator, row.size(), has_id};
}

Row trimmed_cells(Row row) {
  for (Text& cell : row) cell.text = std::string(trimmed(cell.text));
  return row;
}

void check_header(const Row& header, Findings& found) {
  std::map<std::string, const Text*> seen;
  for (std::size_t i = 0; i < header.size(); ++i) {
    const Text& cell = header[i];
    if (cell.text.empty()) {
      Diagnostic problem(Id::game_column_without_name, cell.origin,
                         fmt::format("column {} has no name", i + 1));
      found.add(problem.hint("write a name into the first row, or delete the column"));
      continue;
    }
    const auto [first, is_new] = seen.emplace(cell.text, &cell);
    if (is_new) continue;
    Diagnostic problem(Id::game_column_twice, cell.origin,
                       fmt::format("the column {} is there twice", cell.text));
    problem.detail(fmt::format("the first is at {}", to_string(first->second->origin)));
    found.add(problem.hint("give one of them another name"));
  }
}

Diagnostic short_row(const Row& row, const Row& header) {
  Diagnostic problem(Id::game_csv_short_row, row.back().origin,
                     fmt::format("the row ends here with {}; there are {}",
                                 counted(row.size(), "cell"), counted(header.size(), "column")));
  std::vector<std::string> missing;
  for (std::size_t i = row.size(); i < header.size() && missing.size() < 6; ++i) {
    missing.push_back(header[i].text);
  }
  if (header.size() - row.size() > missing.size()) missing.emplace_back("more");
  problem.detail(fmt::format("nothing stands for {}", all_of(missing)));
  return problem.hint("add a comma for each missing cell, also when it stays empty");
}

Diagnostic long_row(const Row& row, const Row& header) {
  Diagnostic problem(Id::game_csv_long_row, row[header.size()].origin,
                     fmt::format("the row has {}; there are {}", counted(row.size(), "cell"),
                                 counted(header.size(), "column")));
  problem.detail(fmt::format("{} is the first for which there is no column",
                             in_quotes(row[header.size()].text)));
  return problem.hint("put a text that holds a comma into quotes, or name one more column");
}

/// Makes the row as long as the header.
void fit(Row& row, const Row& header, Findings& found) {
  const std::size_t columns = header.size();
  if (row.size() < columns) {
    found.add(short_row(row, header));
    const Origin end = row.back().origin;
    row.resize(columns, Text{{}, end});
  }
  if (row.size() == columns) return;
  const auto extra = row.begin() + static_cast<std::ptrdiff_t>(columns);
  const bool empty =
      std::all_of(extra, row.end(), [](const Text& cell) { return trimmed(cell.text).empty(); });
  if (!empty) found.add(long_row(row, header));
  row.erase(extra, row.end());
}

Diagnostic too_large(const Origin& where, std::string_view what, std::size_t limit) {
  Diagnostic problem(
      Id::game_too_large, where,
      fmt::format("the list has more than {} {}; the rest is not read", limit, what));
  return problem.hint("split the game in two, or look for a copy pasted too often");
}

void read_rows(CsvRecords& records, CsvTable& table, const CsvLimits& limits, Findings& found) {
  Row row;
  const std::size_t columns = table.header.size();
  while (records.next(row, found)) {
    if (columns > 1 && row.size() == 1 && trimmed(row[0].text).empty()) continue;
    if (table.rows.size() >= limits.rows) {
      found.add(too_large(row[0].origin, "rows", limits.rows));
      return;
    }
    if ((table.rows.size() + 1) * columns > limits.cells) {
      found.add(too_large(row[0].origin, "cells", limits.cells));
      return;
    }
    Findings ignored;
    fit(row, table.header, records.quotes_in_doubt() ? ignored : found);
    row.shrink_to_fit();
    table.rows.push_back(std::move(row));
    row = {};
  }
}

void read_table(std::string_view text, FileName file, CsvTable& table, const CsvLimits& limits,
                Findings& found) {
  const std::optional<char> separator = csv_separator(text, file);
  if (!separator) {
    Diagnostic problem(Id::game_csv_separator_unclear, {file, 1, 1, 0},
                       "the first row has more than one of comma, semicolon and tab");
    found.add(
        problem.hint("part the columns' names by commas, and put a name that holds one into "
                     "quotes"));
    return;
  }
  table.separator = *separator;
  CsvRecords records(text, file, *separator);
  Row header;
  if (!records.next(header, found)) return;
  if (header.size() > limits.columns) {
    found.add(too_large(header[limits.columns].origin, "columns", limits.columns));
    return;
  }
  table.header = trimmed_cells(std::move(header));
  if (*separator != ',') {
    Diagnostic note(Id::game_csv_separator, table.header[0].origin,
                    fmt::format("the cells are parted by {}, not by commas; the list is read so",
                                name_of(*separator)));
    found.add(std::move(note));
  }
  check_header(table.header, found);
  read_rows(records, table, limits, found);
}

bool needs_quotes(const std::string& cell) {
  return cell.find_first_of(",\"\r\n") != std::string::npos || cell.starts_with(' ') ||
         cell.starts_with('\t');
}

}  // namespace

std::optional<char> csv_separator(std::string_view text, FileName file) {
  std::vector<HeaderReading> parting, with_id;
  for (const char separator : separators) {
    const HeaderReading reading = try_header(text, file, separator);
    if (reading.cells > 1) parting.push_back(reading);
    if (reading.cells > 1 && reading.has_id) with_id.push_back(reading);
  }
  if (with_id.size() == 1) return with_id[0].separator;
  if (parting.empty()) return ',';
  return parting.size() == 1 ? std::optional(parting[0].separator) : std::nullopt;
}

Checked<CsvTable> read_csv(std::string_view bytes, FileName file, const CsvLimits& limits) {
  Findings found;
  CsvTable table;
  if (std::optional<Diagnostic> problem = encoding_problem(bytes, file)) {
    found.add(std::move(*problem));
  } else {
    read_table(without_mark(bytes), file, table, limits, found);
  }
  return {std::move(table), std::move(found).take()};
}

std::string csv_line(const std::vector<std::string>& cells) {
  std::string line;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i > 0) line += ',';
    const std::string& cell = cells[i];
    const bool lone = cells.size() == 1 && cell.empty();
    if (!lone && !needs_quotes(cell)) {
      line += cell;
      continue;
    }
    line += '"';
    for (const char c : cell) line += c == '"' ? std::string("\"\"") : std::string(1, c);
    line += '"';
  }
  return line + "\r\n";
}

}  // namespace quoin::game
