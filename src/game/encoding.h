#pragma once
#include <cstddef>
#include <optional>
#include <string_view>

#include "base/diagnostic.h"

namespace quoin::game {

/// Why a text file cannot be read as UTF-8 (`game.encoding`), or nothing. Points at the first
/// character that is not UTF-8 (RFC 3629), or at the first NUL; files in UTF-16 and in one of the
/// one-byte code pages are recognised and named, with what to do about it.
[[nodiscard]] std::optional<Diagnostic> encoding_problem(std::string_view bytes, FileName file);

/// The bytes without the mark (U+FEFF) that some programs put in front of UTF-8.
[[nodiscard]] std::string_view without_mark(std::string_view bytes);

/// How many bytes the UTF-8 character at the start of `bytes` has; 0 when there is none.
[[nodiscard]] std::size_t utf8_length(std::string_view bytes);

}  // namespace quoin::game
