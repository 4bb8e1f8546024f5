#include "game/toml_statements.h"

#include <fmt/format.h>

#include <algorithm>

#include "game/toml_walk.h"
#include "game/words.h"

namespace quoin::game {
namespace {

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || (c & 0x80) != 0;
}

bool belongs_to_word(char c) {
  return is_letter(c) || (c >= '0' && c <= '9') || c == '-' || c == '.';
}

/// "[card]", "[[layouts]] # remark" and also "[card": no list begins so, but for one of truth
/// values or of numbers that are none.
bool looks_like_heading(std::string_view line) {
  line = trimmed(line.substr(0, line.find('#')));
  if (!line.starts_with('[')) return false;
  line.remove_prefix(line.starts_with("[[") ? 2 : 1);
  while (line.ends_with(']')) line.remove_suffix(1);
  line = trimmed(line);
  return !line.empty() && is_letter(line.front()) &&
         std::all_of(line.begin(), line.end(), belongs_to_word) && line != "true" &&
         line != "false" && line != "inf" && line != "nan";
}

/// What may have been meant for a heading: "card]", "(card)", "card".
bool may_be_heading(std::string_view line) {
  line = trimmed(line.substr(0, line.find('#')));
  if (line.starts_with('[')) return true;
  constexpr const char* brackets = "[](){}<>: \t";
  line.remove_prefix(std::min(line.find_first_not_of(brackets), line.size()));
  line = line.substr(0, line.find_last_not_of(brackets) + 1);
  return !line.empty() && std::all_of(line.begin(), line.end(), belongs_to_word);
}

bool is_whole_value(std::string_view text) {
  if (text.empty()) return false;
  const char last = text.back();
  if (text.front() == '"' || text.front() == '\'') return text.size() > 1 && last == text.front();
  return (text.front() == '[' && last == ']') || text == "true" || text == "false" ||
         read_number(text).has_value();
}

/// `key = value`, also with the faults that do not hide it: two words for a key, a colon or nothing
/// in place of the =.
bool looks_like_key(std::string_view line) {
  line = trimmed(line.substr(0, line.find(" #")));
  const std::size_t mark = line.find_first_of("=\"'[]{}#,");
  if (mark != std::string_view::npos && mark > 0 && line[mark] == '=') return true;
  if (line.empty() || !is_letter(line.front())) return false;
  const auto end = std::find_if_not(line.begin(), line.end(), belongs_to_word);
  const std::string_view rest = trimmed(line.substr(static_cast<std::size_t>(end - line.begin())));
  return rest.starts_with(':') || is_whole_value(rest);
}

/// Cuts a text into statements, as far as brackets, texts and line ends tell.
class Statements {
 public:
  explicit Statements(std::string_view text) : walk_(text) {}

  [[nodiscard]] bool done() const { return walk_.done(); }

  /// The next statement; its lines are its own, without leftovers.
  FaultyLines next() {
    std::string open;
    const char begins = first_character();
    FaultyLines found{begun_, walk_.line(), begins == '['};
    follow(begins, open);
    while (!walk_.done()) {
      const std::uint32_t before = walk_.line();
      const char c = walk_.next();
      found.last = c == '\n' ? before : walk_.line();
      follow(c, open);
      if (c != '\n') continue;
      if (found.is_heading || open.empty()) return found;
      found.is_unclosed = another_begins(open.back());
      if (found.is_unclosed) return found;
    }
    found.is_unclosed = !open.empty() && !found.is_heading;
    return found;
  }

 private:
  /// The first character that is no blank, and `begun_` its line.
  char first_character() {
    char c = ' ';
    while (!walk_.done() && (c == ' ' || c == '\t' || c == '\n' || c == '\r')) {
      begun_ = walk_.line();
      c = walk_.next();
    }
    return c;
  }

  static void follow(char c, std::string& open) {
    if (c == '[' || c == '{') open += c;
    if ((c == ']' || c == '}') && !open.empty()) open.pop_back();
  }

  /// Whether the line that comes next cannot belong to the bracket that is open: a heading never,
  /// a key not right within a list.
  [[nodiscard]] bool another_begins(char open) const {
    const std::string_view rest = walk_.rest();
    const std::string_view line = rest.substr(0, rest.find('\n'));
    return looks_like_heading(line) || (open == '[' && looks_like_key(line));
  }

  TomlWalk walk_;
  std::uint32_t begun_ = 1;
};

/// Calls `each` with the lines from `first` to `last` of the text, in order.
template <typename Each>
void for_lines(std::string_view text, std::uint32_t first, std::uint32_t last, const Each& each) {
  std::uint32_t number = 1;
  for (std::size_t at = 0; at < text.size() && number <= last; ++number) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    if (number >= first) each(number, text.substr(at, end - at));
    at = end + 1;
  }
}

/// Takes in what follows without looking like a statement: the rest of a value in pieces, prose.
void take_leftovers(std::string_view text, FaultyLines& lines) {
  for_lines(text, lines.last + 1, ~std::uint32_t{0},
            [&](std::uint32_t number, std::string_view line) {
              if (lines.more_follows) return;
              lines.more_follows = looks_like_heading(line) || looks_like_key(line);
              if (!lines.more_follows && !trimmed(line).empty()) lines.last = number;
            });
}

bool holds_three_quotes(std::string_view line) {
  return line.find("\"\"\"") != std::string_view::npos ||
         line.find("'''") != std::string_view::npos;
}

}  // namespace

FaultyLines faulty_lines(std::string_view text, std::uint32_t line) {
  FaultyLines found{line, line};
  for (Statements statements(text); !statements.done();) {
    const FaultyLines each = statements.next();
    // Nothing can be read past a bracket that stays open.
    if (each.last < line && !each.is_unclosed) continue;
    found = each;
    break;
  }
  take_leftovers(text, found);
  for_lines(text, found.first, found.last, [&](std::uint32_t, std::string_view of) {
    found.holds_headings = found.holds_headings || may_be_heading(of);
  });
  return found;
}

std::optional<std::string> without(std::string_view text, const FaultyLines& lines) {
  const std::string name = fmt::format("unreadable-from-line-{}", lines.first);
  bool is_unsure = text.find(name) != std::string_view::npos;
  std::string rest(text);
  for_lines(text, lines.first, lines.last, [&](std::uint32_t, std::string_view line) {
    is_unsure = is_unsure || (lines.last > lines.first && holds_three_quotes(line));
    std::fill_n(rest.begin() + (line.data() - text.data()), line.size(), ' ');
  });
  if (is_unsure) return std::nullopt;
  if (lines.holds_headings) {
    for_lines(text, lines.first, lines.first, [&](std::uint32_t, std::string_view line) {
      rest.insert(static_cast<std::size_t>(line.data() - text.data()), fmt::format("[{}] ", name));
    });
  }
  return rest;
}

}  // namespace quoin::game
