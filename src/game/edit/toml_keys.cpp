#include "game/edit/toml_keys.h"

#include <algorithm>
#include <optional>

#include "game/edit/toml_write.h"
#include "game/words.h"

namespace quoin::game {
namespace {

using Kind = Statement::Kind;

/// The entries directly below one heading, or those at the top of the file.
struct EntrySection {
  const Statement* heading = nullptr;
  std::vector<const Statement*> entries;
};

EntrySection section_from(const TomlSource& source, const Statement* heading) {
  EntrySection made{heading, {}};
  const std::vector<Statement>& all = source.statements();
  const auto first = heading ? heading - all.data() + 1 : 0;
  for (auto at = all.begin() + first; at != all.end() && at->kind == Kind::entry; ++at) {
    made.entries.push_back(&*at);
  }
  return made;
}

const Statement* heading_of(const TomlSource& source, const ValuePath& table) {
  for (const Statement& each : source.statements()) {
    if (each.kind != Kind::entry && each.path == table) return &each;
  }
  return nullptr;
}

/// How entries are spaced: what stands before the key, and between key and value.
struct EntryStyle {
  std::string indent;
  std::string before = " ", after = " ";  ///< round the '='
  std::size_t column = 0;                 ///< of the '=' when all stand below each other
};

std::string_view between(std::string_view text, const Statement& entry) {
  return text.substr(entry.key_at.to, entry.value.at.from - entry.key_at.to);
}

std::size_t equals_column(std::string_view text, const Statement& entry) {
  const std::size_t equals = entry.key_at.to + between(text, entry).find('=');
  return characters(text.substr(entry.lines.from, equals - entry.lines.from));
}

EntryStyle style_of(std::string_view text, const std::vector<const Statement*>& entries) {
  EntryStyle style;
  if (entries.empty()) return style;
  const Statement& last = *entries.back();
  const std::string_view around = between(text, last);
  const std::size_t equals = around.find('=');
  style.indent = text.substr(last.lines.from, last.key_at.from - last.lines.from);
  style.before = around.substr(0, equals);
  style.after = around.substr(equals + 1);
  const std::size_t column = equals_column(text, last);
  bool same = entries.size() > 1, differ = false;
  for (const Statement* each : entries) {
    same = same && equals_column(text, *each) == column;
    differ = differ || each->key_at.size() != last.key_at.size();
  }
  if (same && differ) style.column = column;
  return style;
}

EntryStyle style_of(const TomlSource& source, const EntrySection& section) {
  if (!section.entries.empty()) return style_of(source.text(), section.entries);
  EntryStyle style;
  for (const Statement& each : source.statements()) {
    if (each.kind != Kind::entry) continue;
    style = style_of(source.text(), {&each});
    break;
  }
  style.indent.clear();
  if (section.heading) {
    const Stretch lead{section.heading->lines.from, section.heading->key_at.from};
    style.indent = part(source.text(), lead);
  }
  return style;
}

std::string entry_line(const EntryStyle& style, const std::string& key, const std::string& value) {
  std::string line = style.indent + key;
  const std::size_t width = characters(line);
  if (style.column > width)
    line += std::string(style.column - width, ' ');
  else if (style.column > 0)
    line += ' ';
  else
    line += style.before;
  return line + "=" + style.after + value;
}

Splice add_to_section(const TomlSource& source, const EntrySection& section, const std::string& key,
                      const std::string& value) {
  const std::string line = entry_line(style_of(source, section), key, value);
  const Statement* above = section.entries.empty() ? section.heading : section.entries.back();
  return put_lines(source.text(), above->lines.to, line);
}

/// The first entry of a file that begins with a heading.
Splice add_at_top(const TomlSource& source, const EntrySection& top, const std::string& key,
                  const std::string& value) {
  const std::string_view text = source.text();
  const std::string line = entry_line(style_of(source, top), key, value);
  if (source.statements().empty()) return put_lines(text, text.size(), line);
  const std::size_t at = with_remarks(source, source.statements().front());
  const std::string end(line_end_of(text));
  return {{at, at}, line + end + end};
}

/// The last entry `a.b = …` that makes the table `a`; the section may be any above it.
const Statement* dotted_entry(const TomlSource& source, const ValuePath& table) {
  const Statement* found = nullptr;
  for (const Statement& each : source.statements()) {
    if (each.kind == Kind::entry && begins_with(each.path, table) &&
        each.path.size() - each.key_parts < table.size()) {
      found = &each;
    }
  }
  return found;
}

/// The lines of a table without its heading; what must be blocks of its own comes behind.
std::string body_lines(const TomlSource& source, const std::string& name, const Table& table) {
  const std::string end(line_end_of(source.text()));
  const EntryStyle style = style_of(source, EntrySection{});
  std::string lines, blocks;
  for (const Entry& entry : table) {
    const List* list = entry.value.list();
    const bool of_tables =
        list && !list->empty() &&
        std::all_of(list->begin(), list->end(), [](const Node& item) { return item.table(); });
    if (!of_tables) {
      lines += end + entry_line(style, toml_key(entry.key), toml_value(entry.value, {}, end));
      continue;
    }
    for (const Node& item : *list) {
      blocks += end + end +
                section_lines(source, name + "." + toml_key(entry.key), Kind::list_heading,
                              *item.table());
    }
  }
  return lines + blocks;
}

}  // namespace

std::string dotted(const ValuePath& path) {
  std::string name;
  for (const PathStep& step : path) {
    const auto* key = std::get_if<std::string>(&step);
    if (!key) continue;
    if (!name.empty()) name += '.';
    name += toml_key(*key);
  }
  return name;
}

std::string section_lines(const TomlSource& source, const std::string& name, Statement::Kind kind,
                          const Table& table) {
  const bool is_item = kind == Kind::list_heading;
  return (is_item ? "[[" + name + "]]" : "[" + name + "]") + body_lines(source, name, table);
}

Splice add_entry(const TomlSource& source, const ValuePath& table, const std::string& key,
                 const std::string& value) {
  const std::string name = toml_key(key);
  if (table.empty()) {
    const EntrySection top = section_from(source, nullptr);
    return top.entries.empty() ? add_at_top(source, top, name, value)
                               : add_to_section(source, top, name, value);
  }
  if (const Statement* heading = heading_of(source, table)) {
    return add_to_section(source, section_from(source, heading), name, value);
  }
  if (const Statement* near = dotted_entry(source, table)) {
    const auto own =
        table.begin() + static_cast<std::ptrdiff_t>(near->path.size() - near->key_parts);
    const std::string full = dotted({own, table.end()}) + "." + name;
    const std::string line = entry_line(style_of(source.text(), {near}), full, value);
    return put_lines(source.text(), near->lines.to, line);
  }
  const std::string end(line_end_of(source.text()));
  const std::vector<const Statement*> below = statements_under(source, table);
  const std::string lines =
      "[" + dotted(table) + "]" + end + entry_line(style_of(source, EntrySection{}), name, value);
  if (below.empty()) return put_block_after(source.text(), source.text().size(), lines);
  const std::size_t at = with_remarks(source, *below.front());
  return {{at, at}, lines + end + end};
}

bool wants_heading(const TomlSource& source, const ValuePath& table) {
  if (table.empty()) return true;
  const std::vector<Statement>& all = source.statements();
  return std::any_of(all.begin(), all.end(), [&](const Statement& each) {
    return each.kind == Kind::heading && each.path.size() == table.size() + 1 &&
           begins_with(each.path, table);
  });
}

Splice add_behind(const TomlSource& source, const ValuePath& table, std::string lines) {
  const std::string_view text = source.text();
  const std::vector<const Statement*> all = statements_under(source, table);
  const std::size_t at = all.empty() || table.empty() ? text.size() : all.back()->lines.to;
  return put_block_after(text, at, std::move(lines));
}

}  // namespace quoin::game
