#pragma once
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "base/origin.h"
#include "base/world.h"

namespace quoin::game {

/// A stretch of bytes of a text.
struct Stretch {
  std::size_t from = 0, to = 0;
  [[nodiscard]] std::size_t size() const { return to - from; }
  bool operator==(const Stretch&) const = default;
};

[[nodiscard]] inline std::string_view part(std::string_view text, Stretch at) {
  return text.substr(at.from, at.size());
}

/// Some bytes of a text give way to others.
struct Splice {
  Stretch at;
  std::string put;
};

/// The text with all splices made at once; they are in order and do not overlap.
[[nodiscard]] Bytes spliced(std::string_view text, const std::vector<Splice>& splices);

/// "\r\n" when the first line of the text ends so, else "\n".
[[nodiscard]] std::string_view line_end_of(std::string_view text);
/// Where the line begins in which `offset` lies, and where the next one begins.
[[nodiscard]] std::size_t line_start(std::string_view text, std::size_t offset);
[[nodiscard]] std::size_t next_line(std::string_view text, std::size_t offset);
/// Where the first byte lies, after the mark (U+FEFF) that may stand in front.
[[nodiscard]] std::size_t text_start(std::string_view text);

/// The place of a byte as diagnostics count places. CR LF and LF end lines.
[[nodiscard]] Origin origin_at(std::string_view text, Stretch at, FileName file);

}  // namespace quoin::game
