#pragma once
#include <optional>
#include <string>
#include <string_view>

namespace quoin::desk {

// What stands in addresses.

/// What stands between `begin` and `end` in the path, or nothing.
[[nodiscard]] std::optional<std::string> between(const std::string& path, std::string_view begin,
                                                 std::string_view end);

/// The whole number that the text is, when it is one from `low` to `high`.
[[nodiscard]] std::optional<int> number_in(const std::string& text, int low, int high);

}  // namespace quoin::desk
