#include <fmt/format.h>

#include <map>
#include <stdexcept>

#include "desk/api/expression.h"
#include "desk/api/types.h"

namespace quoin::desk {
namespace {

using Fault = std::optional<std::string>;

const ApiType& api_type(std::string_view name) {
  for (const ApiType& type : api_types()) {
    if (type.name == name) return type;
  }
  throw std::logic_error("no such type: " + std::string(name));
}

const TypeExpression& taken_apart(std::string_view text) {
  thread_local std::map<std::string, TypeExpression, std::less<>> known;
  const auto found = known.find(text);
  return found != known.end() ? found->second : known.emplace(text, read_type(text)).first->second;
}

Fault fault_of(const Json& value, const TypeExpression& type, const std::string& way);

Fault wanted(const std::string& way, std::string_view what) {
  return fmt::format("{}: {} is wanted", way.empty() ? "here" : way, what);
}

Fault fault_of_object(const Json& value, const ApiType& type, const std::string& way) {
  if (!value.is_object()) return wanted(way, type.name);
  std::size_t met = 0;
  for (const ApiField& field : type.fields) {
    const bool may_lack = field.name.ends_with('?');
    const std::string name(field.name.substr(0, field.name.size() - (may_lack ? 1 : 0)));
    const std::string below = way.empty() ? name : way + "." + name;
    const auto found = value.find(name);
    if (found == value.end()) {
      if (may_lack) continue;
      return fmt::format("{}: is missing", below);
    }
    ++met;
    if (Fault fault = fault_of(*found, taken_apart(field.type), below)) return fault;
  }
  if (met == value.size()) return std::nullopt;
  return fmt::format("{}: has keys that {} does not know", way.empty() ? "here" : way, type.name);
}

Fault fault_of_name(const Json& value, const std::string& name, const std::string& way) {
  if (name == "string") return value.is_string() ? Fault() : wanted(way, "a text");
  if (name == "number") return value.is_number() ? Fault() : wanted(way, "a number");
  if (name == "boolean") return value.is_boolean() ? Fault() : wanted(way, "true or false");
  if (name == "null") return value.is_null() ? Fault() : wanted(way, "null");
  if (name == "Json") return std::nullopt;
  const ApiType& type = api_type(name);
  if (!type.alias.empty()) return fault_of(value, taken_apart(type.alias), way);
  return fault_of_object(value, type, way);
}

Fault fault_of_choice(const Json& value, const TypeExpression& type, const std::string& way) {
  Fault deepest;
  for (const TypeExpression& part : type.parts) {
    Fault fault = fault_of(value, part, way);
    if (!fault) return std::nullopt;
    // The kind tells which of several objects is meant: what is wrong deeper inside tells more.
    if (!deepest || fault->find("kind: \"") == std::string::npos) deepest = std::move(fault);
  }
  return deepest;
}

Fault fault_of(const Json& value, const TypeExpression& type, const std::string& way) {
  switch (type.kind) {
    case TypeExpression::Kind::name:
      return fault_of_name(value, type.word, way);
    case TypeExpression::Kind::literal:
      return value.is_string() && value.get_ref<const std::string&>() == type.word
                 ? Fault()
                 : wanted(way, fmt::format("\"{}\"", type.word));
    case TypeExpression::Kind::choice:
      return fault_of_choice(value, type, way);
    case TypeExpression::Kind::list:
      if (!value.is_array()) return wanted(way, "a list");
      for (std::size_t i = 0; i < value.size(); ++i) {
        if (Fault fault = fault_of(value[i], type.parts[0], fmt::format("{}[{}]", way, i))) {
          return fault;
        }
      }
      return std::nullopt;
    case TypeExpression::Kind::record:
      if (!value.is_object()) return wanted(way, "an object");
      for (const auto& [key, below] : value.items()) {
        if (Fault fault = fault_of(below, type.parts[0], fmt::format("{}.{}", way, key))) {
          return fault;
        }
      }
      return std::nullopt;
  }
  return std::nullopt;
}

}  // namespace

std::optional<std::string> fault_in(const Json& value, std::string_view type) {
  return fault_of(value, taken_apart(type), {});
}

}  // namespace quoin::desk
