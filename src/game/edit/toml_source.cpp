#include "game/edit/toml_source.h"

#include <algorithm>
#include <charconv>
#include <map>

#include "game/encoding.h"

namespace quoin::game {
namespace {

bool is_bare(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
         c == '-';
}

void add_utf8(std::string& text, std::uint32_t letter) {
  const auto tail = [&](int shift) {
    text += static_cast<char>(0x80 | ((letter >> shift) & 0x3F));
  };
  if (letter < 0x80) {
    text += static_cast<char>(letter);
  } else if (letter < 0x800) {
    text += static_cast<char>(0xC0 | (letter >> 6));
    tail(0);
  } else if (letter < 0x10000) {
    text += static_cast<char>(0xE0 | (letter >> 12));
    tail(6), tail(0);
  } else {
    text += static_cast<char>(0xF0 | (letter >> 18));
    tail(12), tail(6), tail(0);
  }
}

/// A key in double quotes, with what its backslashes stand for (TOML 1.0, "String").
std::string unescaped(std::string_view inside) {
  constexpr std::string_view letters = "btnfr\"\\", meant = "\b\t\n\f\r\"\\";
  std::string text;
  for (std::size_t i = 0; i < inside.size(); ++i) {
    if (inside[i] != '\\' || i + 1 == inside.size()) {
      text += inside[i];
      continue;
    }
    const char c = inside[++i];
    const std::size_t digits = c == 'u' ? 4 : c == 'U' ? 8 : 0;
    if (const std::size_t known = letters.find(c); known != std::string_view::npos) {
      text += meant[known];
    } else if (digits > 0 && i + digits < inside.size()) {
      std::uint32_t letter = 0;
      const char* first = inside.data() + i + 1;
      std::from_chars(first, first + digits, letter, 16);
      add_utf8(text, letter);
      i += digits;
    }
  }
  return text;
}

/// Reads a text that is known to be TOML. Past what it does not understand it stands still.
class Scanner {
 public:
  explicit Scanner(std::string_view text) : text_(text), at_(text_start(text)) {}

  [[nodiscard]] bool done() const { return at_ >= text_.size(); }
  [[nodiscard]] bool is_sound() const { return is_sound_; }

  /// To the next statement; false when there is none.
  bool to_statement() {
    skip_between();
    return !done() && is_sound_;
  }

  Statement statement(std::vector<std::string>& key) {
    Statement made;
    made.lines.from = line_start(text_, at_);
    made.key_at.from = at_;
    const int brackets = text_.substr(at_, 2) == "[[" ? 2 : peek() == '[' ? 1 : 0;
    made.kind = brackets == 2   ? Statement::Kind::list_heading
                : brackets == 1 ? Statement::Kind::heading
                                : Statement::Kind::entry;
    at_ += static_cast<std::size_t>(brackets);
    skip_blanks();
    key = keys();
    made.key_parts = key.size();
    made.key_at.to = key_end_;
    if (brackets > 0) {
      for (int i = 0; i < brackets; ++i) expect(']');
      made.key_at.to = at_;
    } else {
      expect('=');
      skip_blanks();
      made.value = value(0);
    }
    to_line_end();
    made.lines.to = at_;
    return made;
  }

 private:
  [[nodiscard]] char peek() const { return done() ? '\0' : text_[at_]; }

  void expect(char c) {
    if (peek() == c)
      ++at_;
    else
      is_sound_ = false;
  }

  void skip_blanks() {
    while (peek() == ' ' || peek() == '\t') ++at_;
  }

  void skip_remark() {
    if (peek() == '#') at_ = std::min(text_.find('\n', at_), text_.size());
  }

  /// Blanks, line ends and remarks.
  void skip_between() {
    for (;;) {
      const std::size_t before = at_;
      skip_blanks();
      while (peek() == '\r' || peek() == '\n') ++at_;
      skip_remark();
      if (at_ == before) return;
    }
  }

  void to_line_end() {
    skip_blanks();
    skip_remark();
    if (peek() == '\r') ++at_;
    if (!done()) expect('\n');
  }

  std::vector<std::string> keys() {
    std::vector<std::string> parts;
    do {
      if (!parts.empty()) ++at_;
      skip_blanks();
      parts.push_back(key_part());
      key_end_ = at_;
      skip_blanks();
    } while (peek() == '.' && is_sound_);
    return parts;
  }

  std::string key_part() {
    const std::size_t from = at_;
    if (peek() == '"' || peek() == '\'') {
      const bool is_plain = peek() == '\'';
      skip_text();
      if (at_ < from + 2) return {};
      const std::string_view inside = text_.substr(from + 1, at_ - from - 2);
      return is_plain ? std::string(inside) : unescaped(inside);
    }
    while (!done() && is_bare(peek())) ++at_;
    if (at_ == from) is_sound_ = false;
    return std::string(text_.substr(from, at_ - from));
  }

  void skip_text() {
    const char quote = peek();
    const std::string three(3, quote);
    if (text_.substr(at_, 3) == three) {
      at_ += 3;
      while (!done() && text_.substr(at_, 3) != three)
        at_ += quote == '"' && peek() == '\\' ? 2 : 1;
      for (int i = 0; i < 5 && peek() == quote; ++i) ++at_;
    } else {
      ++at_;
      while (!done() && peek() != quote) at_ += quote == '"' && peek() == '\\' ? 2 : 1;
      expect(quote);
    }
    at_ = std::min(at_, text_.size());
  }

