#include "cli/terminal.h"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <cstdlib>
#include <cstring>

namespace quoin::cli {
namespace {

constexpr int widest = 100;
constexpr int narrowest = 24;

int terminal_width(std::FILE* out) {
  winsize size{};
  int width = 80;
  if (::ioctl(::fileno(out), TIOCGWINSZ, &size) == 0 && size.ws_col > 0) width = size.ws_col;
  return std::clamp(width, narrowest, widest);
}

const char* code(Tone tone) {
  switch (tone) {
    case Tone::plain:
      return "";
    case Tone::strong:
      return "\x1b[1m";
    case Tone::faint:
      return "\x1b[2m";
    case Tone::error:
      return "\x1b[1;31m";
    case Tone::warning:
      return "\x1b[1;33m";
    case Tone::note:
      return "\x1b[1;36m";
    case Tone::good:
      return "\x1b[32m";
  }
  return "";
}

/// The character that starts at `at`, and how many bytes it has.
std::pair<char32_t, std::size_t> character(std::string_view text, std::size_t at) {
  const auto byte = static_cast<unsigned char>(text[at]);
  const std::size_t size = byte < 0x80 ? 1 : byte < 0xE0 ? 2 : byte < 0xF0 ? 3 : 4;
  char32_t value = size == 1 ? byte : byte & (0xFFU >> (size + 1));
  for (std::size_t i = 1; i < size && at + i < text.size(); ++i) {
    value = (value << 6) | (static_cast<unsigned char>(text[at + i]) & 0x3FU);
  }
  return {value, std::min(size, text.size() - at)};
}

int columns_of(char32_t c) {
  const bool combining = (c >= 0x300 && c <= 0x36F) || (c >= 0x200B && c <= 0x200F) ||
                         (c >= 0x591 && c <= 0x5BD) || (c >= 0x610 && c <= 0x61A) ||
                         (c >= 0x64B && c <= 0x65F) || (c >= 0xE34 && c <= 0xE3A) ||
                         (c >= 0xE47 && c <= 0xE4E);
  const bool wide = (c >= 0x1100 && c <= 0x115F) || (c >= 0x2E80 && c <= 0xA4CF) ||
                    (c >= 0xAC00 && c <= 0xD7A3) || (c >= 0xF900 && c <= 0xFAFF) ||
                    (c >= 0xFF00 && c <= 0xFF60) || (c >= 0x1F300 && c <= 0x1FAFF);
  return combining ? 0 : wide ? 2 : 1;
}

}  // namespace

int columns(std::string_view text) {
  int total = 0;
  for (std::size_t i = 0; i < text.size();) {
    if (text[i] == '\x1b') {
      const std::size_t end = text.find('m', i);
      if (end == std::string_view::npos) break;
      i = end + 1;
      continue;
    }
    const auto [value, size] = character(text, i);
    total += columns_of(value);
    i += size;
  }
  return total;
}

std::string wrapped(std::string_view text, int width, int indent) {
  if (width == 0 || columns(text) <= width) return std::string(text);
  std::string result;
  int at = 0;
  std::size_t start = 0;
  while (start < text.size()) {
    std::size_t end = text.find(' ', start == 0 ? text.find_first_not_of(' ') : start);
    if (end == std::string_view::npos) end = text.size();
    const std::string_view word = text.substr(start, end - start);
    const int wide = columns(word);
    if (at > indent && at + 1 + wide > width) {
      result += '\n' + std::string(static_cast<std::size_t>(indent), ' ');
      at = indent;
    } else if (start > 0) {
      result += ' ';
      ++at;
    }
    result += word;
    at += wide;
    start = end + 1;
  }
  return result;
}

Terminal::Terminal(std::FILE* out) : out_(out), is_terminal_(::isatty(::fileno(out)) == 1) {
  const char* no_colour = std::getenv("NO_COLOR");
  const char* kind = std::getenv("TERM");
  const bool dumb = kind == nullptr || std::strcmp(kind, "dumb") == 0;
  colour_ = is_terminal_ && !dumb && (no_colour == nullptr || *no_colour == '\0');
  width_ = is_terminal_ ? terminal_width(out) : 0;
}

std::string Terminal::toned(Tone tone, std::string_view text) const {
  if (!colour_ || tone == Tone::plain) return std::string(text);
  return code(tone) + std::string(text) + "\x1b[0m";
}

std::string Terminal::swatch(std::string_view hex) const {
  if (!colour_ || hex.size() < 7) return {};
  const auto part = [&](std::size_t at) {
    return std::to_string(std::strtol(std::string(hex.substr(at, 2)).c_str(), nullptr, 16));
  };
  return "\x1b[48;2;" + part(1) + ";" + part(3) + ";" + part(5) + "m    \x1b[0m ";
}

void Terminal::line(std::string_view text, int indent) const {
  raw(wrapped(text, width_, indent) + "\n");
}

void Terminal::raw(std::string_view text) const { std::fwrite(text.data(), 1, text.size(), out_); }

void Terminal::passing(std::string_view text) const {
  if (!is_terminal_) return;
  std::string shown(text);
  while (columns(shown) >= width_ && !shown.empty()) shown.pop_back();
  raw("\r\x1b[K" + shown);
  std::fflush(out_);
}

void Terminal::clear_passing() const {
  if (is_terminal_) raw("\r\x1b[K");
}

}  // namespace quoin::cli
