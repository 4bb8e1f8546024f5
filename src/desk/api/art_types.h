#pragma once
#include <vector>

#include "desk/api/types.h"

namespace quoin::desk {

/// Rows of the tables of types and routes: the game's pictures, and what can be made of them.
[[nodiscard]] std::vector<ApiType> art_types();
[[nodiscard]] std::vector<ApiRoute> art_routes();

}  // namespace quoin::desk
