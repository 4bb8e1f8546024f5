#pragma once
#include "desk/http/exchange.h"

namespace quoin::desk {

/// Whether the page was built into this program.
[[nodiscard]] bool has_page();

/// A file of the page: "/" is its index.html. Sent compressed to whoever takes that, files under
/// /assets/ (whose names change with their contents) to be kept for ever. 404 for what is not
/// there; without a page 503 with words on how to get one.
[[nodiscard]] Answer page_answer(const Asked& asked);

}  // namespace quoin::desk
