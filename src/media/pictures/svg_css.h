#pragma once
#include <functional>
#include <string>
#include <string_view>

namespace quoin::pictures {

/// What a style asked for and what became of it.
struct StyleRequests {
  /// Decides about one url(…); true keeps it. Gets the address without quotes and escapes.
  std::function<bool(std::string_view address)> keeps;
  /// Told of each rule that was left out, by its keyword: "@import", "@media".
  std::function<void(std::string_view keyword, std::string_view rule)> left_out;
};

/// CSS (a style sheet, a list of declarations or one value) without comments and @-rules; each
/// url(…) that is not kept becomes `none`. Escapes are undone before anything is judged.
/// Source: CSS Syntax Module Level 3 for tokens.
[[nodiscard]] std::string clean_css(std::string_view css, const StyleRequests& requests);

}  // namespace quoin::pictures
