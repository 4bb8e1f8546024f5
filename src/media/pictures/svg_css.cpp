#include "media/pictures/svg_css.h"

#include <algorithm>
#include <cstdint>

namespace quoin::pictures {
namespace {

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f'; }
bool is_hex(char c) {
  return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F');
}
bool is_name(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
         c == '-' || static_cast<unsigned char>(c) >= 0x80;
}

bool same_word(std::string_view a, std::string_view lower) {
  return std::equal(a.begin(), a.end(), lower.begin(), lower.end(),
                    [](char x, char y) { return (x >= 'A' && x <= 'Z' ? x - 'A' + 'a' : x) == y; });
}

class StyleCleaner {
 public:
  StyleCleaner(std::string_view css, const StyleRequests& requests)
      : left_(css), requests_(requests) {}

  std::string clean() {
    while (!left_.empty()) next();
    return std::move(out_);
  }

 private:
  void next() {
    const char c = left_.front();
    if (left_.starts_with("/*"))
      skip_comment();
    else if (c == '"' || c == '\'')
      copy_string();
    else if (c == '@')
      leave_out_rule();
    else if (c == '\\' || is_name(c))
      take_word();
    else
      keep(1);
  }

  void keep(std::size_t count) {
    out_ += left_.substr(0, count);
    left_.remove_prefix(std::min(count, left_.size()));
  }

  void skip_comment() {
    const std::size_t end = left_.find("*/", 2);
    left_.remove_prefix(end == left_.npos ? left_.size() : end + 2);
    out_ += ' ';
  }

  /// The bytes of the string that starts here, quotes included; an open one ends with the line.
  [[nodiscard]] std::size_t string_size() const {
    const char quote = left_.front();
    for (std::size_t i = 1; i < left_.size(); ++i) {
      if (left_[i] == '\\')
        ++i;
      else if (left_[i] == quote)
        return i + 1;
      else if (left_[i] == '\n')
        return i;
    }
    return left_.size();
  }
  void copy_string() { keep(string_size()); }

  /// Reads an escape (the backslash is next) as the character it stands for; all but plain ASCII
  /// comes back as '?', which no keyword and no address that is kept has in it.
  char read_escape() {
    left_.remove_prefix(1);
    if (left_.empty()) return '?';
    if (!is_hex(left_.front())) {
      const char c = left_.front();
      left_.remove_prefix(1);
      return c;
    }
    std::uint32_t value = 0;
    for (int i = 0; i < 6 && !left_.empty() && is_hex(left_.front()); ++i) {
      const char c = left_.front();
      value = value * 16 + static_cast<std::uint32_t>(c <= '9' ? c - '0' : (c | 0x20) - 'a' + 10);
      left_.remove_prefix(1);
    }
    if (!left_.empty() && is_blank(left_.front())) left_.remove_prefix(1);
    return value >= ' ' && value < 127 ? static_cast<char>(value) : '?';
  }

  std::string read_word() {
    std::string word;
    while (!left_.empty() && (left_.front() == '\\' || is_name(left_.front()))) {
      if (left_.front() == '\\') {
        word += read_escape();
      } else {
        word += left_.front();
        left_.remove_prefix(1);
      }
    }
    return word;
  }

  void take_word() {
    const std::string_view written = left_;
    const std::string word = read_word();
    if (same_word(word, "url") && left_.starts_with('(')) return take_address();
    out_ += written.substr(0, written.size() - left_.size());
  }

  /// Reads to `end` with escapes undone.
  std::string read_until(std::string_view ends) {
    std::string text;
    while (!left_.empty() && ends.find(left_.front()) == ends.npos) {
      if (left_.front() == '\\') {
        text += read_escape();
      } else {
        text += left_.front();
        left_.remove_prefix(1);
      }
    }
    return text;
  }

  void take_address() {
    left_.remove_prefix(1);
    skip_blanks();
    std::string address;
    if (!left_.empty() && (left_.front() == '"' || left_.front() == '\'')) {
      const char quote = left_.front();
      left_.remove_prefix(1);
      address = read_until({&quote, 1});
      if (!left_.empty()) left_.remove_prefix(1);
      read_until(")");
    } else {
      address = read_until(")");
      while (!address.empty() && is_blank(address.back())) address.pop_back();
    }
    if (!left_.empty()) left_.remove_prefix(1);
    const bool is_plain = address.find_first_of("\"\\\n()") == address.npos;
    out_ += is_plain && requests_.keeps(address) ? "url(\"" + address + "\")" : "none";
  }

  void skip_blanks() {
    while (!left_.empty() && is_blank(left_.front())) left_.remove_prefix(1);
  }

  /// The bytes of a {…} block that starts here, or to the end when it is not closed.
  [[nodiscard]] std::size_t block_size() const {
    int depth = 0;
    for (std::size_t i = 0; i < left_.size(); ++i) {
      if (left_[i] == '\\')
        ++i;
      else if (left_[i] == '{')
        ++depth;
      else if (left_[i] == '}' && --depth <= 0)
        return i + 1;
    }
    return left_.size();
  }

  /// An @-rule ends with ';' or with its block; the block that it may stand in stays closed.
  void leave_out_rule() {
    const std::string_view start = left_;
    left_.remove_prefix(1);
    const std::string keyword = "@" + read_word();
    while (!left_.empty() && left_.front() != ';' && left_.front() != '{' && left_.front() != '}') {
      const bool is_string = left_.front() == '"' || left_.front() == '\'';
      left_.remove_prefix(is_string ? string_size() : 1);
    }
    if (left_.starts_with('{'))
      left_.remove_prefix(block_size());
    else if (left_.starts_with(';'))
      left_.remove_prefix(1);
    requests_.left_out(keyword, start.substr(0, start.size() - left_.size()));
  }

  std::string_view left_;
  const StyleRequests& requests_;
  std::string out_;
};

}  // namespace

std::string clean_css(std::string_view css, const StyleRequests& requests) {
  return StyleCleaner(css, requests).clean();
}

}  // namespace quoin::pictures
