#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <set>

#include "game/card_id.h"
#include "game/csv.h"
#include "game/natural_order.h"
#include "game/new_game.h"
#include "game/new_title.h"
#include "game/reading.h"
#include "game/size_check.h"
#include "game/sources.h"
#include "game/words.h"

namespace quoin::game {
namespace {

/// A picture's file and what its name says.
struct Found {
  std::string path;
  std::string name;    ///< without folder, ending and number of copies
  std::string ending;  ///< "png", in small letters
  int copies = 1;
};

bool is_picture(std::string_view ending) {
  constexpr std::array<std::string_view, 7> known{"svg",  "png", "jpg", "jpeg",
                                                  "webp", "tif", "tiff"};
  return std::ranges::find(known, ending) != known.end();
}

std::string file_name(const std::string& path) { return path.substr(path.rfind('/') + 1); }

/// Takes "x3", "x 3" or "×3" off the end of a name, when a space, '-' or '_' stands before it.
int take_copies(std::string& name) {
  const std::size_t digits = name.find_last_not_of("0123456789") + 1;
  if (digits == name.size() || name.size() - digits > 3) return 1;
  std::string_view before = std::string_view(name).substr(0, digits);
  while (before.ends_with(' ')) before.remove_suffix(1);
  const bool times = before.ends_with("×");
  if (!times && !before.ends_with('x') && !before.ends_with('X')) return 1;
  before.remove_suffix(times ? std::string_view("×").size() : 1);
  const std::size_t end = before.find_last_not_of(" -_") + 1;
  if (end == before.size() || end == 0) return 1;
  int copies = 1;
  std::from_chars(name.data() + digits, name.data() + name.size(), copies);
  name.resize(end);
  return copies;
}

Found read_name(const std::string& path) {
  const std::string file = file_name(path);
  const std::size_t dot = file.rfind('.');
  Found found{path, file.substr(0, dot), "", 1};
  if (dot != std::string::npos) found.ending = lower_case(file.substr(dot + 1));
  found.copies = take_copies(found.name);
  return found;
}

/// What Quoin made itself, and what is hidden.
bool is_no_makers_file(const std::string& path) {
  return path.starts_with("pack/") || path.starts_with("reprint/") || path.starts_with("share/") ||
         path.starts_with('.') || path.find("/.") != std::string::npos;
}

std::vector<Found> pictures_in(const World& world, PictureFiles files, Findings& findings) {
  std::vector<Found> pictures;
  for (const std::string& path : world.files_below("")) {
    if (file_name(path).starts_with('.')) continue;
    if (files == PictureFiles::where_they_lie && is_no_makers_file(path)) continue;
    Found found = read_name(path);
    if (is_picture(found.ending)) {
      pictures.push_back(std::move(found));
    } else {
      findings.add(Diagnostic(Id::game_picture_skipped, {FileName(path)},
                              fmt::format("{} is not a picture; no card is made of it", path)));
    }
  }
  std::ranges::sort(pictures, comes_before_naturally, &Found::path);
  return pictures;
}

/// An id that no other card has, capitals left aside.
std::string own_id(const std::string& name, std::size_t number, std::set<std::string>& taken) {
  std::string base = id_from(name);
  if (base.empty()) base = fmt::format("card-{}", number);
  std::string id = base;
  for (int i = 2; !taken.insert(lower_case(id)).second; ++i) {
    const std::string tail = fmt::format("-{}", i);
    id = base.substr(0, longest_id - tail.size()) + tail;
  }
  return id;
}

constexpr std::string_view face =
    R"toml(# One finished picture for each card, named in the column "art" of cards.csv.
#
# The picture fills the whole card and reaches past the cutting line into the bleed, so that a cut
# that wanders a little leaves no white edge. fit = "cover" keeps its proportions: a picture that
# was drawn with bleed fits as it is; one that has exactly the proportions of the cut card is made
# a little larger, until it covers the bleed too, and loses that much at its edges.
# To print such a picture at exactly the size of the card instead, write inset = 0; cuts must then
# be exact, or a white edge shows.

[[element]]
id = "picture"
kind = "picture"
inset = "bleed"
picture = "{art}"
fit = "cover"
role = "art"
)toml";

std::string back_layout(const std::string& art) {
  return fmt::format(R"toml(# The back of every card: one finished picture, placed as in face.toml.

[[element]]
id = "picture"
kind = "picture"
inset = "bleed"
picture = {}
fit = "cover"
role = "art"
)toml",
                     toml_text(art));
}

