#include "game/edit/toml_blocks.h"

#include <algorithm>

#include "game/words.h"

namespace quoin::game {
namespace {

std::string_view line_at(std::string_view text, std::size_t start) {
  return text.substr(start, next_line(text, start) - start);
}

bool is_empty_line(std::string_view text, std::size_t start) {
  return trimmed(line_at(text, start)).empty();
}

std::size_t past_empty_lines(std::string_view text, std::size_t at) {
  while (at < text.size() && is_empty_line(text, at)) at = next_line(text, at);
  return at;
}

std::size_t before_empty_lines(std::string_view text, std::size_t at) {
  while (at > text_start(text)) {
    const std::size_t start = line_start(text, at - 1);
    if (!is_empty_line(text, start)) break;
    at = start;
  }
  return at;
}

/// Without the end of the line above: for the last lines of a file that ends without one.
std::size_t before_line_end(std::string_view text, std::size_t at) {
  if (at > 0 && text[at - 1] == '\n') --at;
  if (at > 0 && text[at - 1] == '\r') --at;
  return at;
}

bool ends_open(std::string_view text) { return !text.empty() && !text.ends_with('\n'); }

/// Whether blocks of this list have empty lines between them.
bool are_spaced(std::string_view text, const std::vector<Block>& blocks) {
  if (blocks.size() < 2) {
    const std::size_t at = blocks[0].at.from;
    return at <= text_start(text) || is_empty_line(text, line_start(text, at - 1));
  }
  return is_empty_line(text, blocks[0].at.to);
}

}  // namespace

std::size_t with_remarks(const TomlSource& source, const Statement& statement) {
  const std::string_view text = source.text();
  const std::ptrdiff_t index = &statement - source.statements().data();
  const std::size_t lowest = index == 0 ? text_start(text) : (&statement - 1)->lines.to;
  std::size_t at = statement.lines.from;
  while (at > lowest) {
    const std::size_t start = line_start(text, at - 1);
    if (!trimmed(line_at(text, start)).starts_with('#')) break;
    at = start;
  }
  return at == text_start(text) ? statement.lines.from : at;
}

std::vector<Block> runs_of(const TomlSource& source, const ValuePath& path) {
  std::vector<Block> runs;
  const Statement* last = nullptr;
  for (const Statement* each : statements_under(source, path)) {
    if (!last || each != last + 1) {
      const bool is_entry = each->kind == Statement::Kind::entry;
      runs.push_back({{is_entry ? each->lines.from : with_remarks(source, *each), 0}});
    }
    runs.back().at.to = each->lines.to;
    last = each;
  }
  return runs;
}

std::vector<Block> blocks_of(const TomlSource& source, const ValuePath& list) {
  std::vector<Block> blocks;
  for (const Statement& each : source.statements()) {
    if (each.kind != Statement::Kind::list_heading || each.path.size() != list.size() + 1 ||
        !begins_with(each.path, list)) {
      continue;
    }
    const std::vector<Block> runs = runs_of(source, each.path);
    blocks.push_back({runs.front().at, runs.size() == 1});
  }
  return blocks;
}

Splice take_lines(std::string_view text, Stretch lines) {
  if (lines.to == text.size() && ends_open(text)) lines.from = before_line_end(text, lines.from);
  return {lines, ""};
}

Splice take_block(std::string_view text, Stretch block) {
  const std::size_t below = past_empty_lines(text, block.to);
  const bool is_spaced =
      block.from <= text_start(text) || before_empty_lines(text, block.from) != block.from;
  // The empty lines below part what stands above from what follows.
  if (below < text.size()) return {{block.from, is_spaced ? below : block.to}, ""};
  return take_lines(text, {before_empty_lines(text, block.from), block.to});
}

Splice put_lines(std::string_view text, std::size_t at, std::string lines) {
  const std::string end(line_end_of(text));
  if (at == text.size() && ends_open(text) && at > text_start(text)) return {{at, at}, end + lines};
  return {{at, at}, lines + end};
}

Splice put_block(std::string_view text, const std::vector<Block>& blocks, std::size_t index,
                 std::string block) {
  const std::string gap(are_spaced(text, blocks) ? line_end_of(text) : "");
  if (index < blocks.size()) {
    const std::size_t at = blocks[index].at.from;
    return {{at, at}, block + std::string(line_end_of(text)) + gap};
  }
  return put_lines(text, blocks.back().at.to, gap + block);
}

Splice put_block_after(std::string_view text, std::size_t at, std::string block) {
  const bool is_first = at <= text_start(text);
  const bool spaced =
      is_first || (at == text.size() && is_empty_line(text, line_start(text, at - 1)));
  return put_lines(text, at, std::string(spaced ? "" : line_end_of(text)) + block);
}

std::string without_last_end(std::string_view lines) {
  if (lines.ends_with('\n')) lines.remove_suffix(1);
  if (lines.ends_with('\r')) lines.remove_suffix(1);
  return std::string(lines);
}

}  // namespace quoin::game
