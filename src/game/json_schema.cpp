#include <cmath>

#include "game/json_text.h"
#include "game/reference.h"
#include "game/schema.h"

namespace quoin::game {
namespace {

using json::Members;

std::string type(std::string_view name) { return json::object({{"type", json::text(name)}}); }

std::string reference(std::string_view definition) {
  return json::object({{"$ref", json::text("#/$defs/" + std::string(definition))}});
}

std::string any_of(const std::vector<std::string>& choices) {
  return choices.size() == 1 ? choices[0] : json::object({{"anyOf", json::list(choices)}});
}

/// A string that holds a placeholder, where the value itself would be another type.
std::string placeholder() {
  return json::object({{"type", json::text("string")}, {"pattern", json::text("\\{[^{}]+\\}")}});
}

std::string words(const std::vector<std::string_view>& all) {
  std::vector<std::string> quoted;
  for (const std::string_view word : all) quoted.push_back(json::text(word));
  return json::object({{"enum", json::list(quoted)}});
}

std::string number(const PropertyFacts& facts) {
  Members members{{"type", json::text(facts.type == ValueType::whole ? "integer" : "number")}};
  if (std::isfinite(facts.low)) members.emplace_back("minimum", json::number(facts.low));
  if (std::isfinite(facts.high)) members.emplace_back("maximum", json::number(facts.high));
  return json::object(members);
}

/// A number in a list, which may be filled for itself.
std::string item_number(const PropertyFacts& facts) {
  return takes_placeholders(facts) ? any_of({number(facts), placeholder()}) : number(facts);
}

std::string list_of(const std::string& items, int fewest, int most) {
  Members members{{"type", json::text("array")}, {"items", items}};
  if (fewest > 0) members.emplace_back("minItems", json::number(fewest));
  if (most > 0) members.emplace_back("maxItems", json::number(most));
  return json::object(members);
}

std::string condition_table() {
  const std::string value = any_of({type("string"), type("number"), type("boolean")});
  const std::string words_or_list = any_of({value, list_of(value, 1, 0), type("object")});
  return json::object({{"type", json::text("object")}, {"additionalProperties", words_or_list}});
}

std::string stops() {
  const std::string place = any_of({type("number"), placeholder()});
  return list_of(json::object({{"type", json::text("array")},
                               {"prefixItems", json::list({type("string"), place})},
                               {"items", "false"},
                               {"minItems", "2"}}),
                 2, 0);
}

std::string plain_value(const PropertyFacts& facts) {
  switch (facts.type) {
    case ValueType::word:
      return words(facts.words);
    case ValueType::number:
    case ValueType::whole:
      return number(facts);
    case ValueType::flag:
      return type("boolean");
    case ValueType::paint:
      return any_of({type("string"), reference(facts.part)});
    case ValueType::numbers:
      return list_of(item_number(facts), facts.fewest, facts.most);
    case ValueType::edges:
      return any_of({number(facts), list_of(item_number(facts), 4, 4)});
    case ValueType::number_lists:
      return list_of(list_of(item_number(facts), facts.fewest, facts.most), 0, 0);
    case ValueType::texts:
      return any_of({type("string"), list_of(type("string"), 0, 0)});
    case ValueType::table:
      return reference(facts.part);
    case ValueType::tables:
      return list_of(reference(facts.part), 0, 0);
    case ValueType::stops:
      return stops();
    case ValueType::conditions:
      return condition_table();
    default:
      return type("string");
  }
}

std::string value(const PropertyFacts& facts) {
  std::vector<std::string> choices{plain_value(facts)};
  if (facts.type != ValueType::word && !facts.words.empty()) choices.push_back(words(facts.words));
  const bool is_text = choices[0] == type("string");
  const bool filled = takes_placeholders(facts) && facts.type != ValueType::conditions;
  if (filled && !is_text) choices.push_back(placeholder());
  Members members{{"description", json::text(facts.meaning)}};
  if (!facts.fallback.empty() && facts.fallback != "[]") {
    members.emplace_back("default", std::string(facts.fallback));
  }
  members.emplace_back("anyOf", json::list(choices));
  return json::object(members);
}

/// An object with these keys and no others, unless `own` says what others hold.
std::string table(const std::vector<const PropertyFacts*>& keys, const std::string& own,
                  Members more = {}) {
  std::vector<std::string> required;
  for (const PropertyFacts* facts : keys) {
    more.emplace_back(facts->key, value(*facts));
    if (!facts->presence.empty()) required.push_back(json::text(facts->key));
  }
  Members members{{"type", json::text("object")},
                  {"properties", json::object(more)},
                  {"additionalProperties", own}};
  if (!required.empty()) members.emplace_back("required", json::list(required));
  return json::object(members);
}

std::string own_values(const SectionFacts& section) {
  if (section.own_keys.empty()) return "false";
  if (section.own_keys == "symbol") return any_of({type("string"), reference("symbol")});
  if (section.own_keys == "colour") return type("string");
  return any_of({type("string"), type("number"), type("boolean")});
}

std::string section_schema(const SectionFacts& section) {
  const std::string one = table(properties_of(section.name), own_values(section));
  if (section.occurrence == Occurrence::listed) return list_of(one, 0, 0);
  if (section.occurrence != Occurrence::named) return one;
  return json::object({{"type", json::text("object")}, {"additionalProperties", one}});
}

Members parts(const std::vector<std::string_view>& names) {
  Members definitions;
  for (const std::string_view name : names) {
    definitions.emplace_back(name, table(properties_of(name), "false"));
  }
  return definitions;
}

std::string schema(std::string_view title, const Members& properties, const Members& definitions,
                   const std::vector<std::string>& required) {
  return json::indented(
      json::object({{"$schema", json::text("https://json-schema.org/draft/2020-12/schema")},
                    {"title", json::text(title)},
                    {"type", json::text("object")},
                    {"properties", json::object(properties)},
                    {"required", json::list(required)},
                    {"additionalProperties", "false"},
                    {"$defs", json::object(definitions)}}));
}

/// An element of one kind, with its kind as a fixed word.
std::string element_schema(std::string_view kind) {
  std::vector<const PropertyFacts*> keys = properties_of(kind);
  std::erase_if(keys, [](const PropertyFacts* facts) { return facts->key == "kind"; });
  Members more{{"kind", json::object({{"const", json::text(kind)}})}};
  if (kind == "group") {
    for (const char* key : {"element", "elements"}) {
      more.emplace_back(key, list_of(reference("element"), 0, 0));
    }
  }
  const std::string one = table(keys, "false", more);
  return json::object({{"allOf", json::list({one, json::object({{"required", "[\"kind\"]"}})})}});
}

/// An element that changes one of a used layout: any key of any kind, but no kind.
std::string change_schema() {
  const std::string id_only = json::object({{"required", "[\"id\"]"}});
  const std::string no_kind = json::object({{"not", json::object({{"required", "[\"kind\"]"}})}});
  return json::object({{"allOf", json::list({type("object"), id_only, no_kind})}});
}

}  // namespace

std::string game_json_schema() {
  Members properties;
  for (const SectionFacts& section : game_sections()) {
    if (section.occurrence != Occurrence::inside) {
      properties.emplace_back(section.name, section_schema(section));
    }
  }
  return schema("game.toml", properties, parts({"symbol", "stroke", "gradient"}),
                {json::text("game")});
}

std::string layout_json_schema() {
  Members definitions = parts({"stroke", "shadow", "outline", "clip", "gradient"});
  std::vector<std::string> choices;
  for (const std::string_view kind : {"picture", "text", "shape", "repeat", "group", "place"}) {
    definitions.emplace_back(kind, element_schema(kind));
    choices.push_back(reference(kind));
  }
  definitions.emplace_back("change", change_schema());
  choices.push_back(reference("change"));
  definitions.emplace_back("element", any_of(choices));
  Members properties;
  for (const PropertyFacts& facts : keys_of("layout")) {
    properties.emplace_back(facts.key, value(facts));
  }
  properties.emplace_back("element", list_of(reference("element"), 0, 0));
  return schema("layouts/*.toml", properties, definitions, {});
}

std::string printer_json_schema() {
  Members properties;
  std::vector<std::string> required;
  for (const PropertyFacts& facts : keys_of("profile")) {
    properties.emplace_back(facts.key, value(facts));
    if (!facts.presence.empty()) required.push_back(json::text(facts.key));
  }
  for (const SectionFacts& section : printer_sections()) {
    if (section.name != "profile") properties.emplace_back(section.name, section_schema(section));
  }
  return schema("printers/*.toml", properties, {}, required);
}

std::string prices_json_schema() {
  Members properties;
  for (const PropertyFacts& facts : keys_of("prices")) {
    properties.emplace_back(facts.key, value(facts));
  }
  return schema("prices.toml", properties, {}, {});
}

}  // namespace quoin::game
