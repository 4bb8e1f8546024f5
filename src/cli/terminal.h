#pragma once
#include <cstdio>
#include <string>
#include <string_view>

namespace quoin::cli {

enum class Tone { plain, strong, faint, error, warning, note, good };

/// Where words for a person go: colour only on a terminal and when NO_COLOR is not set
/// (no-color.org), lines wrapped to the terminal's width, at most 100 columns; unwrapped when it
/// is a pipe or a file.
class Terminal {
 public:
  /// `out` is stdout or stderr.
  explicit Terminal(std::FILE* out);

  [[nodiscard]] bool is_terminal() const { return is_terminal_; }
  /// Columns to wrap at; 0 means do not wrap.
  [[nodiscard]] int width() const { return width_; }
  [[nodiscard]] std::string toned(Tone tone, std::string_view text) const;
  /// A patch of a colour, "#rrggbb", and a space; "" where there is no colour.
  [[nodiscard]] std::string swatch(std::string_view hex) const;
  /// Writes the text wrapped between words; lines after the first start with `indent` spaces.
  void line(std::string_view text, int indent = 0) const;
  void raw(std::string_view text) const;
  /// A line that the next one replaces; nothing unless this is a terminal.
  void passing(std::string_view text) const;
  void clear_passing() const;

 private:
  std::FILE* out_;
  bool is_terminal_ = false;
  bool colour_ = false;
  int width_ = 0;
};

/// Columns a text takes in a terminal: UTF-8 characters, marks that combine and colour codes
/// counted as none, wide East Asian characters as two.
[[nodiscard]] int columns(std::string_view text);

/// `text` broken between words so that no line is wider than `width` (0: not at all); lines after
/// the first start with `indent` spaces.
[[nodiscard]] std::string wrapped(std::string_view text, int width, int indent);

}  // namespace quoin::cli
