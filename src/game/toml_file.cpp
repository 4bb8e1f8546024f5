#include "game/toml_file.h"

#include <fmt/format.h>
#include <toml++/toml.h>

#include <algorithm>
#include <cmath>

#include "game/encoding.h"
#include "game/toml_shape.h"
#include "game/toml_syntax.h"
#include "game/words.h"

namespace quoin::game {
namespace {

/// Turns the parser's tree into ours. Fails on the first value that has no place in a game.
class Conversion {
 public:
  Conversion(std::string_view source, FileName file) : source_(source), file_(file) {}

  Table table(const toml::table& from, int depth) {
    Table made;
    made.reserve(from.size());
    for (const auto& [key, value] : from) {
      made.push_back({std::string(key.str()), origin(key.source()), node(value, depth + 1)});
    }
    std::stable_sort(made.begin(), made.end(), [](const Entry& a, const Entry& b) {
      return comes_before(a.key_origin, b.key_origin);
    });
    return made;
  }

  [[nodiscard]] Diagnostics&& problems() { return std::move(problems_); }

 private:
  Node node(const toml::node& from, int depth) {
    const Origin where = origin(from.source());
    if (depth > deepest_toml) {
      if (problems_.empty()) problems_.push_back(too_deep(where));
      return {where, false};
    }
    switch (from.type()) {
      case toml::node_type::table:
        return {where, table(*from.as_table(), depth)};
      case toml::node_type::array:
        return {where, list(*from.as_array(), depth)};
      case toml::node_type::string:
        return {where, from.as_string()->get()};
      case toml::node_type::boolean:
        return {where, from.as_boolean()->get()};
      case toml::node_type::integer:
        return {where, static_cast<double>(from.as_integer()->get())};
      case toml::node_type::floating_point:
        return number(from.as_floating_point()->get(), where);
      default:
        return {where, written(from.source())};  // dates and times
    }
  }

  List list(const toml::array& from, int depth) {
    List made;
    made.reserve(from.size());
    for (const toml::node& value : from) made.push_back(node(value, depth + 1));
    return made;
  }

  Node number(double value, const Origin& where) {
    if (!std::isfinite(value)) {
      Diagnostic found(Id::game_out_of_range, where, "this is not a number that can be measured");
      problems_.push_back(std::move(found.hint("write an ordinary number, such as 3.5")));
    }
    return {where, value};
  }

  [[nodiscard]] Origin origin(const toml::source_region& region) const {
    Origin where{file_, region.begin.line, region.begin.column, 0};
    if (region.end.line == region.begin.line && region.end.column > region.begin.column) {
      where.length = region.end.column - region.begin.column;
    }
    return where;
  }

  /// The text of a value as the maker wrote it.
  [[nodiscard]] std::string written(const toml::source_region& region) const {
    const std::string_view rest = line_of(source_, region.begin.line);
    const std::size_t from = offset_of(rest, region.begin.column);
    const std::size_t to =
        region.end.line == region.begin.line ? offset_of(rest, region.end.column) : rest.size();
    return std::string(trimmed(rest.substr(from, to > from ? to - from : 0)));
  }

  std::string_view source_;
  FileName file_;
  Diagnostics problems_;
};

Result<Table> parse(std::string_view text, FileName file) {
  try {
    const toml::table parsed = toml::parse(text);
    Conversion conversion(text, file);
    Table table = conversion.table(parsed, 0);
    Diagnostics problems = conversion.problems();
    if (!problems.empty()) return problems;
    return table;
  } catch (const toml::parse_error& error) {
    const toml::source_position at = error.source().begin;
    return syntax_problem(text, {file, at.line, at.column, 0}, error.description());
  }
}

}  // namespace

Result<Table> read_toml(const Bytes& bytes, FileName file) {
  if (bytes.size() > largest_toml) {
    Diagnostic found(
        Id::game_too_large, {file},
        fmt::format("the file has {} bytes; at most {} are read", bytes.size(), largest_toml));
    return found.hint("move long texts into cards.csv, or split the file");
  }
  if (std::optional<Diagnostic> problem = encoding_problem(bytes, file)) return *problem;
  const std::string_view text = without_mark(bytes);
  if (const std::optional<Origin> deep = too_many_key_parts(text, file)) return too_deep(*deep);
  return parse(text, file);
}

}  // namespace quoin::game
