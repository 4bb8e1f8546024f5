#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace quoin::game {

/// The lines to take away from a text that is no TOML so that what follows can be read: the
/// statement (a heading, or a key and its value) in which the parser stopped, and whatever comes
/// after it without looking like the beginning of another.
struct FaultyLines {
  std::uint32_t first = 0, last = 0;  ///< counted from 1
  bool is_heading = false;            ///< the statement is a heading in brackets
  bool holds_headings = false;        ///< it or a line below it may have been meant for one
  bool is_unclosed = false;           ///< a bracket of the statement is open where another begins
  bool more_follows = false;          ///< another statement comes after them
};

/// The faulty lines when the parser stopped at `line` and could read all before the statement.
[[nodiscard]] FaultyLines faulty_lines(std::string_view text, std::uint32_t line);

/// The text with those lines empty, all others keeping their numbers and columns. Where they held a
/// heading a new one takes its place, with a name that the text has nowhere: the keys below it
/// shall not fall to the table above.
///
/// Nothing when what follows may not be what it seems: when a text in three quotes lies in the
/// lines, nobody can tell where it was meant to end.
[[nodiscard]] std::optional<std::string> without(std::string_view text, const FaultyLines& lines);

}  // namespace quoin::game
