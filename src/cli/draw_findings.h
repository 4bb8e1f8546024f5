#pragma once
#include "base/world.h"
#include "cli/terminal.h"

namespace quoin::cli {

/// Draws findings like a compiler's: place, what is wrong, the line it stands on with the spot
/// marked, what will be seen, what to do. The lines are read from `world`.
void draw_findings(const Diagnostics& found, const World& world, const Terminal& terminal);

/// "2 errors, 5 warnings and 1 note", "nothing to worry about".
[[nodiscard]] std::string count_words(const Counts& counts);

}  // namespace quoin::cli
