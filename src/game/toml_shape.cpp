#include "game/toml_shape.h"

#include <fmt/format.h>

#include "game/toml_file.h"
#include "game/toml_walk.h"

namespace quoin::game {
namespace {

bool belongs_to_key(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
         c == '-' || c == ' ' || c == '\t' || c == '"';
}

}  // namespace

std::optional<Origin> too_many_key_parts(std::string_view text, FileName file) {
  int parts = 1;
  for (TomlWalk walk(text); !walk.done();) {
    const std::uint32_t line = walk.line();
    const char c = walk.next();
    if (c == '.')
      ++parts;
    else if (!belongs_to_key(c))
      parts = 1;
    if (parts > deepest_toml) return Origin{file, line, 1, 0};
  }
  return std::nullopt;
}

Diagnostic too_deep(const Origin& where) {
  Diagnostic found(
      Id::game_too_large, where,
      fmt::format("tables and lists lie more than {} deep in each other here", deepest_toml));
  return found.hint("a game needs four or five; look for a bracket too many");
}

std::string_view line_of(std::string_view text, std::uint32_t line) {
  for (std::uint32_t i = 1; i < line; ++i) {
    const std::size_t end = text.find('\n');
    if (end == std::string_view::npos) return {};
    text.remove_prefix(end + 1);
  }
  text = text.substr(0, text.find('\n'));
  if (text.ends_with('\r')) text.remove_suffix(1);
  return text;
}

std::size_t offset_of(std::string_view line, std::uint32_t column) {
  std::uint32_t here = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const bool starts = (static_cast<unsigned char>(line[i]) & 0xC0) != 0x80;
    if (starts && ++here == column) return i;
  }
  return line.size();
}

}  // namespace quoin::game
