#include "formats/clean_text.h"

namespace quoin {
namespace {

/// How many bytes the well-formed character at the start of `text` has; 0 when there is none.
std::size_t character_length(std::string_view text) {
  const auto byte = [&](std::size_t at) { return static_cast<unsigned char>(text[at]); };
  const unsigned char first = byte(0);
  if (first < 0x80) return 1;
  const std::size_t length = first >= 0xf0 ? 4 : first >= 0xe0 ? 3 : 2;
  if (first < 0xc2 || first > 0xf4 || text.size() < length) return 0;
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xc0) != 0x80) return 0;
  }
  const unsigned char second = byte(1);
  if (first == 0xe0 && second < 0xa0) return 0;  // too long a form
  if (first == 0xed && second > 0x9f) return 0;  // half of a UTF-16 pair
  if (first == 0xf0 && second < 0x90) return 0;
  if (first == 0xf4 && second > 0x8f) return 0;  // past U+10FFFF
  return length;
}

/// The replacement for a character that XML does not allow, or nothing.
std::string_view replacement(std::string_view character) {
  const auto first = static_cast<unsigned char>(character[0]);
  if (first < 0x20 && first != '\t' && first != '\n' && first != '\r') return " ";
  if (character == "\xef\xbf\xbe" || character == "\xef\xbf\xbf") return "\xef\xbf\xbd";
  return {};
}

}  // namespace

std::string clean_text(std::string_view text) {
  std::string result;
  while (!text.empty()) {
    const std::size_t length = character_length(text);
    if (length == 0) {
      result += "\xef\xbf\xbd";
      text.remove_prefix(1);
      continue;
    }
    const std::string_view character = text.substr(0, length);
    const std::string_view other = replacement(character);
    result += other.empty() ? character : other;
    text.remove_prefix(length);
  }
  return result;
}

std::string escaped_for_xml(std::string_view text) {
  std::string result;
  for (const char c : clean_text(text)) {
    switch (c) {
      case '&':
        result += "&amp;";
        break;
      case '<':
        result += "&lt;";
        break;
      case '>':
        result += "&gt;";
        break;
      case '"':
        result += "&quot;";
        break;
      default:
        result += c;
    }
  }
  return result;
}

}  // namespace quoin
