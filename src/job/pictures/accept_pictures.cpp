#include "job/pictures/accept_pictures.h"

#include <fmt/format.h>

#include <algorithm>

#include "job/trace/rename_pictures.h"

namespace quoin::job {
namespace {

constexpr int most_numbers_tried = 10'000;
constexpr std::string_view art_folder = "art/", changes_column = "changes";

std::string stem_of(const std::string& path) {
  const std::size_t dot = path.rfind('.'), slash = path.rfind('/');
  const std::size_t name = slash == std::string::npos ? 0 : slash + 1;
  return dot != std::string::npos && dot > name ? path.substr(0, dot) : path;
}

std::string file_name_of(const std::string& path) { return path.substr(path.rfind('/') + 1); }

/// What stands behind the original's name, and the ending.
struct Tail {
  std::string_view word, ending;
};
Tail tail_of(MadeBy how) {
  switch (how) {
    case MadeBy::redrawing:
      return {"", ".svg"};
    case MadeBy::straightening:
      return {"-straight", ".png"};
    case MadeBy::splitting:
      return {"", ".png"};
    case MadeBy::cutting_out:
      return {"-cut-out", ".png"};
    case MadeBy::recolouring:
      break;
  }
  return {"-colours", ".png"};
}

bool is_svg(const Bytes& bytes) { return bytes.find("<svg") != Bytes::npos; }

class Accepter {
 public:
  Accepter(const World& world, const game::Game& game, const Accepting& accepting,
           const ShownPictures& shown)
      : world_(world), game_(game), asked_(accepting), shown_(shown) {}

  Acceptance run() {
    name();
    if (accepted_.names.empty()) return std::move(accepted_);
    accepted_.label = accepted_.names.size() == 1
                          ? fmt::format("the source of {}", file_name_of(accepted_.names[0]))
                          : fmt::format("the sources of {} pictures", accepted_.names.size());
    sources();
    if (asked_.instead == Instead::yes && accepted_.names.size() == 1) show_instead();
    return std::move(accepted_);
  }

 private:
  void name() {
    const std::string stem = stem_of(asked_.original);
    Tail tail = tail_of(asked_.how);
    const bool is_drawing = asked_.how == MadeBy::recolouring && !asked_.pictures.empty() &&
                            is_svg(asked_.pictures.begin()->second->bytes);
    if (is_drawing) tail.ending = ".svg";
    const bool numbered = asked_.how == MadeBy::splitting;
    int number = 0;
    for (const auto& [place, picture] : asked_.pictures) {
      number = numbered ? std::max(number, static_cast<int>(place)) + 1 : 1;
      for (; number <= most_numbers_tried; ++number) {
        const std::string again = numbered || number > 1 ? fmt::format("-{}", number) : "";
        const std::string file = fmt::format("{}{}{}{}", stem, tail.word, again, tail.ending);
        if (!is_free(file, picture->bytes)) continue;
        accepted_.files[file] = picture->bytes;
        accepted_.names.push_back(file);
        break;
      }
    }
  }

  /// The very same file is left alone when it is written.
  bool is_free(const std::string& file, const Bytes& bytes) const {
    if (accepted_.files.contains(file)) return false;
    const ReadAnswer there = world_.read(file, largest_file);
    return there.ok() ? *there.bytes == bytes : there.failure == ReadFailure::missing;
  }

  void sources() {
    const game::Sources& sources = game_.sources;
    const game::SourceRow* row = game::source_of(sources, asked_.original);
    if (row == nullptr) return;
    for (const std::string& file : accepted_.names) {
      if (!sources.by_path.contains(file)) accepted_.changes.emplace_back(row_for(file, *row));
    }
    if (accepted_.changes.empty() || !sources.names.changes.empty()) return;
    game::EditColumn column;
    column.file = game::sources_file;
    column.column = changes_column;
    accepted_.changes.insert(accepted_.changes.begin(), std::move(column));
  }

  [[nodiscard]] game::EditRow row_for(const std::string& file, const game::SourceRow& row) const {
    game::EditRow add;
    add.file = game::sources_file;
    const auto put = [&](const std::string& column, const std::string& text) {
      if (!column.empty() && !text.empty()) add.values[column] = text;
    };
    const game::Sources::Names& names = game_.sources.names;
    const bool written_whole = row.file.text.starts_with(art_folder);
    put(names.file,
        file.starts_with(art_folder) && !written_whole ? file.substr(art_folder.size()) : file);
    put(names.author, row.author.text);
    put(names.source, row.source.text);
    put(names.licence, row.licence.text);
    const std::string done =
        fmt::format("{} from {}", done_to_it(asked_.how), file_name_of(asked_.original));
    put(names.changes.empty() ? std::string(changes_column) : names.changes,
        row.changes.text.empty() ? done : row.changes.text + "; " + done);
    return add;
  }

  void show_instead() {
    const std::string& fresh = accepted_.names[0];
    std::vector<std::string> used;
    for (const auto& [path, unused] : shown_) used.push_back(path);
    const Renaming renaming = rename_pictures(world_, game_, {{asked_.original, fresh}}, used);
    if (!renaming.changes.empty()) {
      accepted_.label =
          fmt::format("use {} instead of {}", file_name_of(fresh), file_name_of(asked_.original));
    }
    for (const game::Change& change : renaming.changes) accepted_.changes.push_back(change);
    const auto here = shown_.find(asked_.original);
    if (!renaming.held.empty() && here != shown_.end()) held(here->second, fresh);
  }

  void held(const ShownPicture& original, const std::string& fresh) {
    Diagnostic still(Id::trace_name_composed, {FileName(asked_.original)},
                     fmt::format("{} was {} as {}, but the original is still shown",
                                 asked_.original, done_to_it(asked_.how), fresh));
    if (original.within.empty()) {
      still.detail("a layout makes its name from a pattern that makes no such other name")
          .hint("write whole file names into a column of the list and use that in the layout");
    } else {
      still.detail(fmt::format("{} shows it inside", original.within.front()))
          .hint(fmt::format("put the new one into {} with the program that drew it",
                            original.within.front()));
    }
    accepted_.found.push_back(std::move(still));
  }

  const World& world_;
  const game::Game& game_;
  const Accepting& asked_;
  const ShownPictures& shown_;
  Acceptance accepted_;
};

}  // namespace

Acceptance accept_pictures(const World& world, const game::Game& game, const Accepting& accepting,
                           const ShownPictures& shown) {
  return Accepter(world, game, accepting, shown).run();
}

}  // namespace quoin::job
