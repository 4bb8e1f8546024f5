#pragma once
#include <vector>

#include "desk/api/types.h"

namespace quoin::desk {

/// Rows of the tables of types and routes: the mat, its places and its sheets.
[[nodiscard]] std::vector<ApiType> mat_types();
[[nodiscard]] std::vector<ApiRoute> mat_routes();

}  // namespace quoin::desk
