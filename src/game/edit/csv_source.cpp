#include "game/edit/csv_source.h"

#include <algorithm>

#include "game/csv.h"
#include "game/csv_records.h"
#include "game/words.h"

namespace quoin::game {
namespace {

bool makes_uncertain(Id id) {
  return id == Id::game_encoding || id == Id::game_too_large ||
         id == Id::game_csv_separator_unclear || id == Id::game_csv_unclosed_quote;
}

CsvRecord record_of(const CsvRecords& records, std::size_t start) {
  CsvRecord made;
  for (const CsvRecords::Bounds& cell : records.bounds()) {
    made.cells.push_back({start + cell.from, start + cell.to});
  }
  made.at = {made.cells.front().from, made.cells.back().to};
  made.lines = {made.at.from, start + records.offset()};
  return made;
}

void add_row(CsvText& into, CsvRecord record, const Row& row) {
  const bool is_blank = std::all_of(row.begin(), row.end(),
                                    [](const Text& cell) { return trimmed(cell.text).empty(); });
  if (is_blank) {
    if (row.size() > 1) into.blank.push_back(std::move(record));
    return;
  }
  std::vector<std::string> cells(into.columns.size());
  for (std::size_t i = 0; i < std::min(row.size(), cells.size()); ++i) cells[i] = row[i].text;
  const bool said = std::any_of(cells.begin(), cells.end(),
                                [](const std::string& cell) { return !trimmed(cell).empty(); });
  if (!said) return;
  into.rows.push_back(std::move(record));
  into.cells.push_back(std::move(cells));
}

}  // namespace

std::optional<std::size_t> CsvText::column(std::string_view name) const {
  const auto at = std::find(columns.begin(), columns.end(), name);
  if (at == columns.end()) return std::nullopt;
  return static_cast<std::size_t>(at - columns.begin());
}

std::string CsvText::id(std::size_t row) const {
  const std::optional<std::size_t> at = column("id");
  return at ? std::string(trimmed(cells[row][*at])) : std::string{};
}

std::string_view CsvText::written(std::size_t row, std::size_t at) const {
  const std::vector<Stretch>& places = rows[row].cells;
  return at < places.size() ? part(text, places[at]) : std::string_view{};
}

Result<CsvText> csv_text_of(const Bytes& text, FileName file) {
  const Checked<CsvTable> read = read_csv(text, file);
  Diagnostics problems;
  for (const Diagnostic& each : read.found) {
    if (makes_uncertain(each.id)) problems.push_back(each);
  }
  if (!problems.empty()) return problems;
  CsvText made{.text = text,
               .file = file,
               .separator = read.value.separator,
               .columns = {},
               .header = {},
               .rows = {},
               .cells = {},
               .blank = {}};
  const std::size_t start = text_start(text);
  CsvRecords records(made.text.substr(start), file, made.separator);
  Findings ignored;
  Row row;
  if (!records.next(row, ignored)) return made;
  made.header = record_of(records, start);
  for (const Text& name : row) made.columns.emplace_back(trimmed(name.text));
  while (records.next(row, ignored)) add_row(made, record_of(records, start), row);
  return made;
}

}  // namespace quoin::game
