#include "game/placeholders.h"

#include <algorithm>

#include "game/schema.h"
#include "game/words.h"

namespace quoin::game {
namespace {

void add_words(std::vector<TextPart>& parts, std::string_view words, std::size_t offset,
               std::size_t length) {
  if (parts.empty() || parts.back().kind != TextPart::Kind::words) {
    parts.push_back({TextPart::Kind::words, {}, offset, 0});
  }
  parts.back().text += words;
  parts.back().length += length;
}

}  // namespace

std::vector<TextPart> parts_of(std::string_view text) {
  std::vector<TextPart> parts;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t brace = std::min(text.find_first_of("{}", i), text.size());
    if (brace > i) add_words(parts, text.substr(i, brace - i), i, brace - i);
    if (brace == text.size()) break;
    const std::string_view two = text.substr(brace, 2);
    i = brace + 1;
    if (two == "{{" || two == "}}") {
      add_words(parts, two.substr(1), brace, 2);
      i = brace + 2;
    } else if (two.front() == '}') {
      add_words(parts, "}", brace, 1);
    } else if (const std::size_t end = text.find('}', brace); end == std::string_view::npos) {
      parts.push_back({TextPart::Kind::open_brace, std::string(text.substr(brace)), brace,
                       text.size() - brace});
      break;
    } else {
      const std::string_view name = trimmed(text.substr(brace + 1, end - brace - 1));
      parts.push_back({TextPart::Kind::name, std::string(name), brace, end + 1 - brace});
      i = end + 1;
    }
  }
  return parts;
}

bool has_placeholder(std::string_view text) {
  if (text.find('{') == std::string_view::npos) return false;
  for (const TextPart& part : parts_of(text)) {
    if (part.kind == TextPart::Kind::name) return true;
  }
  return false;
}

}  // namespace quoin::game
