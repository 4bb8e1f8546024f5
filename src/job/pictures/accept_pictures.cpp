#include "job/pictures/accept_pictures.h"

#include <fmt/format.h>

#include "job/trace/rename_pictures.h"

namespace quoin::job {
namespace {

std::string path_without_ending(const std::string& path) {
  const std::size_t dot = path.rfind('.'), slash = path.rfind('/');
  const bool has_one = dot != std::string::npos && (slash == std::string::npos || dot > slash);
  return has_one ? path.substr(0, dot) : path;
}

std::string file_name_of(const std::string& path) { return path.substr(path.rfind('/') + 1); }

/// The first name of that kind that no file has.
std::string free_name(const World& world, const std::string& stem, const std::string& ending,
                      const std::map<std::string, Bytes>& taken) {
  const std::size_t dot = ending.rfind('.');
  for (int number = 1;; ++number) {
    const std::string again = number == 1 ? "" : fmt::format("-{}", number);
    std::string name = stem + ending.substr(0, dot) + again + ending.substr(dot);
    const ReadAnswer there = world.read(name, largest_file);
    if (!there.ok() && there.failure == ReadFailure::missing && !taken.contains(name)) return name;
  }
}

/// The row that says of a new picture what the list says of its original; nothing when the list
/// does not know the original, or knows the new one already.
std::optional<game::EditRow> source_row(const game::Sources& sources, const std::string& original,
                                        const std::string& fresh, const std::string& done) {
  const game::SourceRow* row = game::source_of(sources, original);
  if (row == nullptr) return std::nullopt;
  const game::SourceRow* of_fresh = game::source_of(sources, fresh);
  const bool is_told = of_fresh != nullptr && (!of_fresh->is_pattern() || row->is_pattern());
  if (is_told) return std::nullopt;
  game::EditRow add{game::sources_file, game::ListOp::add};
  const auto put = [&](const std::string& column, const std::string& text) {
    if (!column.empty() && !text.empty()) add.values[column] = text;
  };
  const game::Sources::Names& names = sources.names;
  put(names.file, fresh.starts_with("art/") ? fresh.substr(4) : fresh);
  put(names.author, row->author.text);
  put(names.source, row->source.text);
  put(names.licence, row->licence.text);
  const std::string change = fmt::format("{} from {}", done, file_name_of(original));
  put(names.changes, row->changes.text.empty() ? change : row->changes.text + "; " + change);
  return add;
}

}  // namespace

Acceptance accept_pictures(const World& world, const game::Game& game, const std::string& original,
                           const std::vector<const NewPicture*>& pictures, Instead instead,
                           const std::vector<std::string>& used) {
  Acceptance accepted;
  for (const NewPicture* picture : pictures) {
    std::string name =
        free_name(world, path_without_ending(original), picture->ending, accepted.files);
    if (auto row = source_row(game.sources, original, name, picture->done)) {
      accepted.changes.emplace_back(std::move(*row));
    }
    accepted.files[name] = picture->bytes;
    accepted.names.push_back(std::move(name));
  }
  if (accepted.names.empty()) return accepted;
  accepted.label = accepted.names.size() == 1
                       ? fmt::format("the source of {}", file_name_of(accepted.names[0]))
                       : fmt::format("the sources of {} pictures", accepted.names.size());
  if (instead == Instead::no || accepted.names.size() > 1) return accepted;
  const Renaming renaming = rename_pictures(world, game, {{original, accepted.names[0]}}, used);
  accepted.label =
      fmt::format("use {} instead of {}", file_name_of(accepted.names[0]), file_name_of(original));
  accepted.is_held = !renaming.held.empty();
  for (const game::Change& change : renaming.changes) accepted.changes.push_back(change);
  return accepted;
}

}  // namespace quoin::job