  Written value(int depth) {
    Written made;
    made.at.from = at_;
    if (depth > 256 || done()) {
      is_sound_ = false;
    } else if (peek() == '"' || peek() == '\'') {
      skip_text();
    } else if (peek() == '[') {
      made.kind = Written::Kind::list;
      items(']', [&] { made.items.push_back(value(depth + 1)); });
    } else if (peek() == '{') {
      made.kind = Written::Kind::table;
      items('}', [&] { made.entries.push_back(entry(depth + 1)); });
    } else {
      skip_plain();
    }
    made.at.to = at_;
    return made;
  }

  /// A number, a truth value or a date, which may hold one blank.
  void skip_plain() {
    const std::size_t from = at_;
    at_ = std::min(text_.find_first_of(",]}#\r\n", at_), text_.size());
    while (at_ > from && (text_[at_ - 1] == ' ' || text_[at_ - 1] == '\t')) --at_;
    if (at_ == from) is_sound_ = false;
  }

  template <typename Each>
  void items(char close, const Each& each) {
    ++at_;
    skip_between();
    while (!done() && is_sound_ && peek() != close) {
      each();
      skip_between();
      if (peek() == ',')
        ++at_;
      else if (peek() != close)
        is_sound_ = false;
      skip_between();
    }
    expect(close);
  }

  WrittenEntry entry(int depth) {
    WrittenEntry made;
    made.at.from = at_;
    made.key = keys();
    expect('=');
    skip_blanks();
    made.value = value(depth);
    made.at.to = at_;
    return made;
  }

  std::string_view text_;
  std::size_t at_;
  std::size_t key_end_ = 0;
  bool is_sound_ = true;
};

/// Knows which names are lists of blocks, and so which item a heading speaks of.
class Headings {
 public:
  ValuePath item_of_list(const std::vector<std::string>& key) {
    ValuePath path = under({}, {key.begin(), key.end() - 1});
    path.emplace_back(key.back());
    const std::size_t index = sizes_[path]++;
    path.emplace_back(index);
    return path;
  }

  [[nodiscard]] ValuePath table(const std::vector<std::string>& key) const {
    return under({}, key);
  }

 private:
  [[nodiscard]] ValuePath under(ValuePath path, const std::vector<std::string>& key) const {
    for (const std::string& part : key) {
      path.emplace_back(part);
      const auto list = sizes_.find(path);
      if (list != sizes_.end()) path.emplace_back(list->second - 1);
    }
    return path;
  }

  std::map<ValuePath, std::size_t> sizes_;
};

std::optional<FoundValue> descend(FoundValue at, const ValuePath& path, std::size_t step) {
  if (step == path.size()) return at;
  const Written& holder = *at.value;
  if (const auto* index = std::get_if<std::size_t>(&path[step])) {
    if (holder.kind != Written::Kind::list || *index >= holder.items.size()) return std::nullopt;
    return descend({at.statement, &holder.items[*index], &holder, *index}, path, step + 1);
  }
  for (std::size_t i = 0; i < holder.entries.size(); ++i) {
    const std::vector<std::string>& key = holder.entries[i].key;
    const ValuePath own(key.begin(), key.end());
    const ValuePath rest(path.begin() + static_cast<std::ptrdiff_t>(step), path.end());
    if (!begins_with(rest, own)) continue;
    return descend({at.statement, &holder.entries[i].value, &holder, i}, path, step + key.size());
  }
  return std::nullopt;
}

}  // namespace

TomlSource::TomlSource(std::string_view text) : text_(text) {
  Scanner scanner(text);
  Headings headings;
  ValuePath table;
  std::vector<std::string> key;
  while (scanner.to_statement()) {
    Statement next = scanner.statement(key);
    if (!scanner.is_sound()) break;
    if (next.kind == Statement::Kind::entry) {
      next.path = table;
      next.path.insert(next.path.end(), key.begin(), key.end());
    } else {
      table =
          next.kind == Statement::Kind::heading ? headings.table(key) : headings.item_of_list(key);
      next.path = table;
    }
    statements_.push_back(std::move(next));
  }
  is_sound_ = scanner.is_sound();
}

bool begins_with(const ValuePath& path, const ValuePath& start) {
  return path.size() >= start.size() && std::equal(start.begin(), start.end(), path.begin());
}

std::optional<FoundValue> find_value(const TomlSource& source, const ValuePath& path) {
  for (const Statement& each : source.statements()) {
    if (each.kind != Statement::Kind::entry || !begins_with(path, each.path)) continue;
    return descend({&each, &each.value, nullptr, 0}, path, each.path.size());
  }
  return std::nullopt;
}

std::vector<const Statement*> statements_under(const TomlSource& source, const ValuePath& path) {
  std::vector<const Statement*> found;
  for (const Statement& each : source.statements()) {
    if (begins_with(each.path, path)) found.push_back(&each);
  }
  return found;
}

}  // namespace quoin::game
