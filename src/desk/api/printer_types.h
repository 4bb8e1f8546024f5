#pragma once
#include <vector>

#include "desk/api/types.h"

namespace quoin::desk {

/// What of the table is about printers: parts of `api_types` and `api_routes`.
[[nodiscard]] std::vector<ApiType> printer_types();
[[nodiscard]] std::vector<ApiRoute> printer_routes();

}  // namespace quoin::desk
