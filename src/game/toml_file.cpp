#include "game/toml_file.h"

#include <fmt/format.h>
#include <toml++/toml.h>

#include <algorithm>
#include <cmath>

#include "game/encoding.h"
#include "game/toml_shape.h"
#include "game/toml_statements.h"
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

/// Where the parser gave up, and its own words for why.
struct Stop {
  toml::source_position at;
  std::string words;
};

Stop stop_of(const toml::parse_error& error) {
  return {error.source().begin, std::string(error.description())};
}

/// Where a text with lines taken away stops, if that is further on.
std::optional<Stop> next_stop(std::string_view text, FileName file, toml::source_position before) {
  if (too_many_key_parts(text, file)) return Stop{before, {}};
  try {
    (void)toml::parse(text);
    return std::nullopt;
  } catch (const toml::parse_error& error) {
    return stop_of(error);
  }
}

bool is_past(toml::source_position at, toml::source_position before) {
  return at.line > before.line || (at.line == before.line && at.column > before.column);
}

/// Everything wrong with a text at which the parser stopped. Each faulty statement is taken away
/// and the rest is read again. When in doubt whether a fault is one of its own or comes of an
/// earlier, nothing is said: one mistake that is shown as three sends the maker looking.
class Faults {
 public:
  Faults(std::string_view text, FileName file) : text_(text), file_(file), rest_(text) {}

  Diagnostics all(Stop stop) {
    const std::size_t tries = most_toml_bytes / std::max(text_.size(), std::size_t{1});
    for (std::size_t i = 1;; ++i) {
      const FaultyLines faulty = faulty_lines(rest_, stop.at.line);
      add(stop, faulty);
      std::optional<std::string> rest = without(rest_, faulty);
      const bool goes_on = rest && i < tries && found_.size() < most_toml_problems;
      if (!goes_on) return given_up(stop, faulty);
      rest_ = std::move(*rest);
      std::optional<Stop> next = next_stop(rest_, file_, stop.at);
      if (!next) return std::move(found_);
      if (!is_past(next->at, stop.at)) return given_up(stop, faulty);
      stop = std::move(*next);
    }
  }

 private:
  void add(const Stop& stop, const FaultyLines& faulty) {
    Diagnostic problem =
        syntax_problem(text_, {file_, stop.at.line, stop.at.column, 0}, stop.words, faulty);
    const bool is_twice = problem.id == Id::game_toml_key_twice;
    // Without the heading that could not be read, those below it can seem to be there twice.
    if (is_twice && faulty.is_heading && lost_a_heading_) return;
    lost_a_heading_ = lost_a_heading_ || (faulty.holds_headings && !is_twice);
    found_.push_back(std::move(problem));
  }

  Diagnostics given_up(const Stop& stop, const FaultyLines& faulty) {
    const bool is_more = faulty.more_follows || faulty.last > stop.at.line;
    if (is_more) found_.back().detail("what follows in this file was not looked at");
    return std::move(found_);
  }

  std::string_view text_;
  FileName file_;
  std::string rest_;
  Diagnostics found_;
  bool lost_a_heading_ = false;
};

Result<Table> parse(std::string_view text, FileName file) {
  std::optional<Stop> stop;
  try {
    const toml::table parsed = toml::parse(text);
    Conversion conversion(text, file);
    Table table = conversion.table(parsed, 0);
    Diagnostics problems = conversion.problems();
    if (!problems.empty()) return problems;
    return table;
  } catch (const toml::parse_error& error) {
    stop = stop_of(error);
  }
  return Faults(text, file).all(std::move(*stop));
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
