#include "game/sources.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <utility>

#include "game/csv.h"
#include "game/game.h"
#include "game/words.h"

namespace quoin::game {
namespace {

constexpr std::string_view own_folder = "art/";

/// Which column holds what; -1 for none.
struct Columns {
  int file = -1, author = -1, source = -1, licence = -1, changes = -1;
};

Columns columns_of(const Row& header) {
  Columns columns;
  const std::pair<std::string_view, int Columns::*> names[] = {
      {"file", &Columns::file},          {"picture", &Columns::file},
      {"path", &Columns::file},          {"author", &Columns::author},
      {"made_by", &Columns::author},     {"made by", &Columns::author},
      {"artist", &Columns::author},      {"source", &Columns::source},
      {"from", &Columns::source},        {"licence", &Columns::licence},
      {"license", &Columns::licence},    {"changes", &Columns::changes},
      {"change", &Columns::changes},     {"changed", &Columns::changes},
      {"change made", &Columns::changes}};
  for (std::size_t i = 0; i < header.size(); ++i) {
    const std::string name = lower_case(trimmed(header[i].text));
    for (const auto& [known, column] : names) {
      if (name == known && columns.*column < 0) columns.*column = static_cast<int>(i);
    }
  }
  return columns;
}

SourceCell cell(const Row& row, int column) {
  if (column < 0) return {{}, row.front().origin};
  const Text& text = row[static_cast<std::size_t>(column)];
  return {std::string(trimmed(text.text)), text.origin};
}

/// Whether `text` is what `pattern` says, with `*` for any letters. Steps back to the last star
/// only, so that no pattern takes more than length times length.
bool takes(std::string_view pattern, std::string_view text) {
  std::size_t p = 0, t = 0, star = std::string_view::npos, from = 0;
  while (t < text.size()) {
    if (p < pattern.size() && pattern[p] == '*') {
      star = p++;
      from = t;
    } else if (p < pattern.size() && pattern[p] == text[t]) {
      ++p;
      ++t;
    } else if (star != std::string_view::npos) {
      p = star + 1;
      t = ++from;
    } else {
      return false;
    }
  }
  while (p < pattern.size() && pattern[p] == '*') ++p;
  return p == pattern.size();
}

using FileSet = std::set<std::string, std::less<>>;

bool is_taken(const FileSet& files, const std::string& path) {
  if (path.find('*') == std::string::npos) return files.contains(path);
  return std::any_of(files.begin(), files.end(),
                     [&](const std::string& file) { return takes(path, file); });
}

/// Where a name of the list leads: from the list's folder, from the game's when only there is
/// such a file.
std::string path_of(std::string written, const FileSet& files) {
  if (written.ends_with('/')) written += '*';
  const std::string near = normal_path(std::string(own_folder) + written);
  const std::string far = normal_path(written);
  return !is_taken(files, near) && is_taken(files, far) ? far : near.empty() ? written : near;
}

class SourceReader {
 public:
  explicit SourceReader(const World& world) {
    for (std::string& file : world.files_below("")) files_.insert(std::move(file));
  }

  void read(const Bytes& bytes) {
    result_.value.is_there = true;
    Checked<CsvTable> table = read_csv(bytes, FileName(sources_file));
    for (Diagnostic& problem : table.found) note(std::move(problem));
    const Columns columns = columns_of(table.value.header);
    check_header(columns, table.value.header);
    name_columns(columns, table.value.header);
    if (columns.file < 0) return;
    for (const Row& row : table.value.rows) {
      const bool is_empty = std::all_of(
          row.begin(), row.end(), [](const Text& each) { return trimmed(each.text).empty(); });
      if (!is_empty) add(row, columns);
    }
    check_unlisted();
  }

  Checked<Sources> take() { return std::move(result_); }

 private:
  /// What is wrong with the list keeps no game from being made.
  void note(Diagnostic problem) {
    problem.severity = Severity::note;
    result_.found.push_back(std::move(problem));
  }

  void check_header(const Columns& columns, const Row& header) {
    std::vector<std::string> missing;
    const std::pair<int, const char*> wanted[] = {
        {columns.file, "file"}, {columns.author, "author"}, {columns.licence, "licence"}};
    for (const auto& [column, name] : wanted) {
      if (column < 0) missing.emplace_back(name);
    }
    if (missing.empty()) return;
    const Origin where =
        header.empty() ? Origin{FileName(sources_file), 0, 0, 0} : header.front().origin;
    note(Diagnostic(Id::share_sources_table, where,
                    fmt::format("the list of sources has no column {}", all_of(missing)))
             .hint("its first row can be: file,author,source,licence,changes"));
  }

