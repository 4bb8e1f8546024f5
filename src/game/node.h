#pragma once
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "base/origin.h"

namespace quoin::game {

struct Node;
/// A key with where it stands, and its value. Keys keep the order of the file.
struct Entry;
using List = std::vector<Node>;
using Table = std::vector<Entry>;

/// A value as the maker wrote it, with its place. Strings may hold placeholders.
struct Node {
  Origin origin;
  std::variant<std::string, double, bool, List, Table> value;

  [[nodiscard]] const std::string* text() const { return std::get_if<std::string>(&value); }
  [[nodiscard]] const double* number() const { return std::get_if<double>(&value); }
  [[nodiscard]] const bool* flag() const { return std::get_if<bool>(&value); }
  [[nodiscard]] const List* list() const { return std::get_if<List>(&value); }
  [[nodiscard]] const Table* table() const { return std::get_if<Table>(&value); }
};

struct Entry {
  std::string key;
  Origin key_origin;
  Node value;
};

/// The value under `key`, or null.
[[nodiscard]] const Node* find(const Table& table, std::string_view key);

}  // namespace quoin::game
