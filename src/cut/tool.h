#pragma once
#include <optional>
#include <string_view>
#include <vector>

#include "base/units.h"

namespace quoin::cut {

enum class ToolKind { guillotine, rotary_trimmer, knife_and_rule };

/// What a blade can do. The deviations are standard deviations of one hand on one tool.
struct Tool {
  ToolKind kind = ToolKind::rotary_trimmer;
  Mm pile;        ///< how much paper it goes through cleanly at once
  Mm setting;     ///< how far a cut lies from the fence setting asked for
  Mm mark;        ///< how far a cut lies from the printed mark that it was lined up with
  Mm least_held;  ///< the narrowest piece that lies firmly against the fence
  std::optional<int> pile_sheets = {};  ///< the same as `pile` in sheets, when the maker counts so
};

/// What is usual for a kind of tool.
///
/// Hand trimming is within 0.3 to 0.5 mm for a rotary trimmer and for knife and rule, 0.5 to 1 mm
/// for a lever guillotine; these are taken as twice the standard deviation, and lining up with a
/// mark by eye as 0.2 mm. Piles: 10 mm, 0.6 mm (two or three sheets of card) and one sheet. Common
/// practice, no source.
[[nodiscard]] Tool usual(ToolKind kind);

/// "guillotine", "rotary trimmer", "knife and rule".
[[nodiscard]] std::string_view to_string(ToolKind kind);

}  // namespace quoin::cut
