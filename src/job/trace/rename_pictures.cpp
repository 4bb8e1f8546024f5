#include "job/trace/rename_pictures.h"

#include <algorithm>
#include <set>

#include "game/toml_file.h"

namespace quoin::job {
namespace {

std::string ending_of(const std::string& path) {
  const std::size_t dot = path.rfind('.'), slash = path.rfind('/');
  const bool has_one = dot != std::string::npos && (slash == std::string::npos || dot > slash);
  return has_one ? path.substr(dot) : "";
}

std::string name_in(const std::string& path) { return path.substr(path.rfind('/') + 1); }

class Renamer {
 public:
  Renamer(const World& world, const game::Game& game, const NewNames& names,
          const std::vector<std::string>& used)
      : world_(world), game_(game), names_(names), used_(used) {}

  Renaming run() {
    std::set<std::string> files{"game.toml"};
    for (const std::string& path : world_.files_below("layouts")) {
      if (path.ends_with(".toml")) files.insert(path);
    }
    for (const game::Layout& layout : game_.layouts) {
      files.insert(layout.file.str());
      for (const game::Element& each : layout.elements) files.insert(each.origin.file.str());
    }
    for (const std::string& file : files) toml(file);
    cells();
    rules();
    for (const auto& [old, unused] : names_) {
      if (!named_.contains(old)) renaming_.held.push_back(old);
    }
    return std::move(renaming_);
  }

 private:
  /// The new text for one that names a picture: its whole path, or the end of it that holds the
  /// file's name, when only that picture can be meant.
  std::optional<std::string> renamed(const std::string& text) {
    if (text.empty() || ending_of(text).empty()) return std::nullopt;
    const auto means = [&](const std::string& path) {
      return path == text || path.ends_with("/" + text);
    };
    const bool another = std::any_of(used_.begin(), used_.end(), [&](const std::string& path) {
      return means(path) && !names_.contains(path);
    });
    if (another) return std::nullopt;
    std::optional<std::string> result;
    for (const auto& [old, fresh] : names_) {
      if (!means(old)) continue;
      named_.insert(old);
      result = text.substr(0, text.size() - name_in(old).size()) + name_in(fresh);
    }
    return result;
  }

  /// The new text of a pattern with placeholders, when all pictures that it makes are renamed.
  std::optional<std::string> renamed_pattern(const std::string& text) {
    const std::size_t open = text.find('{'), close = text.rfind('}');
    if (open == std::string::npos || close == std::string::npos || close < open) {
      return std::nullopt;
    }
    const std::string before = text.substr(0, open), after = text.substr(close + 1);
    if (ending_of(after).empty() || ending_of(after) == ".svg") return std::nullopt;
    const auto makes = [&](const std::string& path) {
      return path.size() >= before.size() + after.size() && path.starts_with(before) &&
             path.ends_with(after);
    };
    std::string ending;
    for (const std::string& path : used_) {
      if (!makes(path)) continue;
      const auto found = names_.find(path);
      if (found == names_.end()) return std::nullopt;
      ending = ending_of(found->second);
      const std::string stem = path.substr(0, path.size() - ending_of(path).size());
      if (stem + ending != found->second) return std::nullopt;  // its pattern makes no such name
    }
    if (ending.empty()) return std::nullopt;
    for (const auto& [old, unused] : names_) {
      if (makes(old)) named_.insert(old);
    }
    return text.substr(0, text.size() - ending_of(after).size()) + ending;
  }

  void toml(const std::string& file) {
    const ReadAnswer answer = world_.read(file, game::largest_toml);
    if (!answer.ok()) return;
    const auto table = game::read_toml(*answer.bytes, FileName(file));
    if (!table) return;
    file_ = file;
    for (const game::Entry& entry : *table) walk(entry.value, {entry.key});
  }

  void walk(const game::Node& node, const game::ValuePath& path) {
    if (const std::string* text = node.text()) {
      auto fresh = renamed(*text);
      if (!fresh) fresh = renamed_pattern(*text);
      if (fresh) renaming_.changes.push_back(game::SetValue{file_, path, game::Node{{}, *fresh}});
      return;
    }
    const auto deeper = [&](const game::Node& inner, game::PathStep step) {
      game::ValuePath further = path;
      further.push_back(std::move(step));
      walk(inner, further);
    };
    if (const game::List* list = node.list()) {
      for (std::size_t i = 0; i < list->size(); ++i) deeper((*list)[i], i);
    } else if (const game::Table* table = node.table()) {
      for (const game::Entry& entry : *table) deeper(entry.value, entry.key);
    }
  }

  void cells() {
    for (const game::Card& card : game_.cards) {
      for (std::size_t i = 0; i < card.cells.size() && i < game_.columns.size(); ++i) {
        const auto fresh = renamed(card.cells[i].text);
        if (!fresh) continue;
        game::SetCell change;
        change.file = card.origin.file.str();
        change.row = static_cast<std::size_t>(card.number - 1);
        change.id = card.id;
        change.column = game_.columns[i].text;
        change.text = *fresh;
        renaming_.changes.push_back(std::move(change));
      }
    }
  }

  /// Pictures of the rules: `![words](art/crab.png "title")`, or with <art/crab.png>.
  void rules() {
    if (!game_.rules || !game_.rules->text) return;
    const std::string& text = *game_.rules->text;
    std::string fresh;
    std::size_t copied = 0;
    for (std::size_t at = text.find("]("); at != std::string::npos; at = text.find("](", at + 2)) {
      std::size_t from = at + 2;
      const bool is_bracketed = from < text.size() && text[from] == '<';
      if (is_bracketed) ++from;
      const std::size_t to = text.find_first_of(is_bracketed ? ">\n" : " \t\n)\"", from);
      if (to == std::string::npos) break;
      const auto found = names_.find(normal_path(text.substr(from, to - from)));
      if (found == names_.end()) continue;
      named_.insert(found->first);
      fresh += text.substr(copied, from - copied) + found->second;
      copied = to;
    }
    if (copied == 0) return;
    renaming_.changes.push_back(
        game::EditText{game_.rules->file.str(), fresh + text.substr(copied)});
  }

  const World& world_;
  const game::Game& game_;
  const NewNames& names_;
  const std::vector<std::string>& used_;
  std::string file_;
  std::set<std::string> named_;
  Renaming renaming_;
};

}  // namespace

Renaming rename_pictures(const World& world, const game::Game& game, const NewNames& names,
                         const std::vector<std::string>& used) {
  return Renamer(world, game, names, used).run();
}

}  // namespace quoin::job
