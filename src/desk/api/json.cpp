#include "desk/api/json.h"

namespace quoin::desk {
namespace {

constexpr int deepest_json = 64;

bool is_too_deep(std::string_view bytes) {
  int depth = 0;
  bool in_text = false;
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    if (in_text && bytes[i] == '\\') {
      ++i;
    } else if (bytes[i] == '"') {
      in_text = !in_text;
    } else if (!in_text && (bytes[i] == '[' || bytes[i] == '{')) {
      if (++depth > deepest_json) return true;
    } else if (!in_text && (bytes[i] == ']' || bytes[i] == '}')) {
      --depth;
    }
  }
  return false;
}

}  // namespace

Bytes written(const Json& json) {
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::optional<Json> read_json(std::string_view bytes) {
  if (is_too_deep(bytes)) return std::nullopt;
  Json json = Json::parse(bytes, nullptr, false);
  if (json.is_discarded()) return std::nullopt;
  return json;
}

}  // namespace quoin::desk
