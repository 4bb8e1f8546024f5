#include "game/toml_syntax.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "game/toml_shape.h"
#include "game/words.h"

namespace quoin::game {
namespace {

bool has(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

/// The line up to its comment, cut into what stands before and after the first '='.
struct KeyAndValue {
  std::string_view key, value;
  bool has_equals = false;
};

KeyAndValue split(std::string_view line) {
  const std::size_t equals = line.find('=');
  if (equals == std::string_view::npos) return {trimmed(line), {}, false};
  return {trimmed(line.substr(0, equals)), trimmed(line.substr(equals + 1)), true};
}

Diagnostic problem(const Origin& where, std::string message, std::string hint) {
  Diagnostic found(Id::game_toml_syntax, where, std::move(message));
  if (!hint.empty()) found.hint(std::move(hint));
  return found;
}

/// The key in `cannot redefine existing integer 'a' as table`.
std::string named_in(std::string_view words) {
  const std::size_t open = words.find('\'');
  const std::size_t close = words.rfind('\'');
  if (open == std::string_view::npos || close <= open) return {};
  std::string_view name = words.substr(open + 1, close - open - 1);
  while (name.size() > 1 && (name.front() == '\'' || name.front() == '"')) name.remove_prefix(1);
  if (const std::size_t quote = name.find('\''); quote != std::string_view::npos) {
    name = name.substr(0, quote);
  }
  return std::string(name);
}

/// The parser stops behind the value; the key begins the line.
std::optional<Diagnostic> key_twice(Origin where, std::string_view line, std::string_view words) {
  if (!has(words, "cannot redefine") && !has(words, "cannot insert")) return std::nullopt;
  where.column = static_cast<std::uint32_t>(line.find_first_not_of(" \t[")) + 1;
  const std::string name = named_in(words);
  Diagnostic found(
      Id::game_toml_key_twice, where,
      name.empty() ? "this key is given twice" : fmt::format("{} is given twice", name));
  if (has(words, "table header")) {
    found.hint("write each heading once and put all its keys below it");
  } else {
    found.hint("keep one of the two lines");
  }
  return found;
}

/// Quotes that a word processor curled.
bool has_curled_quotes(std::string_view line) {
  for (const char* quote : {"“", "”", "‘", "’", "„", "«", "»"}) {
    if (has(line, quote)) return true;
  }
  return false;
}

/// The quote whose text does not end on its line.
std::optional<std::size_t> open_quote(std::string_view line) {
  for (std::size_t at = 0; at < line.size(); ++at) {
    const char quote = line[at];
    if (quote != '"' && quote != '\'') continue;
    std::size_t end = at + 1;
    while (end < line.size() && line[end] != quote) {
      end += quote == '"' && line[end] == '\\' ? 2 : 1;
    }
    if (end >= line.size()) return at;
    at = end;
  }
  return std::nullopt;
}

Origin at_byte(const Origin& where, std::uint32_t line, std::string_view text, std::size_t byte,
               std::uint32_t length) {
  return {where.file, line, static_cast<std::uint32_t>(characters(text.substr(0, byte))) + 1,
          length};
}

/// The file ends within a text that three quotes opened.
std::optional<Diagnostic> open_long_text(const Origin& where, std::string_view first,
                                         const FaultyLines& faulty) {
  const std::size_t three = std::min(first.find("\"\"\""), first.find("'''"));
  if (three == std::string_view::npos) return std::nullopt;
  return problem(at_byte(where, faulty.first, first, three, 3),
                 "the three quotes that open this text are never closed",
                 "write the same three quotes where the text ends");
}

Diagnostic open_text(const Origin& where, std::string_view line) {
  const std::optional<std::size_t> quote = open_quote(line);
  if (!quote || has(line, "\"\"\"") || has(line, "'''")) {
    return problem(where, "a text begins here or above and is not closed again",
                   "close it with the quotes that open it");
  }
  return problem(at_byte(where, where.line, line, *quote, 1),
                 "the quote that opens this text is never closed",
                 "close it on the same line, or use \"\"\" for a text of many lines");
}

std::optional<Diagnostic> about_texts(const Origin& where, std::string_view line,
                                      std::string_view first, std::string_view words,
                                      const FaultyLines& faulty) {
  if (has(words, "parsing string") && has(words, "end-of-file")) {
    if (auto found = open_long_text(where, first, faulty)) return found;
    return open_text(where, line);
  }
  if (has(words, "parsing string") && has(words, "unescaped control")) {
    return open_text(where, line);
  }
  if (has(words, "escape sequence")) {
    return problem(where,
                   "a backslash in double quotes begins a special character, and this is "
                   "none of them",
                   "write \\\\ for a backslash, or use single quotes");
  }
  if (has_curled_quotes(line) && !has(line, "\"")) {
    return problem(where, "these quotes are curled; only straight ones hold a text",
                   "use \" before and after the text");
  }
  return std::nullopt;
}

Diagnostic open_list(const Origin& where, const FaultyLines& faulty) {
  Diagnostic found = problem(where,
                             "the list cannot be read from here on: a comma or the closing ] is "
                             "missing",
                             "write it as [1, 2, 3]: commas between, ] at the end");
  if (faulty.first < where.line) {
    found.detail(fmt::format("the list begins on line {}", faulty.first));
  }
  return found;
}

std::optional<Diagnostic> about_lists(const Origin& where, std::string_view words,
                                      const FaultyLines& faulty) {
  if (has(words, "dangling comma")) {
    return problem(where, "a comma stands before the closing }", "delete the comma");
  }
  if (has(words, "inline table") && (has(words, "'\\n'") || has(words, "'\\r'"))) {
    return problem(where, "a table in { } must stand on one line",
                   "join the lines, or write it below a heading of its own");
  }
  if (has(words, "inline table")) {
    return problem(where, "the table in { } cannot be read from here on",
                   "write it as { colour = \"ink\", width = 0.3 }: commas between, } at the end");
  }
  if (has(words, "saw comma")) {
    return problem(where, "two commas stand next to each other", "delete one of them");
  }
  if (has(words, "array")) return open_list(where, faulty);
  if (has(words, "table header")) {
    return problem(where, "a heading is a name in brackets, such as [card] or [[layouts]]",
                   "close the brackets, and leave nothing else on the line");
  }
  if (faulty.is_unclosed && faulty.first < where.line) return open_list(where, faulty);
  return std::nullopt;
}

bool is_plain_key(std::string_view key) {
  const auto plain = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
           c == '_' || c == '.';
  };
  return !key.empty() && std::all_of(key.begin(), key.end(), plain);
}

/// A value without quotes, or with a unit, or with a decimal comma.
Diagnostic about_value(const Origin& where, const KeyAndValue& parts) {
  const std::string key(parts.key);
  const std::string_view value = trimmed(parts.value.substr(0, parts.value.find(" #")));
  if (value.empty() || value.front() == '#') {
    const bool colour = !value.empty();
    return problem(where, fmt::format("{} has no value", key),
                   colour ? fmt::format("a colour stands in quotes: {} = {}", key, in_quotes(value))
                          : fmt::format("write one after the =, or delete the line"));
  }
  if (lower_case(value) == "true" || lower_case(value) == "false") {
    return problem(where, fmt::format("{} is written in small letters", value),
                   fmt::format("write {} = {}", key, lower_case(value)));
  }
  const std::size_t comma = value.find(',');
  if (comma != std::string_view::npos && read_number(value.substr(0, comma)) &&
      read_number(value.substr(comma + 1))) {
    std::string number(value);
    number[comma] = '.';
    return problem(where, "decimals are written with a point",
                   fmt::format("write {} = {}", key, number));
  }
  if (value.ends_with("mm") && read_number(value.substr(0, value.size() - 2))) {
    return problem(where, "lengths are millimetres and written without the unit",
                   fmt::format("write {} = {}", key, trimmed(value.substr(0, value.size() - 2))));
  }
  if (value.starts_with('.') || value.ends_with('.')) {
    return problem(where, "a number needs a digit before and after its point",
                   fmt::format("write {} = 0.5, or 5.0", key));
  }
  return problem(where,
                 fmt::format("{} is neither a number nor a text in quotes", in_quotes(value)),
                 fmt::format("if it is a text, write {} = {}", key, in_quotes(value)));
}

}  // namespace

Diagnostic syntax_problem(std::string_view text, Origin where, std::string_view words,
                          const FaultyLines& faulty) {
  const std::string_view first = line_of(text, faulty.first);
  if (auto found = key_twice({where.file, faulty.first, 0, 0}, first, words)) return *found;
  const std::string_view line = line_of(text, where.line);
  if (auto found = about_texts(where, line, first, words, faulty)) return *found;
  if (auto found = about_lists(where, words, faulty)) return *found;
  const KeyAndValue parts = split(line);
  const bool plain_key = is_plain_key(parts.key);
  if (parts.has_equals && plain_key &&
      parts.value.find_first_of("[]{}\"'") == std::string_view::npos) {
    return about_value(where, parts);
  }
  if (!parts.has_equals || parts.key.empty()) {
    Diagnostic found = problem(where, "each line is a heading in brackets, or key = value", "");
    if (has(line, ":")) return found.hint("write = instead of the colon");
    return found.hint("write it as key = value, or put # in front of a remark");
  }
  if (!plain_key && has(words, "expected '='")) {
    return problem(where, "a key is one word of the letters a to z, digits, - and _",
                   fmt::format("put other names in quotes: {} = …", in_quotes(parts.key)));
  }
  if (has(words, "root table") || has(words, "parsing key:")) {
    return problem(where, "a key is one word of the letters a to z, digits, - and _",
                   "put other names in quotes");
  }
  if (has(words, "comment or whitespace")) {
    return problem(where, "something stands after the value",
                   "put it on a line of its own, or # in front of a remark");
  }
  Diagnostic found = problem(where, "this line cannot be read as TOML", "");
  return found.detail(fmt::format("the parser says: {}", words));
}

}  // namespace quoin::game
