#pragma once
#include <optional>
#include <string_view>

#include "base/units.h"

namespace quoin::press {

/// A length as people write it after holding a ruler to paper: "149.5", "149,5 mm", "14.95 cm",
/// "5 7/8 in", `5.886"`, "-0.3", "3/10 mm". Without a unit it is millimetres. A comma is a decimal
/// comma. An inch is 25.4 mm exactly.
///
/// Nothing when it is not understood: other words, two numbers, a fraction by nothing, more than
/// 10 m.
[[nodiscard]] std::optional<Mm> length_in_words(std::string_view words);

/// The numbered line of a vernier that meets its other half, as people write it: "3", "+3", "-2",
/// "between 3 and 4", "3 or 4", "3.5", "3 1/2". Half lines are meant when two neighbours are named.
///
/// Nothing when it is not understood, or is beyond ±20 lines, or names lines that are no
/// neighbours.
[[nodiscard]] std::optional<double> line_in_words(std::string_view words);

}  // namespace quoin::press
