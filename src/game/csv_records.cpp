#include "game/csv_records.h"

#include <fmt/format.h>

#include <algorithm>

#include "game/words.h"

namespace quoin::game {

CsvRecords::CsvRecords(std::string_view text, FileName file, char separator)
    : text_(text), file_(file), separator_(separator) {}

/// One byte on; columns count characters, so bytes within a character add none.
void CsvRecords::step() {
  const char c = text_[here_.offset++];
  const bool line_ends = c == '\n' || (c == '\r' && (done() || peek() != '\n'));
  if (line_ends) {
    ++here_.line;
    here_.column = 1;
  } else if (c != '\r' && (done() || (static_cast<unsigned char>(peek()) & 0xC0) != 0x80)) {
    ++here_.column;
  }
}

void CsvRecords::skip_line_end() {
  if (done() || !at_line_end()) return;
  const bool carriage_return = peek() == '\r';
  step();
  if (carriage_return && !done() && peek() == '\n') step();
}

Origin CsvRecords::origin_from(const Place& start) const {
  Origin origin{file_, start.line, start.column, 0};
  std::string_view cell = text_.substr(start.offset, here_.offset - start.offset);
  cell = cell.substr(0, cell.find_first_of("\r\n"));
  origin.length = static_cast<std::uint32_t>(characters(cell));
  return origin;
}

/// On to `offset`, over text in which no line ends.
void CsvRecords::step_to(std::size_t offset) {
  here_.column +=
      static_cast<std::uint32_t>(characters(text_.substr(here_.offset, offset - here_.offset)));
  here_.offset = offset;
}

/// On to the end of the cell that one stands in, outside of quotes.
void CsvRecords::step_to_cell_end() {
  std::size_t end = here_.offset;
  while (end < text_.size() && text_[end] != separator_ && text_[end] != '\n' &&
         text_[end] != '\r') {
    ++end;
  }
  step_to(end);
}

Text CsvRecords::plain_cell(Findings& found) {
  const Place start = here_;
  step_to_cell_end();
  const std::string_view written = text_.substr(start.offset, here_.offset - start.offset);
  Text cell{std::string(written), {file_, start.line, start.column, here_.column - start.column}};
  const std::size_t first = cell.text.find_first_not_of(" \t");
  if (first != std::string::npos && first > 0 && cell.text[first] == '"') {
    Diagnostic problem(Id::game_csv_misplaced_quote, cell.origin,
                       "a space stands in front of the opening quote");
    found.add(problem.hint("delete the space, so that the quotes hold the cell together"));
    quotes_in_doubt_ = true;
  }
  return cell;
}

Text CsvRecords::quoted_cell(Findings& found) {
  const Place start = here_;
  step();
  std::string text;
  for (;;) {
    if (done()) {
      Diagnostic problem(Id::game_csv_unclosed_quote, {file_, start.line, start.column, 1},
                         fmt::format("the quote that opens this cell is never closed; the cell "
                                     "would run to the end of the file, {} further on",
                                     counted(here_.line - start.line, "line")));
      found.add(problem.hint("put a quote after the cell's text, or delete this one"));
      quotes_in_doubt_ = true;
      break;
    }
    if (peek() == '"') {
      step();
      if (done() || peek() != '"') {
        after_quote(text, found);
        break;
      }
      text += '"';
      step();
      continue;
    }
    const std::size_t end = std::min(text_.find('"', here_.offset), text_.size());
    const std::string_view inside = text_.substr(here_.offset, end - here_.offset);
    text += inside;
    if (inside.find_first_of("\r\n") == std::string_view::npos) {
      step_to(end);
    } else {
      while (here_.offset < end) step();
    }
  }
  return {std::move(text), origin_from(start)};
}

/// What stands between a closing quote and the end of the cell is kept, with a problem; spaces
/// alone are dropped.
void CsvRecords::after_quote(std::string& text, Findings& found) {
  const Place start = here_;
  step_to_cell_end();
  const std::string_view more = text_.substr(start.offset, here_.offset - start.offset);
  if (trimmed(more).empty()) return;
  Diagnostic problem(
      Id::game_csv_misplaced_quote, origin_from(start),
      fmt::format("the cell goes on after its closing quote with {}", shortened(more)));
  problem.hint("a quote within a quoted cell is written twice: \"\"");
  found.add(std::move(problem));
  quotes_in_doubt_ = true;
  text += more;
}

bool CsvRecords::next(Row& row, Findings& found) {
  row.clear();
  bounds_.clear();
  quotes_in_doubt_ = false;
  while (!done() && at_line_end()) skip_line_end();
  if (done()) return false;
  for (;;) {
    const std::size_t from = here_.offset;
    row.push_back(!done() && peek() == '"' ? quoted_cell(found) : plain_cell(found));
    bounds_.push_back({from, here_.offset});
    if (done() || peek() != separator_) break;
    step();
  }
  skip_line_end();
  return true;
}

}  // namespace quoin::game
