#include "game/section.h"

#include <stdexcept>

namespace quoin::game {

Section::Section(std::string_view name, const Table* table) : name_(name), table_(table) {}

const PropertyFacts& Section::facts(std::string_view key) const {
  const PropertyFacts* found = property_facts(name_, key);
  if (found) return *found;
  throw std::logic_error("the schema has no key " + std::string(key) + " in " + std::string(name_));
}

const Node* Section::given(std::string_view key) const {
  const PropertyFacts& wanted = facts(key);
  const Node* node = table_ ? find(*table_, key) : nullptr;
  // Names are passed over: those of colours and styles are checked once all are known.
  const bool is_name = wanted.type == ValueType::colour || wanted.type == ValueType::style;
  if (!node || is_name) return node;
  return check_value(wanted, *node, {}).empty() ? node : nullptr;
}

Origin Section::origin(std::string_view key) const {
  const Node* node = given(key);
  return node ? node->origin : Origin{};
}

Node Section::value(std::string_view key) const {
  const Node* node = given(key);
  return node ? *node : default_value(facts(key));
}

std::string Section::text(std::string_view key) const {
  const Node node = value(key);
  return node.text() ? *node.text() : std::string{};
}

double Section::number(std::string_view key) const {
  const Node node = value(key);
  if (!node.number()) throw std::logic_error("no default for " + std::string(key));
  return *node.number();
}

std::optional<double> Section::number_if_given(std::string_view key) const {
  const Node* node = given(key);
  return node && node->number() ? std::optional(*node->number()) : std::nullopt;
}

std::optional<Mm> Section::length_if_given(std::string_view key) const {
  const std::optional<double> number = number_if_given(key);
  return number ? std::optional(Mm{*number}) : std::nullopt;
}

std::vector<Node> Section::texts(std::string_view key) const {
  const Node* own = table_ ? find(*table_, key) : nullptr;
  const Node node = own ? *own : value(key);
  if (node.text()) return {node};
  std::vector<Node> all;
  if (!node.list()) return all;
  for (const Node& item : *node.list()) {
    if (item.text()) all.push_back(item);
  }
  return all;
}

const Table* table_under(const Table& file, std::string_view name) {
  const Node* node = find(file, name);
  return node ? node->table() : nullptr;
}

}  // namespace quoin::game
