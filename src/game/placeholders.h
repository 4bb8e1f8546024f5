#pragma once
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace quoin::game {

/// A stretch of a text: words as they are printed, or the name within `{ }`.
struct TextPart {
  enum class Kind { words, name, open_brace };
  Kind kind = Kind::words;
  std::string text;        ///< words with `{{` and `}}` as single braces; a name without spaces
                           ///< round it; the rest of the text after a brace that never closes
  std::size_t offset = 0;  ///< byte at which the stretch begins
  std::size_t length = 0;  ///< bytes, braces counted
};

/// Cuts a text into words and placeholders. A single `}` is a word's character.
[[nodiscard]] std::vector<TextPart> parts_of(std::string_view text);

}  // namespace quoin::game
