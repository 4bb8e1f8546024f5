#pragma once
#include <string>
#include <string_view>

namespace quoin {

/// Capitals as the language writes them: Turkish and Azeri i with its dot, German ß as SS, Greek
/// without accents. `text` is UTF-8; the process's locale plays no part.
[[nodiscard]] std::string upper_case(std::string_view text, std::string_view language);

/// The same text with whatever is not UTF-8, and every NUL, turned into U+FFFD.
[[nodiscard]] std::string valid_utf8(std::string_view text);

/// "de-AT" -> "de".
[[nodiscard]] std::string_view primary_language(std::string_view tag);

}  // namespace quoin
