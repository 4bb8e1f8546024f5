#pragma once
#include <vector>

#include "desk/api/types.h"

namespace quoin::desk {

/// Rows of the tables of types and routes: how the game is cut, and what it takes.
[[nodiscard]] std::vector<ApiType> making_types();
[[nodiscard]] std::vector<ApiRoute> making_routes();

}  // namespace quoin::desk
