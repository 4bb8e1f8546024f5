#pragma once
#include "desk/api/types.h"

namespace quoin::desk {

/// The part of `api_types` that is about the rules, and its questions.
[[nodiscard]] std::vector<ApiType> rules_types();
[[nodiscard]] std::vector<ApiRoute> rules_routes();

}  // namespace quoin::desk
