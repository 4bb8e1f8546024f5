#pragma once
#include <string>
#include <string_view>

namespace quoin {

/// Well-formed UTF-8 that XML 1.0 allows: stray bytes become U+FFFD, control characters spaces.
[[nodiscard]] std::string clean_text(std::string_view text);

/// The same, ready to stand between tags or in an attribute in double quotes.
[[nodiscard]] std::string escaped_for_xml(std::string_view text);

}  // namespace quoin
