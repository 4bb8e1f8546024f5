#pragma once
#include <string>

#include "base/diagnostic.h"

namespace quoin {

/// "art.low-resolution.md": the page of one diagnostic, below docs/checks/.
[[nodiscard]] std::string check_file(const IdFacts& facts);

/// The page that explains one diagnostic to a maker, as Markdown: how bad it is, what will be
/// seen on the table, what to do, and how to silence it when it is no error.
[[nodiscard]] std::string check_page(const IdFacts& facts);

/// docs/checks.md: all diagnostics in a table for each stage, errors first, with links to their
/// pages.
[[nodiscard]] std::string checks_index();

}  // namespace quoin
