#pragma once
#include <string_view>

namespace quoin::game {

/// The order in which people count: runs of digits by their value, so "card 2" comes before
/// "card 10"; capitals do not matter unless all else is equal.
[[nodiscard]] bool comes_before_naturally(std::string_view a, std::string_view b);

}  // namespace quoin::game