  void name_columns(const Columns& columns, const Row& header) {
    const auto name = [&](int column) {
      return column < 0 ? std::string{} : header[static_cast<std::size_t>(column)].text;
    };
    result_.value.names = {name(columns.file), name(columns.author), name(columns.source),
                           name(columns.licence), name(columns.changes)};
  }

  void add(const Row& cells, const Columns& columns) {
    SourceRow row;
    row.row = rows_++;
    row.file = cell(cells, columns.file);
    if (row.file.text.empty()) return;
    row.path = path_of(row.file.text, files_);
    row.author = cell(cells, columns.author);
    row.source = cell(cells, columns.source);
    row.licence = cell(cells, columns.licence);
    row.changes = cell(cells, columns.changes);
    check_file(row);
    check_licence(row);
    const std::size_t at = result_.value.rows.size();
    if (row.is_pattern()) {
      if (!take_pattern(row)) return;
      result_.value.patterns.push_back(at);
    } else {
      result_.value.by_path.emplace(row.path, at);
    }
    result_.value.rows.push_back(std::move(row));
  }

  /// Each pattern is tried on every file, so there must be an end to them.
  bool take_pattern(const SourceRow& row) {
    if (result_.value.patterns.size() < most_patterns) return true;
    if (std::exchange(told_of_patterns_, true)) return false;
    note(Diagnostic(Id::share_sources_table, row.file.origin,
                    fmt::format("only the first {} names with * are read", most_patterns)));
    return false;
  }

  void check_file(const SourceRow& row) {
    if (is_taken(files_, row.path) || ++missing_ > most_told) return;
    Diagnostic problem(Id::share_row_without_file, row.file.origin,
                       fmt::format("there is no file {}", in_quotes(row.file.text)));
    std::vector<std::string> known;
    for (const std::string& file : files_) {
      if (missing_ > most_hints) break;
      if (file.starts_with(own_folder)) known.push_back(file.substr(own_folder.size()));
    }
    if (const auto meant = nearest(row.file.text, known)) {
      problem.hint(fmt::format("did you mean {}?", in_quotes(*meant)));
    }
    note(std::move(problem));
  }

  void check_licence(const SourceRow& row) {
    if (find_licence(row.licence.text)) return;
    Diagnostic problem(
        Id::share_unknown_licence, row.licence.origin,
        fmt::format("{} is no licence that is known here", in_quotes(row.licence.text)));
    if (const auto meant = nearest_licence(row.licence.text)) {
      problem.hint(fmt::format("did you mean {}?", *meant));
    } else {
      problem.hint("write an SPDX identifier, CC-BY-4.0, or one of own, permission, unknown");
    }
    note(std::move(problem));
  }

  void check_unlisted() {
    std::vector<std::string> unlisted;
    for (const std::string& file : files_) {
      if (file.starts_with(own_folder) && is_picture_file(file) &&
          source_of(result_.value, file) == nullptr) {
        unlisted.push_back(file);
      }
    }
    if (unlisted.empty()) return;
    constexpr std::size_t most = 8;
    const std::size_t named = std::min(most, unlisted.size());
    std::vector<std::string> names(unlisted.begin(),
                                   unlisted.begin() + static_cast<std::ptrdiff_t>(named));
    if (unlisted.size() > named) names.push_back(fmt::format("{} more", unlisted.size() - named));
    note(Diagnostic(Id::share_no_source_row, {FileName(sources_file), 0, 0, 0},
                    fmt::format("{} in art/ {} no row in the list of sources",
                                counted(unlisted.size(), "picture"),
                                unlisted.size() == 1 ? "has" : "have"))
             .detail(all_of(names))
             .hint("it counts when the game is given to others; quoin share asks for it"));
  }

  static constexpr std::size_t most_patterns = 500;
  static constexpr int most_told = 200, most_hints = 20;

