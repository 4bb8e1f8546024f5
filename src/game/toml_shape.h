#pragma once
#include <optional>
#include <string_view>

#include "base/diagnostic.h"

namespace quoin::game {

/// The first dotted key (`a.b.c`, in a heading or before `=`) with more parts than
/// `deepest_toml`. Looked for before the text is parsed, since each part becomes a table within
/// the last one and a megabyte of dots would exhaust the stack.
[[nodiscard]] std::optional<Origin> too_many_key_parts(std::string_view text, FileName file);

[[nodiscard]] Diagnostic too_deep(const Origin& where);

/// The line of that number, counted from 1, without its end; "" past the last.
[[nodiscard]] std::string_view line_of(std::string_view text, std::uint32_t line);
/// The byte at which the character of that column, counted from 1, begins; the size of the line
/// when it is shorter.
[[nodiscard]] std::size_t offset_of(std::string_view line, std::uint32_t column);

}  // namespace quoin::game
