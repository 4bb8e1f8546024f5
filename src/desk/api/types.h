#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "desk/api/json.h"

namespace quoin::desk {

/// One key of an object that server and page exchange.
struct ApiField {
  std::string_view name;
  /// In the notation of TypeScript: names of types, string, number, boolean, null, literals,
  /// Record<string, T>, T[], A | B and brackets. A name that ends in '?' may be left out.
  std::string_view type;
  std::string_view meaning;
};

/// A type: an object with these keys and no others, or, without fields, another name for `alias`.
struct ApiType {
  std::string_view name;
  std::string_view meaning;
  std::vector<ApiField> fields;
  std::string_view alias = "";
};

/// All that server and page exchange: the one table from which the page's types, the schema and
/// the check of what is sent come. In an order in which each type uses those before it, or itself.
[[nodiscard]] const std::vector<ApiType>& api_types();

/// What each question is and is answered with: "GET /api/state" -> "State".
struct ApiRoute {
  std::string_view method, path;
  std::string_view asks;     ///< the type of the body, "" for none
  std::string_view answers;  ///< the type, or a media type
  std::string_view meaning;
};
[[nodiscard]] const std::vector<ApiRoute>& api_routes();

/// web/src/api/types.ts
[[nodiscard]] std::string api_typescript();
/// docs/schemas/desk.schema.json: JSON Schema (draft 2020-12), a definition for each type.
[[nodiscard]] std::string api_json_schema();

/// What of `value` is not as the type says, with the way to it ("cards[3].id: a text is wanted");
/// nothing when all is. `type` may be any type expression.
[[nodiscard]] std::optional<std::string> fault_in(const Json& value, std::string_view type);

}  // namespace quoin::desk
