#include <fmt/format.h>

#include <array>

#include "game/schema.h"
#include "game/schema_check.h"
#include "game/words.h"

namespace quoin::game {
namespace {

std::optional<bool> read_flag(std::string_view text) {
  const std::string word = lower_case(trimmed(text));
  if (word == "true" || word == "yes") return true;
  if (word == "false" || word == "no") return false;
  return std::nullopt;
}

/// "1, 2" or "1 2": numbers parted by commas, spaces or both; nothing when one is none.
std::optional<List> read_numbers(std::string_view text, const Origin& origin) {
  List numbers;
  text = trimmed(text);
  while (!text.empty()) {
    const std::size_t end = text.find_first_of(", \t");
    const std::optional<double> number = read_number(text.substr(0, end));
    if (!number) return std::nullopt;
    numbers.push_back({origin, *number});
    if (end == std::string_view::npos) break;
    text = trimmed(text.substr(end));
    if (text.starts_with(',')) text = trimmed(text.substr(1));
  }
  return numbers;
}

std::string plural(int count) { return count == 1 ? "" : "s"; }

std::string number_count(const PropertyFacts& facts) {
  if (facts.fewest == facts.most) {
    return fmt::format("{} number{}", facts.most, plural(facts.most));
  }
  return fmt::format("{} to {} numbers", facts.fewest, facts.most);
}

std::string wanted_value(const PropertyFacts& facts) {
  const std::string unit = facts.unit.empty() ? "" : " in " + std::string(facts.unit);
  switch (facts.type) {
    case ValueType::text:
      return "a text in quotes";
    case ValueType::word:
      return "a word in quotes";
    case ValueType::number:
      return "a number" + unit;
    case ValueType::whole:
      return "a whole number";
    case ValueType::flag:
      return "true or false";
    case ValueType::colour:
      return "a colour in quotes";
    case ValueType::paint:
      return "a colour in quotes or a gradient";
    case ValueType::file:
      return "the path of a file in quotes";
    case ValueType::size:
      return "a size in quotes";
    case ValueType::style:
      return "the name of a style in quotes";
    case ValueType::symbol:
      return "the name of a symbol in quotes";
    case ValueType::numbers:
      return "a list of " + number_count(facts);
    case ValueType::edges:
      return "one number or a list of 4 numbers";
    case ValueType::number_lists:
      return "a list of lists of " + number_count(facts);
    case ValueType::texts:
      return "a text in quotes or a list of them";
    case ValueType::table:
      return "a table in { }";
    case ValueType::tables:
      return "a list of tables in { }";
    case ValueType::stops:
      return "a list of two or more [colour, place]";
    case ValueType::conditions:
      return "a table of columns and words";
  }
  return {};
}

}  // namespace

Node read_filled(const PropertyFacts& facts, std::string_view filled, const Origin& origin) {
  const Node as_text{origin, std::string(filled)};
  switch (facts.type) {
    case ValueType::number:
    case ValueType::whole: {
      const std::optional<double> number = read_number(filled);
      return number ? Node{origin, *number} : as_text;
    }
    case ValueType::flag: {
      const std::optional<bool> flag = read_flag(filled);
      return flag ? Node{origin, *flag} : as_text;
    }
    case ValueType::numbers:
    case ValueType::edges: {
      std::optional<List> numbers = read_numbers(filled, origin);
      if (!numbers || numbers->empty()) return as_text;
      const bool single = facts.type == ValueType::edges && numbers->size() == 1;
      return single ? numbers->front() : Node{origin, std::move(*numbers)};
    }
    default:
      return as_text;
  }
}

std::string describe(const Node& value) {
  if (const std::string* text = value.text()) return "the text " + in_quotes(*text);
  if (const double* number = value.number()) return "the number " + number_text(*number);
  if (const bool* flag = value.flag()) return *flag ? "true" : "false";
  if (const List* list = value.list()) return "a list of " + counted(list->size(), "value");
  return "a table";
}

std::string wanted(const PropertyFacts& facts) {
  const std::string value = wanted_value(facts);
  if (facts.words.empty() || facts.type == ValueType::word) return value;
  return value + " or " + one_of({facts.words.begin(), facts.words.end()});
}

}  // namespace quoin::game