std::string settings(const std::string& title, const NamedSize& size, bool has_back) {
  const std::string name = size.name.empty()
                               ? fmt::format("{}x{}", number_text(size.size.width.value),
                                             number_text(size.size.height.value))
                               : std::string(size.name);
  std::string text = fmt::format(
      "# A game of finished pictures. docs/game-files.md explains every key.\n\n"
      "[game]\ntitle = {}\n\n"
      "[card]\nsize = {}\ncorner = {}\n\n"
      "[[layouts]]\nfile = \"layouts/face.toml\"\n\n",
      toml_text(title), toml_text(name), number_text(size.corner.value));
  if (has_back) text += "[decks.main]\nback = \"layouts/back.toml\"\n\n";
  return text + "[sheets]\npaper = \"A4\"                  # or \"Letter\"\n";
}

class Making {
 public:
  Making(const World& world, PictureFiles files, Findings& findings)
      : world_(world), files_(files), findings_(findings) {}

  void add(const Found& found) {
    const auto bytes = read_file(world_, found.path, {FileName(found.path)}, findings_);
    if (!bytes) return;
    if (!has_back_ && lower_case(found.name) == "back") {
      has_back_ = true;
      folder_["layouts/back.toml"] =
          back_layout(place_of(found, "art/back." + found.ending, *bytes));
      return;
    }
    ++cards_;
    const std::string id = own_id(found.name, cards_, taken_);
    const std::string art = place_of(found, fmt::format("art/{}.{}", id, found.ending), *bytes);
    rows_ += csv_line({id, found.name, art, std::to_string(found.copies)});
  }

  GameFolder finish(const std::string& title, const NamedSize& size) {
    folder_["cards.csv"] = csv_line({"id", "name", "art", "copies"}) + rows_;
    folder_["layouts/face.toml"] = face;
    const bool has_list = files_ == PictureFiles::where_they_lie && is_there(sources_file);
    if (!has_list) folder_[sources_file] = sources_to_fill_in(pictures_);
    folder_["game.toml"] = settings(title, size, has_back_);
    return std::move(folder_);
  }

  [[nodiscard]] std::size_t cards() const { return cards_; }

 private:
  [[nodiscard]] bool is_there(const char* path) const {
    const ReadAnswer answer = world_.read(path, largest_file);
    return answer.ok() || answer.failure != ReadFailure::missing;
  }

  /// Where the game finds the picture. A path with braces would read as a placeholder.
  std::string place_of(const Found& found, const std::string& copy, const Bytes& bytes) {
    const bool stays = files_ == PictureFiles::where_they_lie &&
                       found.path.find_first_of("{}") == std::string::npos;
    if (!stays) folder_[copy] = bytes;
    const std::string place = stays ? found.path : copy;
    pictures_.push_back(place.starts_with("art/") ? place.substr(4) : place);
    return place;
  }

  const World& world_;
  const PictureFiles files_;
  Findings& findings_;
  GameFolder folder_;
  std::string rows_;
  std::vector<std::string> pictures_;  // as the list of sources names them
  std::set<std::string> taken_{"back"};
  std::size_t cards_ = 0;
  bool has_back_ = false;
};

}  // namespace

Checked<GameFolder> game_from_pictures(const World& pictures, std::string title,
                                       std::optional<NamedSize> size, PictureFiles files) {
  Findings findings;
  const NamedSize trim = size.value_or(card_sizes().front());
  if (auto problem = title_problem(title)) findings.add(std::move(*problem));
  if (auto problem = size_problem(trim, {})) findings.add(std::move(*problem));
  Making making(pictures, files, findings);
  for (const Found& found : pictures_in(pictures, files, findings)) making.add(found);
  if (making.cards() == 0) {
    Diagnostic problem(Id::game_no_pictures, {}, "there is no picture to make a card of");
    findings.add(
        problem.hint("choose a folder with svg, png, jpg, webp or tif files; one that is "
                     "called back becomes the back of all cards"));
  }
  Diagnostics found = std::move(findings).take();
  if (any_errors(found)) return {{}, std::move(found)};
  return {making.finish(title, trim), std::move(found)};
}

}  // namespace quoin::game
