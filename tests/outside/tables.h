#pragma once
#include <string>
#include <vector>

namespace quoin::outside {

/// One row of a reference table under tests/outside/data, a cell for each column.
using TableRow = std::vector<std::string>;

/// The rows of `name` below the header row. Cells hold no commas, quotes or line ends. Throws
/// std::runtime_error when the table is missing or empty, so that no check passes on no data.
[[nodiscard]] std::vector<TableRow> rows_of(const std::string& name);

/// A cell as a number; throws std::runtime_error when it is none.
[[nodiscard]] double number(const std::string& cell);

}  // namespace quoin::outside
