#include <fmt/format.h>

#include "desk/api/expression.h"
#include "desk/api/types.h"

namespace quoin::desk {
namespace {

std::string remark(std::string_view meaning, std::string_view indent) {
  return meaning.empty() ? std::string{} : fmt::format("{}/** {} */\n", indent, meaning);
}

Json schema_of(const TypeExpression& type) {
  const auto of = [](std::string_view name) { return Json{{"type", name}}; };
  switch (type.kind) {
    case TypeExpression::Kind::literal:
      return {{"const", type.word}};
    case TypeExpression::Kind::list:
      return {{"type", "array"}, {"items", schema_of(type.parts[0])}};
    case TypeExpression::Kind::record:
      return {{"type", "object"}, {"additionalProperties", schema_of(type.parts[0])}};
    case TypeExpression::Kind::choice: {
      Json choices = Json::array();
      for (const TypeExpression& part : type.parts) choices.push_back(schema_of(part));
      return {{"anyOf", choices}};
    }
    case TypeExpression::Kind::name:
      break;
  }
  for (const std::string_view plain : {"string", "number", "boolean", "null"}) {
    if (type.word == plain) return of(plain);
  }
  return {{"$ref", "#/$defs/" + type.word}};
}

Json schema_of(const ApiType& type) {
  Json schema;
  if (!type.meaning.empty()) schema["description"] = type.meaning;
  if (!type.alias.empty()) {
    schema.update(schema_of(read_type(type.alias)));
    return schema;
  }
  Json properties = Json::object(), required = Json::array();
  for (const ApiField& field : type.fields) {
    const bool may_lack = field.name.ends_with('?');
    const std::string name(field.name.substr(0, field.name.size() - (may_lack ? 1 : 0)));
    Json one = schema_of(read_type(field.type));
    if (!field.meaning.empty()) one["description"] = field.meaning;
    properties[name] = std::move(one);
    if (!may_lack) required.push_back(name);
  }
  schema["type"] = "object";
  schema["properties"] = std::move(properties);
  schema["required"] = std::move(required);
  schema["additionalProperties"] = false;
  return schema;
}

}  // namespace

std::string api_typescript() {
  std::string page =
      "// Made from the table in src/desk/api/types.cpp by `./run accept`.\n"
      "// What the desk's server and this page agree on. Lengths are millimetres, colours "
      "\"#rrggbb\" or\n// \"#rrggbbaa\".\n//\n";
  for (const ApiRoute& route : api_routes()) {
    page += fmt::format("// {} {}{}{} -> {}{}{}\n", route.method, route.path,
                        route.asks.empty() ? "" : " ", route.asks, route.answers,
                        route.meaning.empty() ? "" : ": ", route.meaning);
  }
  for (const ApiType& type : api_types()) {
    page += "\n" + remark(type.meaning, "");
    if (!type.alias.empty()) {
      // An interface may name itself, another name for a type may not do so in a Record.
      const bool names_itself =
          type.alias.find("Record<string, " + std::string(type.name)) != std::string_view::npos;
      const std::string alias =
          names_itself ? "string | number | boolean | null | Json[] | { [key: string]: Json }"
                       : std::string(type.alias);
      page += fmt::format("export type {} = {};\n", type.name, alias);
      continue;
    }
    page += fmt::format("export interface {} {{\n", type.name);
    for (const ApiField& field : type.fields) {
      page += remark(field.meaning, "  ");
      page += fmt::format("  {}: {};\n", field.name, field.type);
    }
    page += "}\n";
  }
  return page;
}

std::string api_json_schema() {
  Json definitions = Json::object();
  for (const ApiType& type : api_types()) definitions[std::string(type.name)] = schema_of(type);
  const Json schema{{"$schema", "https://json-schema.org/draft/2020-12/schema"},
                    {"title", "What the desk's server and page exchange"},
                    {"$ref", "#/$defs/State"},
                    {"$defs", definitions}};
  return schema.dump(2) + "\n";
}

}  // namespace quoin::desk
