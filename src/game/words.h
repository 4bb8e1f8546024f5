#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace quoin::game {

/// Without spaces, tabs and line ends at both ends.
[[nodiscard]] std::string_view trimmed(std::string_view text);

/// ASCII letters in lower case, all else as it is.
[[nodiscard]] std::string lower_case(std::string_view text);

/// How many UTF-8 characters, as places of diagnostics count them.
[[nodiscard]] std::size_t characters(std::string_view text);

/// The shortest decimal form that reads back the same: "3", "0.25".
[[nodiscard]] std::string number_text(double number);

/// A decimal number that fills the whole text but for spaces round it; nothing for anything else,
/// also for infinities.
[[nodiscard]] std::optional<double> read_number(std::string_view text);

/// The text in double quotes for a message: long ones shortened, line ends shown as spaces.
[[nodiscard]] std::string in_quotes(std::string_view text);

/// The same without the quotes.
[[nodiscard]] std::string shortened(std::string_view text);

/// "\"a\", \"b\" or \"c\"".
[[nodiscard]] std::string one_of(const std::vector<std::string>& words);
/// "a, b and c".
[[nodiscard]] std::string all_of(const std::vector<std::string>& words);

/// "1 card", "3 cards".
[[nodiscard]] std::string counted(std::size_t count, std::string_view thing);

/// The hint for a word that is not among `known`: "did you mean …?" when one is near enough, else
/// all that are known when they are few enough to read, else "".
[[nodiscard]] std::string instead_of(std::string_view word, const std::vector<std::string>& known);

}  // namespace quoin::game
