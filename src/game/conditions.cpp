#include "game/conditions.h"

#include "game/words.h"

namespace quoin::game {
namespace {

void add_value(Condition& condition, const Node& value) {
  if (const std::string* text = value.text()) {
    condition.values.emplace_back(trimmed(*text));
  } else if (const double* number = value.number()) {
    condition.values.push_back(number_text(*number));
  } else if (const bool* flag = value.flag()) {
    condition.values.emplace_back(*flag ? "true" : "false");
  }
}

void add_conditions(const Table& table, const std::string& before, Conditions& conditions) {
  for (const Entry& entry : table) {
    const std::string column = before + entry.key;
    if (const Table* nested = entry.value.table()) {
      add_conditions(*nested, column + ".", conditions);
      continue;
    }
    Condition condition{column, {}, entry.key_origin};
    if (const List* list = entry.value.list()) {
      for (const Node& value : *list) add_value(condition, value);
    } else {
      add_value(condition, entry.value);
    }
    conditions.push_back(std::move(condition));
  }
}

}  // namespace

Conditions read_conditions(const Node* table) {
  Conditions conditions;
  if (table && table->table()) add_conditions(*table->table(), "", conditions);
  return conditions;
}

}  // namespace quoin::game
