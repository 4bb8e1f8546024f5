#pragma once
#include <cstdint>
#include <string_view>

namespace quoin::game {

/// Walks over TOML without understanding more than where texts and comments begin and end. Never
/// fails: a text that is not closed ends with its line, or with the file when its quotes are three.
class TomlWalk {
 public:
  explicit TomlWalk(std::string_view text) : text_(text) {}

  [[nodiscard]] bool done() const { return at_ >= text_.size(); }
  /// The line, counted from 1, of the character that comes next.
  [[nodiscard]] std::uint32_t line() const { return line_; }
  /// All that has not been walked over.
  [[nodiscard]] std::string_view rest() const { return text_.substr(at_); }

  /// The next character outside texts and comments; '"' stands for a whole text, ' ' for a comment
  /// up to the end of its line. Not to be asked for when `done`.
  char next();

 private:
  void step();
  void skip_text(char quote);
  void skip_text_of_many_lines(char quote);

  std::string_view text_;
  std::size_t at_ = 0;
  std::uint32_t line_ = 1;
};

}  // namespace quoin::game
