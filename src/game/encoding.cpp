#include "game/encoding.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstring>

#include "game/words.h"

namespace quoin::game {
namespace {

unsigned char at(std::string_view bytes, std::size_t i) {
  return static_cast<unsigned char>(bytes[i]);
}

/// RFC 3629, section 4: the second byte narrows what overlong forms, surrogates and places past
/// U+10FFFF would need.
bool second_fits(unsigned char first, unsigned char second) {
  switch (first) {
    case 0xE0:
      return second >= 0xA0 && second <= 0xBF;
    case 0xED:
      return second >= 0x80 && second <= 0x9F;
    case 0xF0:
      return second >= 0x90 && second <= 0xBF;
    case 0xF4:
      return second >= 0x80 && second <= 0x8F;
    default:
      return second >= 0x80 && second <= 0xBF;
  }
}

Origin place_of(std::string_view bytes, std::size_t offset, FileName file) {
  std::uint32_t line = 1;
  std::size_t start = 0;
  for (std::size_t i = 0; i < offset; ++i) {
    const bool pair = bytes[i] == '\r' && i + 1 < bytes.size() && bytes[i + 1] == '\n';
    if (bytes[i] != '\n' && (bytes[i] != '\r' || pair)) continue;
    ++line;
    start = i + 1;
  }
  const std::size_t before = characters(bytes.substr(start, offset - start));
  return {file, line, static_cast<std::uint32_t>(before) + 1, 1};
}

constexpr const char* save_as_utf8 =
    "open it in the program it comes from and save or export it as UTF-8";

Diagnostic utf16(FileName file) {
  Diagnostic found(Id::game_encoding, {file}, "the file is UTF-16, not UTF-8");
  found.hint(save_as_utf8);
  return found;
}

/// True when nearly every second byte is NUL: Latin text in UTF-16 without a mark.
bool looks_like_utf16(std::string_view bytes) {
  const std::size_t looked = std::min<std::size_t>(bytes.size(), 4096);
  std::array<std::size_t, 2> nuls{};
  for (std::size_t i = 0; i < looked; ++i) nuls[i % 2] += bytes[i] == '\0';
  const std::size_t half = looked / 2;
  return looked >= 4 && std::max(nuls[0], nuls[1]) * 4 >= half * 3 &&
         std::min(nuls[0], nuls[1]) * 4 <= half;
}

/// The letters that code page 1252 (and, from 0xA0 on, ISO 8859-1) has for a byte.
std::string latin_letter(unsigned char byte) {
  if (byte < 0xA0) return {};
  return {static_cast<char>(0xC0 | (byte >> 6)), static_cast<char>(0x80 | (byte & 0x3F))};
}

Diagnostic not_utf8(std::string_view bytes, std::size_t offset, FileName file) {
  const unsigned char byte = at(bytes, offset);
  Diagnostic found(Id::game_encoding, place_of(bytes, offset, file),
                   fmt::format("this character is not UTF-8 (byte {:02X})", byte));
  const std::string letter = latin_letter(byte);
  if (!letter.empty()) {
    found.detail(fmt::format(
        "the file seems to be in an older one-byte code page (Latin-1 or Windows-1252), where this "
        "would be {}",
        in_quotes(letter)));
  }
  found.hint(save_as_utf8);
  return found;
}

/// How many bytes at the beginning are ASCII and no NUL, eight at a time: nearly all of most lists.
std::size_t plain_bytes(std::string_view bytes) {
  constexpr std::uint64_t ones = 0x0101010101010101, highest = ones << 7;
  std::size_t i = 0;
  for (std::uint64_t eight = 0; i + sizeof eight <= bytes.size(); i += sizeof eight) {
    std::memcpy(&eight, bytes.data() + i, sizeof eight);
    // A NUL borrows from its highest bit; what lies above it may seem to, and is looked at singly.
    if ((((eight - ones) | eight) & highest) != 0) break;
  }
  return i;
}

}  // namespace

std::size_t utf8_length(std::string_view bytes) {
  if (bytes.empty()) return 0;
  const unsigned char first = at(bytes, 0);
  if (first < 0x80) return 1;
  const std::size_t length = first >= 0xC2 && first <= 0xDF   ? 2
                             : first >= 0xE0 && first <= 0xEF ? 3
                             : first >= 0xF0 && first <= 0xF4 ? 4
                                                              : 0;
  if (length == 0 || bytes.size() < length || !second_fits(first, at(bytes, 1))) return 0;
  for (std::size_t i = 2; i < length; ++i) {
    if ((at(bytes, i) & 0xC0) != 0x80) return 0;
  }
  return length;
}

std::string_view without_mark(std::string_view bytes) {
  if (bytes.starts_with("\xEF\xBB\xBF")) bytes.remove_prefix(3);
  return bytes;
}

std::optional<Diagnostic> encoding_problem(std::string_view bytes, FileName file) {
  const bool marked = bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF");
  if (marked || looks_like_utf16(bytes)) return utf16(file);
  const std::string_view text = without_mark(bytes);
  for (std::size_t i = plain_bytes(text); i < text.size(); i += plain_bytes(text.substr(i))) {
    if (text[i] == '\0') {
      Diagnostic found(Id::game_encoding, place_of(text, i, file),
                       "here is a NUL character, which no text has");
      found.hint("delete it, or save the file as UTF-8 text");
      return found;
    }
    const std::size_t length = utf8_length(text.substr(i));
    if (length == 0) return not_utf8(text, i, file);
    i += length;
  }
  return std::nullopt;
}

}  // namespace quoin::game
