#include <cctype>

#include "guide/guide.h"

namespace quoin::guide {
namespace {

bool begins_letter(char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }

}  // namespace

std::string as_words(std::string_view text, std::size_t most) {
  std::string words;
  std::size_t letters = 0;
  for (const char c : text) {
    if (begins_letter(c) && ++letters > most) return words + "…";
    if (std::iscntrl(static_cast<unsigned char>(c)) != 0) {
      words += ' ';
      continue;
    }
    const bool is_mark = c == '*' || c == '_' || c == '[' || c == ']' || c == '\\';
    if (is_mark) words += '\\';
    words += c;
  }
  return words;
}

}  // namespace quoin::guide
