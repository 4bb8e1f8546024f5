#include "game/edit/csv_source.h"

#include <algorithm>
#include <stdexcept>

#include "game/csv.h"
#include "game/csv_records.h"
#include "game/encoding.h"
#include "game/words.h"

namespace quoin::game {
namespace {

bool makes_uncertain(Id id) {
  return id == Id::game_encoding || id == Id::game_too_large ||
         id == Id::game_csv_separator_unclear || id == Id::game_csv_unclosed_quote;
}

CsvRecord record_of(const CsvRecords& records, std::size_t start) {
  CsvRecord made;
  made.cells.reserve(records.bounds().size());
  for (const CsvRecords::Bounds& cell : records.bounds()) {
    made.cells.push_back({start + cell.from, start + cell.to});
  }
  made.at = {made.cells.front().from, made.cells.back().to};
  made.lines = {made.at.from, start + records.offset()};
  return made;
}

/// What read_csv finds in a list that cannot be trusted, in its words.
Diagnostics why_uncertain(const Bytes& text, FileName file) {
  Diagnostics problems;
  for (Diagnostic& each : read_csv(text, file).found) {
    if (makes_uncertain(each.id)) problems.push_back(std::move(each));
  }
  if (problems.empty()) throw std::logic_error("a list is read in two ways");
  return problems;
}

void add_row(CsvText& into, CsvRecord record, Row& row) {
  const bool is_blank = std::all_of(row.begin(), row.end(),
                                    [](const Text& cell) { return trimmed(cell.text).empty(); });
  if (is_blank) {
    if (row.size() > 1) into.blank.push_back(std::move(record));
    return;
  }
  std::vector<std::string> cells(into.columns.size());
  for (std::size_t i = 0; i < std::min(row.size(), cells.size()); ++i)
    cells[i] = std::move(row[i].text);
  const bool said = std::any_of(cells.begin(), cells.end(),
                                [](const std::string& cell) { return !trimmed(cell).empty(); });
  if (!said) return;
  into.rows.push_back(std::move(record));
  into.cells.push_back(std::move(cells));
}

/// False when the list is larger than read_csv reads.
bool read_rows_into(CsvText& made, CsvRecords& records, std::size_t start, Findings& found) {
  const CsvLimits limits;
  const std::size_t columns = made.columns.size();
  if (columns > limits.columns) return false;
  std::size_t read = 0;
  for (Row row; records.next(row, found);) {
    const bool is_skipped = columns > 1 && row.size() == 1 && trimmed(row[0].text).empty();
    if (!is_skipped && (read >= limits.rows || (read + 1) * columns > limits.cells)) return false;
    read += is_skipped ? 0 : 1;
    add_row(made, record_of(records, start), row);
  }
  return true;
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
  if (encoding_problem(text, file)) return why_uncertain(text, file);
  const std::size_t start = text_start(text);
  const std::string_view after_mark = std::string_view(text).substr(start);
  const std::optional<char> separator = csv_separator(after_mark, file);
  if (!separator) return why_uncertain(text, file);
  CsvText made{.text = text,
               .file = file,
               .separator = *separator,
               .columns = {},
               .header = {},
               .rows = {},
               .cells = {},
               .blank = {}};
  CsvRecords records(after_mark, file, made.separator);
  Findings found;
  Row row;
  if (records.next(row, found)) {
    made.header = record_of(records, start);
    for (const Text& name : row) made.columns.emplace_back(trimmed(name.text));
  }
  if (!read_rows_into(made, records, start, found)) return why_uncertain(text, file);
  const Diagnostics problems = std::move(found).take();
  const bool is_uncertain = std::any_of(problems.begin(), problems.end(),
                                        [](const auto& each) { return makes_uncertain(each.id); });
  if (is_uncertain) return why_uncertain(text, file);
  return made;
}

}  // namespace quoin::game
