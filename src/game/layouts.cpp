#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "game/layout_file.h"
#include "game/reading.h"
#include "game/schema_names.h"
#include "game/toml_file.h"
#include "game/words.h"

namespace quoin::game {
namespace {

/// Elements of no known kind were reported; nothing could draw them.
void drop_without_kind(std::vector<Element>& elements) {
  std::erase_if(elements, [](const Element& one) { return one.kind.empty() || one.kind == "?"; });
  for (Element& element : elements) drop_without_kind(element.children);
}

/// What a layout is for: only on a box do elements say on which panel they are drawn, and only on a
/// mat are there places for cards.
enum class DrawnOn { cards, box, mat };

bool is_for_box(std::string_view key) {
  const std::vector<PropertyFacts>& keys = keys_of("on-box");
  return std::any_of(keys.begin(), keys.end(),
                     [&](const PropertyFacts& facts) { return facts.key == key; });
}

/// Tells of keys that have no meaning where they stand: those of the box on a card, and on a box
/// within a group, which is drawn as one.
void refuse_panels(const std::vector<Element>& elements, DrawnOn on, Findings& found) {
  for (const Element& element : elements) {
    for (const Entry& entry : element.properties) {
      if (!is_for_box(entry.key)) continue;
      Diagnostic problem(
          Id::game_unknown_key, entry.key_origin,
          on == DrawnOn::box
              ? fmt::format("{} says {}, but it lies in a group", element.id, entry.key)
              : fmt::format("{} says {}, but this layout is drawn on {}", element.id, entry.key,
                            on == DrawnOn::cards ? "cards" : "the mat"));
      found.add(problem.hint(on == DrawnOn::box
                                 ? "say it of the group"
                                 : "leave it out, or name the layout under [box] as its layout"));
    }
    refuse_panels(element.children, on, found);
  }
}

/// Tells of places for cards in a layout that is not the mat's.
void refuse_places(const std::vector<Element>& elements, Findings& found) {
  for (const Element& element : elements) {
    if (element.kind == "place") {
      Diagnostic problem(
          Id::mat_place_elsewhere, element.origin,
          fmt::format("{} is a place for cards, but this layout is not the mat's", element.id));
      found.add(problem.hint("leave it out, or name the layout under [mat] as its layout"));
    }
    refuse_places(element.children, found);
  }
}

/// Opens each layout file once and lays those that are used beneath those that use them.
class LayoutShelf {
 public:
  explicit LayoutShelf(Reading& reading) : reading_(reading) {}

  /// Adds the layout to the game unless it is there. `path` as the maker wrote it.
  void add(const std::string& path, const Origin& wanted_by, DrawnOn on = DrawnOn::cards) {
    const std::string name = normal_path(path);
    for (const Layout& layout : reading_.game.layouts) {
      if (layout.file.str() == name) return;
    }
    const LayoutFile* file = open(path, wanted_by);
    if (!file) return;
    Layout layout{file->file, {file->file, 1, 1, 0}, {}};
    std::vector<std::string> chain, taken;
    lay(*file, layout.elements, chain, taken);
    reading_.found.add(check_elements(layout.elements, reading_.names));
    check_panels(layout.elements, on);
    drop_without_kind(layout.elements);
    reading_.game.layouts.push_back(std::move(layout));
  }

 private:
  void check_panels(const std::vector<Element>& elements, DrawnOn on) {
    if (on != DrawnOn::mat) refuse_places(elements, reading_.found);
    if (on != DrawnOn::box) {
      refuse_panels(elements, on, reading_.found);
      return;
    }
    for (const Element& element : elements) refuse_panels(element.children, on, reading_.found);
  }

  const LayoutFile* open(const std::string& path, const Origin& wanted_by) {
    const std::string name = normal_path(path);
    if (const auto known = files_.find(name); known != files_.end() && !name.empty()) {
      return known->second ? &*known->second : nullptr;
    }
    std::optional<LayoutFile> file = read(name.empty() ? path : name, wanted_by);
    reading_.layout_files.insert(name);
    if (!file) reading_.layouts_whole = false;
    if (name.empty()) return nullptr;
    const auto& kept = files_[name] = std::move(file);
    return kept ? &*kept : nullptr;
  }

  std::optional<LayoutFile> read(const std::string& path, const Origin& wanted_by) {
    const auto bytes = read_file(reading_.world, path, wanted_by, reading_.found);
    if (!bytes) return std::nullopt;
    const FileName file(path);
    Result<Table> toml = read_toml(*bytes, file);
    if (!toml) {
      reading_.found.add(std::move(toml).why());
      return std::nullopt;
    }
    Checked<LayoutFile> layout = layout_from(*toml, file);
    reading_.found.add(std::move(layout.found));
    return std::move(layout.value);
  }

