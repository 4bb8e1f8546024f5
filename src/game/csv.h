#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "base/world.h"
#include "game/game.h"

namespace quoin::game {

using Row = std::vector<Text>;

/// A list of cards as it stands in the file: each row as long as the header.
struct CsvTable {
  char separator = ',';
  Row header;             ///< names without spaces round them
  std::vector<Row> rows;  ///< origin: the cell with its quotes
};

/// What is read of one list at most; more is `game.too-large`.
struct CsvLimits {
  std::size_t rows = 100'000;
  std::size_t columns = 1'000;
  std::size_t cells = 4'000'000;
};

/// Reads a list of comma-separated values as RFC 4180 describes them, and as spreadsheets write
/// them: lines may end in LF, CR LF or CR, a mark (U+FEFF) may stand in front, quotes may stand
/// in the middle of a cell that does not begin with one, and lines without a character are
/// skipped. When the first row is parted by semicolons or tabs, so is the file
/// (`game.csv-separator`, a note).
///
/// Never fails: gives the rows that could be read, with every problem: `game.encoding`,
/// `game.csv-unclosed-quote`, `game.csv-misplaced-quote`, `game.csv-short-row` (the row is filled
/// up with empty cells), `game.csv-long-row` (empty cells too many are let pass),
/// `game.csv-separator-unclear`, `game.column-without-name`, `game.column-twice`,
/// `game.too-large`. At most 100 of a kind are kept.
[[nodiscard]] Checked<CsvTable> read_csv(std::string_view bytes, FileName file,
                                         const CsvLimits& limits = {});

/// The separator of a list, seen from its first row: the one that leaves a column `id`, else the
/// only one that parts it at all. Nothing when two would do. `text` has no mark in front.
[[nodiscard]] std::optional<char> csv_separator(std::string_view text, FileName file);

/// One line with its CR LF; cells are quoted where RFC 4180 asks for it.
[[nodiscard]] std::string csv_line(const std::vector<std::string>& cells);

}  // namespace quoin::game
