#pragma once
#include <nlohmann/json.hpp>
#include <string>

#include "base/world.h"

namespace quoin::desk {

/// Keys stay in the order in which they are written.
using Json = nlohmann::ordered_json;

/// As it is sent: no spaces, bytes that are no UTF-8 replaced.
[[nodiscard]] Bytes written(const Json& json);

/// What was sent to us, or nothing when it is no JSON or lies deeper than 64 lists and objects.
[[nodiscard]] std::optional<Json> read_json(std::string_view bytes);

}  // namespace quoin::desk
