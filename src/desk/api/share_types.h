#pragma once
#include <vector>

#include "desk/api/types.h"

namespace quoin::desk {

/// Rows of the tables of types and routes: how the game is given to others.
[[nodiscard]] std::vector<ApiType> share_types();
[[nodiscard]] std::vector<ApiRoute> share_routes();

}  // namespace quoin::desk
