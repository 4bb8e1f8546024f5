#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "geometry/geometry.h"

namespace quoin::game {

/// A size that a maker can call by name: `quoin sizes` lists them.
struct NamedSize {
  std::string_view name;    ///< "poker", "A4"
  Size size;                ///< upright
  Mm corner;                ///< usual corner radius of a card; 0 for paper
  std::string_view source;  ///< the standard, or "common practice, no source"
};
[[nodiscard]] const std::vector<NamedSize>& card_sizes();
[[nodiscard]] const std::vector<NamedSize>& paper_sizes();

/// A size by name (case ignored) or as "63.5x88.9", "63.5 x 88.9 mm", "2.5x3.5in". Nothing when
/// it is neither.
[[nodiscard]] std::optional<NamedSize> find_size(std::string_view text,
                                                 const std::vector<NamedSize>& known);

}  // namespace quoin::game