  /// The elements of the files it uses, then its own. A file that is reached twice comes once, at
  /// its first place, so that changes made to its elements in between are kept.
  void lay(const LayoutFile& file, std::vector<Element>& elements, std::vector<std::string>& chain,
           std::vector<std::string>& taken) {
    chain.push_back(file.file.str());
    taken.push_back(file.file.str());
    for (const Text& use : file.uses) {
      const std::string path = path_from(file.file.str(), use.text);
      const std::string name = normal_path(path);
      if (std::find(chain.begin(), chain.end(), name) != chain.end()) {
        report_cycle(chain, name, use.origin);
      } else if (std::find(taken.begin(), taken.end(), name) == taken.end()) {
        const LayoutFile* used = open(path, use.origin);
        if (used) lay(*used, elements, chain, taken);
      }
    }
    Diagnostics problems;
    lay_over(elements, file, problems);
    reading_.found.add(std::move(problems));
    chain.pop_back();
  }

  static std::string path_from(const std::string& file, const std::string& use) {
    const std::string folder = folder_of(file);
    return folder.empty() || use.starts_with('/') ? use : folder + "/" + use;
  }

  /// Said once for each circle, wherever it is entered.
  void report_cycle(const std::vector<std::string>& chain, const std::string& again,
                    const Origin& where) {
    const auto start = std::find(chain.begin(), chain.end(), again);
    std::vector<std::string> ring(start, chain.end());
    std::vector<std::string> members = ring;
    std::sort(members.begin(), members.end());
    if (std::find(cycles_.begin(), cycles_.end(), members) != cycles_.end()) return;
    cycles_.push_back(members);
    ring.push_back(again);
    Diagnostic problem(Id::game_use_cycle, where, fmt::format("{} uses itself", again));
    problem.detail(fmt::format("{}", fmt::join(ring, " uses ")));
    reading_.found.add(problem.hint("take one of them out of its use"));
  }

  Reading& reading_;
  std::map<std::string, std::optional<LayoutFile>> files_;
  std::vector<std::vector<std::string>> cycles_;
};

std::vector<std::string> layouts_on_disk(const World& world) {
  std::vector<std::string> files = world.files_below("layouts");
  std::erase_if(files, [](const std::string& file) { return !file.ends_with(".toml"); });
  return files;
}

/// The file that a cell of the column `layout` names: a path, or a file's name with or without
/// ".toml".
std::optional<std::string> file_named(const std::string& cell,
                                      const std::vector<std::string>& files) {
  for (const std::string& file : files) {
    if (file == cell || file == cell + ".toml") return file;
  }
  for (const std::string& file : files) {
    if (stem_of(file) == stem_of(cell) && cell.find('/') == std::string::npos) return file;
  }
  return std::nullopt;
}

/// Replaces each cell of the column `layout` by the path it means, and opens those.
void add_asked_for(Reading& reading, LayoutShelf& shelf) {
  const int at = column(reading.game, "layout");
  if (at < 0) return;
  std::vector<std::string> files = layouts_on_disk(reading.world);
  for (const LayoutRule& rule : reading.rules) files.push_back(normal_path(rule.file));
  std::vector<std::string> stems;
  for (const std::string& file : files) stems.push_back(stem_of(file));
  std::sort(stems.begin(), stems.end());
  stems.erase(std::unique(stems.begin(), stems.end()), stems.end());
  for (Card& card : reading.game.cards) {
    Text& cell = card.cells[static_cast<std::size_t>(at)];
    const std::string name(trimmed(cell.text));
    if (name.empty()) continue;
    if (const std::optional<std::string> file = file_named(name, files)) {
      shelf.add(*file, cell.origin);
      continue;
    }
    reading.found.add(unknown_name(Id::game_unknown_layout, "layout", name, cell.origin, stems));
  }
}

/// The number of the layout of that path among the game's, or -1.
int number_of(const Reading& reading, const std::string& path) {
  const std::vector<Layout>& layouts = reading.game.layouts;
  const std::string name = normal_path(path);
  const auto there = std::find_if(layouts.begin(), layouts.end(),
                                  [&](const Layout& one) { return one.file.str() == name; });
  return there == layouts.end() ? -1 : static_cast<int>(there - layouts.begin());
}

void add_for_box(Reading& reading, LayoutShelf& shelf) {
  std::optional<BoxWishes>& box = reading.game.box;
  if (!box || box->layout.empty()) return;
  shelf.add(box->layout, box->place("layout"), DrawnOn::box);
  box->art = number_of(reading, box->layout);
}

void add_for_mat(Reading& reading, LayoutShelf& shelf) {
  std::optional<MatWishes>& mat = reading.game.mat;
  if (!mat) return;
  shelf.add(mat->layout, mat->place("layout"), DrawnOn::mat);
  mat->art = number_of(reading, mat->layout);
}

}  // namespace

void read_layouts(Reading& reading) {
  LayoutShelf shelf(reading);
  for (const LayoutRule& rule : reading.rules) shelf.add(rule.file, rule.origin);
  for (const Deck& deck : reading.game.decks) {
    const Origin wanted_by = deck.back_origin.file.empty() ? deck.origin : deck.back_origin;
    if (!deck.back.empty()) shelf.add(deck.back, wanted_by);
  }
  for (const Suit& suit : reading.game.suits) {
    const auto back = suit.values.find("back");
    if (back == suit.values.end() || back->second.text.empty()) continue;
    shelf.add(back->second.text, back->second.origin);
  }
  add_asked_for(reading, shelf);
  add_for_box(reading, shelf);
  add_for_mat(reading, shelf);
}

}  // namespace quoin::game