  FileSet files_;
  Checked<Sources> result_;
  std::size_t rows_ = 0;
  int missing_ = 0;
  bool told_of_patterns_ = false;
};

bool is_own(const SourceRow& row) {
  const std::optional<Licence> licence = find_licence(row.licence.text);
  return licence && licence->id == "own";
}

Hindrance missing_row(const std::string& path) {
  const bool in_art = path.starts_with(own_folder);
  return {Id::share_no_source_row,
          {FileName(path), 0, 0, 0},
          fmt::format("nothing says where {} came from", path),
          {fmt::format("add a row to {}: {},WHO MADE IT,WHERE IT IS FROM,LICENCE,", sources_file,
                       in_art ? path.substr(own_folder.size()) : path)}};
}

Hindrance unknown_licence(const SourceRow& row, const std::string& path) {
  Hindrance why{Id::share_unknown_licence, row.licence.origin, {}, {}};
  if (find_licence(row.licence.text)) {
    why.message = fmt::format("the licence of {} is not known", path);
    why.hints.push_back(fmt::format("ask {} under which licence it may be given on",
                                    row.author.text.empty() ? "whoever made it" : row.author.text));
    return why;
  }
  why.message = fmt::format("the licence of {} is {}, which is not known here", path,
                            in_quotes(row.licence.text));
  if (const auto meant = nearest_licence(row.licence.text)) {
    why.hints.push_back(fmt::format("did you mean {}?", *meant));
  }
  return why;
}

std::optional<Hindrance> by_licence(const SourceRow& row, const std::string& path) {
  const std::optional<Licence> licence = find_licence(row.licence.text);
  if (!licence || licence->giving == Leave::not_known) return unknown_licence(row, path);
  if (licence->giving == Leave::no) {
    return Hindrance{Id::share_not_to_be_given,
                     row.licence.origin,
                     fmt::format("{} may not be given on: {}", path, licence->name),
                     {}};
  }
  if (licence->changing == Leave::no && !row.changes.text.empty()) {
    return Hindrance{Id::share_changed_against_licence,
                     row.changes.origin,
                     fmt::format("{} was changed ({}), and {} lets nobody give on what was changed",
                                 path, shortened(row.changes.text), licence->name),
                     {}};
  }
  return std::nullopt;
}

bool is_font_file(std::string_view path) {
  const std::string name = lower_case(path);
  return name.ends_with(".ttf") || name.ends_with(".otf") || name.ends_with(".ttc");
}

/// What files of one author under one licence have in common.
struct CreditKey {
  enum class Thing { picture, font } thing = Thing::picture;  // pictures come first
  std::string author, licence, source, changes;
  auto operator<=>(const CreditKey&) const = default;
};

/// "gull" of "art/finds/gull.svg", "Cabin" of "fonts/Cabin-*.otf", "finds" of "art/finds/*".
std::string name_of(const std::string& path) {
  const std::size_t star = path.find('*');
  std::string name = path.substr(0, star);
  while (star != std::string::npos && !name.empty() &&
         std::string_view("-_ ./").find(name.back()) != std::string_view::npos) {
    name.pop_back();
  }
  name.erase(0, name.rfind('/') + 1);
  return star == std::string::npos ? name.substr(0, name.rfind('.')) : name;
}

std::string credit_line(const CreditKey& key, const std::vector<std::string>& files) {
  constexpr std::size_t most = 6;
  const bool are_several = files.size() > 1 || files.front().find('*') != std::string::npos;
  std::string what = key.thing == CreditKey::Thing::font ? "font" : "picture";
  if (are_several) what += "s";
  std::vector<std::string> names;
  for (const std::string& file : files) names.push_back(name_of(file));
  std::string line = files.size() > most
                         ? fmt::format("{} {} by {}", files.size(), what, key.author)
                         : fmt::format("{} by {}: {}", what, key.author, all_of(names));
  line[0] = static_cast<char>(line[0] >= 'a' && line[0] <= 'z' ? line[0] - 32 : line[0]);
  line += ". " + key.licence + ".";
  if (!key.source.empty()) line += " From: " + key.source + ".";
  if (!key.changes.empty()) line += " Changed: " + key.changes + ".";
  return line;
}

std::string licence_words(const SourceRow& row) {
  const std::optional<Licence> licence = find_licence(row.licence.text);
  std::string words = licence ? licence->name : row.licence.text;
  if (!words.empty() && words[0] >= 'a' && words[0] <= 'z') words[0] -= 32;
  return words;
}

std::string asked_words(const SourceRow* row, bool asked) {
  if (asked) return "Used with permission";
  return row == nullptr ? "" : licence_words(*row);
}

}  // namespace

bool is_picture_file(std::string_view path) {
  constexpr std::array<std::string_view, 7> endings{".svg",  ".png", ".jpg", ".jpeg",
                                                    ".webp", ".tif", ".tiff"};
  const std::string name = lower_case(path);
  return std::any_of(endings.begin(), endings.end(),
                     [&](std::string_view ending) { return name.ends_with(ending); });
}

Checked<Sources> read_sources(const World& world) {
  const ReadAnswer answer = world.read(sources_file, largest_file);
  Checked<Sources> none;
  if (!answer.ok() && answer.failure == ReadFailure::missing) return none;
  if (!answer.ok()) {
    none.found.push_back(Diagnostic(Id::share_sources_table, {FileName(sources_file), 0, 0, 0},
                                    explain(answer, sources_file)));
    return none;
  }
  SourceReader reader(world);
  reader.read(*answer.bytes);
  return reader.take();
}

const SourceRow* source_of(const Sources& sources, std::string_view path) {
  if (const auto exact = sources.by_path.find(path); exact != sources.by_path.end()) {
    return &sources.rows[exact->second];
  }
  const SourceRow* best = nullptr;
  for (const std::size_t at : sources.patterns) {
    const SourceRow& row = sources.rows[at];
    if (!takes(row.path, path)) continue;
    if (best == nullptr || row.path.size() > best->path.size()) best = &row;
  }
  return best;
}

std::optional<Hindrance> hindrance(const Sources& sources, const std::string& path, Asked asked) {
  const SourceRow* row = source_of(sources, path);
  if (row == nullptr) {
    if (asked == Asked::yes) return std::nullopt;
    return missing_row(path);
  }
  if (asked == Asked::no) {
    if (auto why = by_licence(*row, path)) return why;
  }
  const std::optional<Licence> licence = find_licence(row->licence.text);
  const bool nobody_is_named = row->author.text.empty() ||
                               lower_case(row->author.text) == "unknown" || row->author.text == "?";
  const bool is_free = licence && (licence->id == "own" || licence->id == "public domain" ||
                                   licence->id == "CC-PDDC");
  if (!nobody_is_named || is_free || asked == Asked::yes) return std::nullopt;
  return Hindrance{Id::share_no_author,
                   row->author.origin,
                   fmt::format("nobody is named as the author of {}", path),
                   {"write who made it into the column author"}};
}

std::vector<std::string> credits(const Game& game, const std::vector<std::string>& files,
                                 const std::set<std::string>& asked) {
  std::vector<std::string> lines;
  if (!game.author.empty()) {
    lines.push_back(game.licence.empty()
                        ? fmt::format("{} by {}.", game.title, game.author)
                        : fmt::format("{} by {}. {}.", game.title, game.author, game.licence));
  }
  std::map<CreditKey, std::vector<std::string>> groups;
  for (const std::string& file : files) {
    const SourceRow* row = source_of(game.sources, file);
    const bool was_asked = asked.contains(file);
    if (row == nullptr && !was_asked) continue;
    CreditKey key;
    key.author = row == nullptr ? "" : row->author.text;
    if (key.author.empty()) {
      key.author = row != nullptr && is_own(*row) && !game.author.empty() ? game.author
                                                                          : "an unnamed author";
    }
    key.licence = asked_words(row, was_asked);
    key.source = row == nullptr ? "" : row->source.text;
    key.changes = row == nullptr ? "" : row->changes.text;
    if (is_font_file(file)) key.thing = CreditKey::Thing::font;
    groups[key].push_back(file);
  }
  for (const auto& [key, of_group] : groups) lines.push_back(credit_line(key, of_group));
  return lines;
}

std::vector<std::string> credits(const Game& game) {
  std::vector<std::string> files;
  for (const SourceRow& row : game.sources.rows) files.push_back(row.path);
  return credits(game, files);
}

std::string sources_to_fill_in(const std::vector<std::string>& files) {
  std::string text = csv_line({"file", "author", "source", "licence", "changes"});
  for (const std::string& file : files) text += csv_line({file, "", "", "unknown", ""});
  return text;
}

}  // namespace quoin::game
