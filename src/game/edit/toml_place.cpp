#include <fmt/format.h>

#include "game/edit/toml_blocks.h"
#include "game/edit/toml_edit.h"

namespace quoin::game {
namespace {

/// The lines or the value that stand for a path; nothing when several headings make it.
std::optional<Stretch> stretch_of(const TomlText& text, const ValuePath& path) {
  if (const auto found = find_value(text.source, path)) return found->value->at;
  if (path.empty()) return std::nullopt;
  const std::vector<Block> runs = runs_of(text.source, path);
  if (runs.size() != 1) return std::nullopt;
  return runs[0].at;
}

}  // namespace

std::string written_at(const TomlText& text, const ValuePath& path) {
  const std::optional<Stretch> at = stretch_of(text, path);
  return at ? without_last_end(part(text.text, *at)) : std::string{};
}

Origin place_of(const TomlText& text, const ValuePath& path) {
  for (ValuePath way = path;; way.pop_back()) {
    if (const auto found = find_value(text.source, way)) {
      return origin_at(text.text, found->value->at, text.file);
    }
    if (way.empty()) break;
    const std::vector<const Statement*> below = statements_under(text.source, way);
    if (!below.empty()) return origin_at(text.text, below.front()->key_at, text.file);
  }
  return {text.file};
}

std::string words_of(const ValuePath& path) {
  std::string words;
  for (const PathStep& step : path) {
    if (const auto* key = std::get_if<std::string>(&step)) {
      words += (words.empty() ? "" : ", ") + *key;
    } else {
      words += fmt::format(" {}", std::get<std::size_t>(step) + 1);
    }
  }
  return words.empty() ? "the file" : words;
}

}  // namespace quoin::game
