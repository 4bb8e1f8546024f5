#include "tables.h"

#include <charconv>
#include <fstream>
#include <stdexcept>

namespace quoin::outside {
namespace {

TableRow cells(const std::string& line) {
  TableRow row;
  std::size_t start = 0;
  for (std::size_t comma; (comma = line.find(',', start)) != std::string::npos; start = comma + 1) {
    row.push_back(line.substr(start, comma - start));
  }
  row.push_back(line.substr(start));
  return row;
}

}  // namespace

std::vector<TableRow> rows_of(const std::string& name) {
  std::ifstream file(std::string(QUOIN_SOURCE_DIR) + "/tests/outside/data/" + name);
  std::string line;
  if (!std::getline(file, line)) throw std::runtime_error("no reference table " + name);
  std::vector<TableRow> rows;
  while (std::getline(file, line)) {
    if (!line.empty()) rows.push_back(cells(line));
  }
  if (rows.empty()) throw std::runtime_error("no rows in the reference table " + name);
  return rows;
}

double number(const std::string& cell) {
  double value = 0;
  const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
  if (error != std::errc{} || end != cell.data() + cell.size()) {
    throw std::runtime_error("no number: " + cell);
  }
  return value;
}

}  // namespace quoin::outside
