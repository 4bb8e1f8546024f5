#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "base/world.h"
#include "game/edit/text_splice.h"

namespace quoin::game {

/// A record of a card list as it stands in the text.
struct CsvRecord {
  Stretch at;                  ///< without the line's end
  Stretch lines;               ///< with it
  std::vector<Stretch> cells;  ///< with their quotes
};

/// A card list that could be read: what it says, and where each cell stands. Rows are those that
/// become cards: records of empty cells are passed over, as read_game does.
struct CsvText {
  std::string_view text;
  FileName file;
  char separator = ',';
  std::vector<std::string> columns;
  CsvRecord header;
  std::vector<CsvRecord> rows;
  std::vector<std::vector<std::string>> cells;  ///< of the rows, each as long as `columns`
  std::vector<CsvRecord> blank;                 ///< records of empty cells only, with separators

  /// The column of that name; nothing when there is none.
  [[nodiscard]] std::optional<std::size_t> column(std::string_view name) const;
  /// The id of a row; "" without a column id.
  [[nodiscard]] std::string id(std::size_t row) const;
  /// The cell as it stands in the text; "" when the row ends before it.
  [[nodiscard]] std::string_view written(std::size_t row, std::size_t column) const;
};

/// Fails with what makes a list uncertain: `game.encoding`, `game.too-large`,
/// `game.csv-separator-unclear`, `game.csv-unclosed-quote`. Rows too short or too long are let
/// pass. `text` must live as long as the answer.
[[nodiscard]] Result<CsvText> csv_text_of(const Bytes& text, FileName file);

}  // namespace quoin::game
