#include "game/edit/toml_write.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "game/encoding.h"
#include "game/toml_file.h"
#include "game/words.h"

namespace quoin::game {
namespace {

bool is_control(char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; }

bool is_control_but_tab(char c) { return is_control(c) && c != '\t'; }

bool is_control_in_lines(char c) { return is_control_but_tab(c) && c != '\n'; }

std::string escaped(char c) {
  constexpr std::string_view known = "\"\\\n\t\r\b\f", letters = "\"\\ntrbf";
  const std::size_t at = known.find(c);
  if (at != std::string_view::npos) return std::string("\\") + letters[at];
  return is_control(c) ? fmt::format("\\u{:04X}", static_cast<unsigned char>(c))
                       : std::string(1, c);
}

std::string in_double_quotes(std::string_view text) {
  std::string quoted = "\"";
  for (const char c : text) quoted += escaped(c);
  return quoted + "\"";
}

std::string with_line_ends(std::string_view text, std::string_view line_end) {
  std::string made;
  for (const char c : text) {
    if (c == '\n')
      made += line_end;
    else
      made += c;
  }
  return made;
}

/// What follows the opening three quotes: a line end there does not belong to the text.
std::string_view first_line_end(std::string_view old, std::string_view text,
                                std::string_view line_end) {
  const bool broken = old.substr(3).starts_with('\n') || old.substr(3).starts_with("\r\n");
  return broken || text.starts_with('\n') ? line_end : std::string_view{};
}

std::string in_three_quotes(std::string_view text, std::string_view old,
                            std::string_view line_end) {
  std::string inside;
  for (const char c : text) inside += c == '\n' ? "\n" : c == '\t' ? "\t" : escaped(c);
  return fmt::format("\"\"\"{}{}\"\"\"", first_line_end(old, text, line_end),
                     with_line_ends(inside, line_end));
}

std::string text_like(std::string_view text, std::string_view old, std::string_view line_end) {
  const bool one_line = std::none_of(text.begin(), text.end(), is_control_but_tab);
  const bool many_lines = std::none_of(text.begin(), text.end(), is_control_in_lines);
  const bool no_quote = text.find('\'') == std::string_view::npos;
  if (old.starts_with("'''") && many_lines && no_quote) {
    return fmt::format("'''{}{}'''", first_line_end(old, text, line_end),
                       with_line_ends(text, line_end));
  }
  const bool has_lines = text.find('\n') != std::string_view::npos;
  if (old.starts_with("\"\"\"") || (old.starts_with("'''") && has_lines)) {
    return in_three_quotes(text, old, line_end);
  }
  if (old.starts_with('\'') && one_line && no_quote) return fmt::format("'{}'", text);
  return in_double_quotes(text);
}

/// Without an exponent as long as that is readable.
std::string number_like(double number) {
  if (number == 0) return "0";
  const double size = std::abs(number);
  if (size >= 1e15 || size < 1e-6) return fmt::format("{}", number);
  std::string digits = fmt::format("{:.15f}", number);
  for (int places = 0; places <= 15; ++places) {
    std::string shorter = fmt::format("{:.{}f}", number, places);
    if (read_number(shorter) == number) return shorter;
  }
  return digits;
}

std::string list_like(const List& list, std::string_view old, std::string_view line_end) {
  std::string inside;
  for (const Node& item : list) {
    if (!inside.empty()) inside += ", ";
    inside += toml_value(item, {}, line_end);
  }
  const bool spaced = old.starts_with("[ ") && !inside.empty();
  return spaced ? "[ " + inside + " ]" : "[" + inside + "]";
}

std::string table_like(const Table& table, std::string_view old, std::string_view line_end) {
  std::string inside;
  for (const Entry& entry : table) {
    if (!inside.empty()) inside += ", ";
    inside += toml_key(entry.key) + " = " + toml_value(entry.value, {}, line_end);
  }
  const bool close = old.size() > 2 && old.starts_with('{') && !old.starts_with("{ ");
  return close || inside.empty() ? "{" + inside + "}" : "{ " + inside + " }";
}

std::optional<std::string> fault_at_depth(const Node& value, int depth) {
  if (depth > deepest_toml) return fmt::format("lies more than {} deep in others", deepest_toml);
  if (value.number() && !std::isfinite(*value.number())) {
    return "is not a number that can be measured";
  }
  if (value.text()) return fault_of_text(*value.text());
  if (value.list()) {
    for (const Node& item : *value.list()) {
      if (auto fault = fault_at_depth(item, depth + 1)) return fault;
    }
  }
  if (value.table()) {
    for (const Entry& entry : *value.table()) {
      if (auto fault = fault_of_text(entry.key)) return fault;
      if (auto fault = fault_at_depth(entry.value, depth + 1)) return fault;
    }
  }
  return std::nullopt;
}

}  // namespace

std::string toml_value(const Node& value, std::string_view old, std::string_view line_end) {
  if (value.text()) return text_like(*value.text(), old, line_end);
  if (value.number()) return number_like(*value.number());
  if (value.flag()) return *value.flag() ? "true" : "false";
  if (value.list()) return list_like(*value.list(), old, line_end);
  return table_like(*value.table(), old, line_end);
}

std::string toml_key(std::string_view key) {
  const bool bare = !key.empty() && std::all_of(key.begin(), key.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
           c == '-';
  });
  return bare ? std::string(key) : in_double_quotes(key);
}

std::optional<std::string> fault_of_value(const Node& value) { return fault_at_depth(value, 0); }

std::optional<std::string> fault_of_text(std::string_view text) {
  if (text.find('\0') != std::string_view::npos) return "holds a NUL character";
  for (std::string_view rest = text; !rest.empty();) {
    const std::size_t length = utf8_length(rest);
    if (length == 0) return "is not UTF-8 text";
    rest.remove_prefix(length);
  }
  return std::nullopt;
}

}  // namespace quoin::game
