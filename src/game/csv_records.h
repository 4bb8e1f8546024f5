#pragma once
#include <optional>
#include <string_view>

#include "game/csv.h"
#include "game/findings.h"

namespace quoin::game {

/// Walks over UTF-8 text a record at a time; see read_csv.
class CsvRecords {
 public:
  CsvRecords(std::string_view text, FileName file, char separator);

  /// Reads the next record that is not an empty line into `row`; false at the end of the text.
  /// Problems with quotes go to `found`; an unclosed quote ends the text.
  bool next(Row& row, Findings& found);
  /// True when quotes of the last record were not as they should be: then its cells may have
  /// fallen apart at the wrong places, and counting them would only repeat the problem.
  [[nodiscard]] bool quotes_in_doubt() const { return quotes_in_doubt_; }

  /// The bytes of a cell with its quotes.
  struct Bounds {
    std::size_t from, to;
  };
  /// Where the cells of the last record stand in the text, and where the next record begins.
  [[nodiscard]] const std::vector<Bounds>& bounds() const { return bounds_; }
  [[nodiscard]] std::size_t offset() const { return here_.offset; }

 private:
  struct Place {
    std::size_t offset;
    std::uint32_t line, column;
  };
  [[nodiscard]] bool done() const { return here_.offset >= text_.size(); }
  [[nodiscard]] char peek() const { return text_[here_.offset]; }
  [[nodiscard]] bool at_line_end() const { return peek() == '\n' || peek() == '\r'; }
  void step();
  void step_to(std::size_t offset);
  void step_to_cell_end();
  void skip_line_end();
  Text plain_cell(Findings& found);
  Text quoted_cell(Findings& found);
  void after_quote(std::string& text, Findings& found);
  [[nodiscard]] Origin origin_from(const Place& start) const;

  std::string_view text_;
  FileName file_;
  char separator_;
  Place here_{0, 1, 1};
  bool quotes_in_doubt_ = false;
  std::vector<Bounds> bounds_;
};

}  // namespace quoin::game
