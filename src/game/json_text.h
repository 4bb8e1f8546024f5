#pragma once
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace quoin::game {

/// JSON written as text; members keep their order. Only what the JSON schemas need.
namespace json {

using Members = std::vector<std::pair<std::string, std::string>>;

[[nodiscard]] std::string text(std::string_view value);
[[nodiscard]] std::string number(double value);
[[nodiscard]] std::string list(const std::vector<std::string>& items);
[[nodiscard]] std::string object(const Members& members);
/// The same value with two spaces for each level and a line end at the end.
[[nodiscard]] std::string indented(std::string_view value);

}  // namespace json
}  // namespace quoin::game
