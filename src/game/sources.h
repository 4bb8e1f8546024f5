#pragma once
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "base/world.h"
#include "game/licences.h"

namespace quoin::game {

struct Game;

/// Where the list of sources lies in a game folder.
inline constexpr const char* sources_file = "art/sources.csv";

/// A cell of the list with its place; a column that is not there gives empty cells at the row.
struct SourceCell {
  std::string text;  ///< without spaces round it
  Origin origin;
};

/// A row of the list: where one file, or all that a pattern takes, came from.
struct SourceRow {
  std::size_t row = 0;  ///< among the rows of the list that are not empty, from 0
  std::string path;     ///< from the game folder; may hold `*` for any letters
  SourceCell file;      ///< as the maker wrote it
  SourceCell author, source, licence, changes;
  [[nodiscard]] bool is_pattern() const { return path.find('*') != std::string::npos; }
};

/// `art/sources.csv` as it was read.
struct Sources {
  bool is_there = false;
  /// What the maker calls the columns; "" for those that are not there.
  struct Names {
    std::string file, author, source, licence, changes;
  } names;
  std::vector<SourceRow> rows;
  std::map<std::string, std::size_t, std::less<>> by_path;  ///< rows that name a file, the first
  std::vector<std::size_t> patterns;                        ///< rows with `*`, at most 500
};

/// Reads the list of sources. Columns stand in any order and may be missing; those named `file`,
/// `author` (or `made_by`), `source`, `licence` (or `license`) and `changes` count, others are the
/// maker's own. Files are named from the list's own folder or from the game's; `finds/*` or
/// `finds/` stands for all below. Never fails; finds, all as notes: `share.sources-table` and what
/// `read_csv` says, `share.row-without-file`, `share.unknown-licence` for words that are no
/// licence, and `share.no-source-row` for pictures in art/ without a row when there is a list.
[[nodiscard]] Checked<Sources> read_sources(const World& world);

/// The row for a file: one that names it, else the longest pattern that takes it, else null.
[[nodiscard]] const SourceRow* source_of(const Sources& sources, std::string_view path);

/// What stands against giving a file on.
struct Hindrance {
  Id id;
  Origin origin;
  std::string message;  ///< one sentence
  std::vector<std::string> hints;
};
/// Nothing when the row lets the file be given on. `asked`: the maker has whoever made it asked,
/// after which only a missing author counts.
enum class Asked { no, yes };
[[nodiscard]] std::optional<Hindrance> hindrance(const Sources& sources, const std::string& path,
                                                 Asked asked);

/// Lines that say who made what, for people: who made the game, then a line for each author and
/// licence with the files, where they came from and what was changed. `files` are those that are
/// used; a file without a row is left out. `asked` are those that the maker was allowed to give on.
[[nodiscard]] std::vector<std::string> credits(const Game& game,
                                               const std::vector<std::string>& files,
                                               const std::set<std::string>& asked = {});
/// The same for all that the list names.
[[nodiscard]] std::vector<std::string> credits(const Game& game);

/// A first list for pictures of which nothing is known yet: a row for each, to be filled in.
[[nodiscard]] std::string sources_to_fill_in(const std::vector<std::string>& files);

/// True when the file's ending is that of a picture.
[[nodiscard]] bool is_picture_file(std::string_view path);

}  // namespace quoin::game
