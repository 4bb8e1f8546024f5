#include "game/json_text.h"

#include <fmt/format.h>

#include "game/words.h"

namespace quoin::game::json {

std::string text(std::string_view value) {
  std::string quoted = "\"";
  for (const char c : value) {
    if (c == '"' || c == '\\')
      quoted += std::string("\\") + c;
    else if (static_cast<unsigned char>(c) < 0x20)
      quoted += fmt::format("\\u{:04x}", c);
    else
      quoted += c;
  }
  return quoted + "\"";
}

std::string number(double value) { return number_text(value); }

std::string list(const std::vector<std::string>& items) {
  return fmt::format("[{}]", fmt::join(items, ","));
}

std::string object(const Members& members) {
  std::string all;
  for (const auto& [name, value] : members) {
    if (!all.empty()) all += ',';
    all += text(name) + ":" + value;
  }
  return "{" + all + "}";
}

std::string indented(std::string_view value) {
  std::string made;
  std::size_t depth = 0;
  bool in_text = false;
  const auto new_line = [&] { made += "\n" + std::string(depth * 2, ' '); };
  for (std::size_t i = 0; i < value.size(); ++i) {
    const char c = value[i];
    if (in_text) {
      made += c;
      if (c == '\\')
        made += value[++i];
      else if (c == '"')
        in_text = false;
      continue;
    }
    const bool empty = i + 1 < value.size() && (value[i + 1] == '}' || value[i + 1] == ']');
    if (c == '}' || c == ']') {
      --depth;
      if (!made.ends_with('{') && !made.ends_with('[')) new_line();
    }
    made += c;
    in_text = c == '"';
    if (c == ':') made += ' ';
    if (c == '{' || c == '[') ++depth;
    if (c == ',' || ((c == '{' || c == '[') && !empty)) new_line();
  }
  return made + "\n";
}

}  // namespace quoin::game::json
