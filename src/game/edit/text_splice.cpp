#include "game/edit/text_splice.h"

#include <algorithm>

#include "game/encoding.h"
#include "game/words.h"

namespace quoin::game {

Bytes spliced(std::string_view text, const std::vector<Splice>& splices) {
  Bytes made;
  std::size_t at = 0;
  for (const Splice& each : splices) {
    made += text.substr(at, each.at.from - at);
    made += each.put;
    at = each.at.to;
  }
  return made += text.substr(at);
}

std::string_view line_end_of(std::string_view text) {
  const std::size_t end = text.find('\n');
  return end != std::string_view::npos && end > 0 && text[end - 1] == '\r' ? "\r\n" : "\n";
}

std::size_t line_start(std::string_view text, std::size_t offset) {
  const std::size_t before = offset == 0 ? std::string_view::npos : text.rfind('\n', offset - 1);
  return std::max(before == std::string_view::npos ? 0 : before + 1,
                  std::min(text_start(text), offset));
}

std::size_t next_line(std::string_view text, std::size_t offset) {
  const std::size_t end = text.find('\n', offset);
  return end == std::string_view::npos ? text.size() : end + 1;
}

std::size_t text_start(std::string_view text) { return text.size() - without_mark(text).size(); }

Origin origin_at(std::string_view text, Stretch at, FileName file) {
  const std::size_t start = line_start(text, at.from);
  const auto lines =
      std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(start), '\n');
  std::string_view inside = part(text, at);
  inside = inside.substr(0, inside.find_first_of("\r\n"));
  return {file, static_cast<std::uint32_t>(lines) + 1,
          static_cast<std::uint32_t>(characters(text.substr(start, at.from - start))) + 1,
          static_cast<std::uint32_t>(characters(inside))};
}

}  // namespace quoin::game
