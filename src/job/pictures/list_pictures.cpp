#include "job/pictures/list_pictures.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "base/hash.h"
#include "game/sources.h"

namespace quoin::job {
namespace {

using State = ListedPicture::State;

std::string_view ending_at(const std::string& path) {
  const std::size_t dot = path.rfind('.'), slash = path.rfind('/');
  if (dot == std::string::npos || (slash != std::string::npos && dot < slash)) return {};
  return std::string_view(path).substr(dot);
}

std::string without_ending(const std::string& path) {
  return path.substr(0, path.size() - ending_at(path).size());
}

std::string small_letters(std::string_view text) {
  std::string small(text);
  for (char& c : small) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return small;
}

/// Whether a file of art/ is meant as a picture: also of kinds that are not printed, so that it is
/// said of them.
bool is_meant_as_picture(const std::string& path) {
  static const std::set<std::string, std::less<>> others{
      ".gif", ".bmp", ".avif", ".heic", ".heif", ".jxl", ".jp2", ".apng", ".jfif", ".tga", ".ico"};
  return game::is_picture_file(path) || others.contains(small_letters(ending_at(path)));
}

/// "-2", "-14": what is put after a name that is taken.
bool is_number(std::string_view text) {
  return text.size() >= 2 && text.size() <= 5 && text[0] == '-' &&
         std::all_of(text.begin() + 1, text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

std::string mm_words(Size size) {
  return fmt::format("{:.1f} x {:.1f} mm", size.width.value, size.height.value);
}

/// Rounded down: what is said must keep its promise.
std::string at_most(Mm length) {
  const double mm = length.value;
  return mm >= 10 ? fmt::format("{:.0f} mm", std::floor(mm + 1e-6))
                  : fmt::format("{:.1f} mm", std::floor(mm * 10 + 1e-6) / 10);
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    text += (i == 0 ? "" : i + 1 == words.size() ? " and " : ", ") + words[i];
  }
  return text;
}

Size size_at(const PictureFacts& facts, double ppi) {
  return {Mm{facts.width / ppi * mm_per_inch}, Mm{facts.height / ppi * mm_per_inch}};
}

std::string upper_name(PictureFormat format) {
  std::string name(to_string(format));
  for (char& c : name) {
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  }
  return name;
}

std::vector<std::string> details_of(const PictureFacts& facts) {
  if (facts.is_vector()) return {"SVG"};
  const bool grey = facts.model == ColourModel::grey, cmyk = facts.model == ColourModel::cmyk;
  std::vector<std::string> details{fmt::format("{}, {}, {} bits a channel{}",
                                               upper_name(facts.format),
                                               grey   ? "grey"
                                               : cmyk ? "CMYK"
                                                      : "RGB",
                                               facts.bits, facts.has_alpha ? ", with alpha" : "")};
  if (facts.has_profile) {
    details.push_back("colour profile: " + facts.profile);
  } else if (cmyk) {
    details.emplace_back("no colour profile: its inks are printed as they are");
  } else {
    details.emplace_back("no colour profile: taken as sRGB");
  }
  return details;
}

std::string words_for_pixels(const ListedPicture& one, const pieces::PictureUse& use) {
  const double shown = std::floor(use.ppi() + 1e-6);
  if (one.state == State::sharp) {
    return fmt::format("Prints at {:.0f} ppi: sharp.", shown);
  }
  const Mm most{use.pixels / one.wanted_ppi * mm_per_inch};
  return fmt::format(
      "Prints at {:.0f} ppi, {:.0f} are wanted: redraw it, or print it no {} than {}.", shown,
      std::ceil(one.wanted_ppi - 1e-6), use.along_width ? "wider" : "higher", at_most(most));
}

class Lister {
 public:
  Lister(const World& world, const game::Game& game, const ShownPictures& shown,
         PictureShelf& shelf)
      : world_(world), game_(game), shown_(shown), shelf_(shelf) {}

  PictureList run() {
    list_.good_ppi = game_.limits.good_ppi;
    list_.least_ppi = game_.limits.poor_ppi;
    name_declared();
    std::set<std::string> files;
    for (const std::string& path : world_.files_below("art")) {
      if (is_meant_as_picture(path)) files.insert(path);
    }
    for (const auto& [path, unused] : shown_) files.insert(path);
    for (const auto& [path, unused] : declared_) {
      if (world_.read(path, largest_file).failure != ReadFailure::missing) files.insert(path);
    }
    const std::vector<std::string> all(files.begin(), files.end());
    for (const std::string& path : all) {
      list_.pictures.push_back(listed(path));
      if (!list_.pictures.back().facts.is_vector()) {
        list_.pictures.back().made = made_from(path, all);
      }
    }
    for (ListedPicture& one : list_.pictures) {
      if (one.state == State::unused) one.words = words_for_unused(one);
    }
    sort();
    brief();
    return std::move(list_);
  }

 private:
  /// Pictures that game.toml names itself.
  void name_declared() {
    const auto add = [&](const std::string& path, const std::string& what) {
      const std::string file = normal_path(path);
      if (!file.empty()) declared_[file].push_back(what);
    };
    for (const game::Symbol& symbol : game_.symbols) {
      add(symbol.picture, "symbol " + symbol.name);
    }
    for (const game::Suit& suit : game_.suits) {
      for (const auto& [key, value] : suit.values) {
        if (game::is_picture_file(value.text)) add(value.text, "suit " + suit.id);
      }
    }
  }

  ListedPicture listed(const std::string& path) {
    ListedPicture one;
    one.file = path;
    one.wanted_ppi = game_.limits.good_ppi;
    const auto shown = shown_.find(path);
    if (shown != shown_.end()) one.pieces = shown->second.pieces;
    const bool is_printed = !one.pieces.empty();
    if (const auto declared = declared_.find(path); declared != declared_.end()) {
      for (const std::string& what : declared->second) one.pieces.push_back(what);
    }
    constexpr std::array<double, 3> resolutions{300, 220, 150};
    for (std::size_t i = 0; i < one.sizes.size(); ++i) one.sizes[i].ppi = resolutions[i];
    if (!open(one)) return one;
    if (!is_printed) return one;  // its words follow when all are known
    if (one.facts.is_vector()) {
      one.state = State::vectors;
      one.words = "Drawn in vectors: sharp at any size.";
    } else if (shown->second.coarsest) {
      place(one, shown->second);
    } else {
      one.state = State::vectors;
      one.words = fmt::format("Is part of {}, and as large as that shows it.",
                              joined(shown->second.within));
    }
    return one;
  }

  bool open(ListedPicture& one) {
    Diagnostics met;
    const auto picture = shelf_.open(one.file, Origin{FileName(one.file)}, met).or_report(met);
    if (!picture) {
      one.state = State::unreadable;
      one.words = "It cannot be read.";
      for (const Diagnostic& problem : met) {
        if (problem.severity != Severity::error) continue;
        one.words = problem.message + ".";
        one.details.insert(one.details.end(), problem.hints.begin(), problem.hints.end());
      }
      if (const ReadAnswer answer = world_.read(one.file, largest_file); answer.ok()) {
        one.bytes = answer.bytes->size();
        one.key = sha256(*answer.bytes);
      }
      return false;
    }
    one.readable = true;
    one.facts = (*picture)->facts();
    one.key = (*picture)->key();
    one.bytes = (*picture)->bytes().size();
    one.details = details_of(one.facts);
    for (const Diagnostic& remark : met) one.details.push_back(remark.message);
    if (one.facts.is_vector()) return true;
    for (PrintSize& each : one.sizes) each.size = size_at(one.facts, each.ppi);
    return true;
  }

  static void place(ListedPicture& one, const ShownPicture& shown) {
    const pieces::PictureUse& use = *shown.coarsest;
    one.ppi = use.ppi();
    one.wanted_ppi = shown.good_ppi;
    one.printed = use.printed;
    one.state = use.reaches(shown.good_ppi)   ? State::sharp
                : use.ppi() >= shown.poor_ppi ? State::soft
                                              : State::coarse;
    one.words = words_for_pixels(one, use);
  }

  std::string words_for_unused(const ListedPicture& one) const {
    for (const std::string& made : one.made) {
      const auto shown = shown_.find(made);
      if (shown == shown_.end() || shown->second.pieces.empty()) continue;
      return fmt::format("On no piece: {}, which was made from it, is shown instead.", made);
    }
    std::string words = one.pieces.empty()
                            ? "On no piece"
                            : fmt::format("Is the {}, which no piece shows", joined(one.pieces));
    if (!one.facts.is_vector()) {
      words += fmt::format(". At {:.0f} ppi it prints {}", list_.good_ppi,
                           mm_words(size_at(one.facts, list_.good_ppi)));
    }
    return words + ".";
  }

  void sort() {
    std::stable_sort(list_.pictures.begin(), list_.pictures.end(),
                     [](const ListedPicture& a, const ListedPicture& b) {
                       if (a.state != b.state) return a.state < b.state;
                       return a.ppi.value_or(0) / a.wanted_ppi < b.ppi.value_or(0) / b.wanted_ppi;
                     });
  }

  [[nodiscard]] std::size_t count_of(State state) const {
    return static_cast<std::size_t>(
        std::count_if(list_.pictures.begin(), list_.pictures.end(),
                      [&](const ListedPicture& one) { return one.state == state; }));
  }

  void brief() {
    const std::size_t all = list_.pictures.size();
    const std::size_t coarse = count_of(State::coarse), soft = count_of(State::soft);
    const std::size_t unreadable = count_of(State::unreadable), unused = count_of(State::unused);
    const auto verb = [](std::size_t n, std::string_view one, std::string_view many) {
      return n == 1 ? one : many;
    };
    const auto say = [&](std::size_t n, std::string_view one, std::string_view many) {
      if (n == 0) return;
      list_.brief.push_back(fmt::format("{} of {} {} {}", n, all, verb(all, "picture", "pictures"),
                                        verb(n, one, many)));
    };
    if (all == 0) list_.brief.emplace_back("there is no picture in art, and no piece shows one");
    say(coarse + soft, "prints too coarse", "print too coarse");
    if (coarse > 0 && soft > 0) {
      list_.brief.push_back(
          fmt::format("pixels show in {} of them, {} will look soft", coarse, soft));
    }
    say(unreadable, "cannot be read", "cannot be read");
    if (all > 0 && coarse + soft + unreadable == 0) {
      list_.brief.emplace_back("all that is printed is sharp");
    }
    say(unused, "is on no piece", "are on no piece");
  }

  const World& world_;
  const game::Game& game_;
  const ShownPictures& shown_;
  PictureShelf& shelf_;
  std::map<std::string, std::vector<std::string>> declared_;
  PictureList list_;
};

}  // namespace

std::string_view to_string(ListedPicture::State state) {
  switch (state) {
    case State::coarse:
      return "coarse";
    case State::soft:
      return "soft";
    case State::sharp:
      return "sharp";
    case State::vectors:
      return "vectors";
    case State::unreadable:
      return "unreadable";
    case State::unused:
      return "unused";
  }
  return "";
}

std::vector<std::string> made_from(const std::string& picture,
                                   const std::vector<std::string>& files) {
  const std::string stem = without_ending(picture);
  std::vector<std::string> made;
  for (const std::string& file : files) {
    if (file == picture || !file.starts_with(stem)) continue;
    const std::string_view ending = ending_at(file);
    std::string_view rest = std::string_view(file).substr(stem.size());
    if (rest.size() < ending.size()) continue;
    rest.remove_suffix(ending.size());
    const bool is_again = is_number(rest) && rest != "-1";  // the first has no number
    if (ending == ".svg" && (rest.empty() || is_again)) made.push_back(file);
    if (ending != ".png" || rest.empty()) continue;
    for (const std::string_view how : {"-straight", "-cut-out", "-colours"}) {
      if (rest.starts_with(how)) {
        rest.remove_prefix(how.size());
        break;
      }
    }
    if (rest.empty() || is_number(rest)) made.push_back(file);
  }
  return made;
}

PictureList list_pictures(const World& world, const game::Game& game, const ShownPictures& shown,
                          PictureShelf& shelf) {
  return Lister(world, game, shown, shelf).run();
}

PictureList list_pictures(const World& world, Watcher& watcher) {
  Outcome outcome;
  Checked<game::Game> read = game::read_game(world);
  outcome.game = std::move(read.value);
  for (Diagnostic& problem : read.found) {
    if (problem.severity == Severity::error) outcome.found.push_back(std::move(problem));
  }
  Workshop shop(world, outcome.game, cards_with_faces(outcome.game), nullptr, "");
  ShownPictures shown = draw_and_find(world, shop, outcome, watcher);
  PictureList list = list_pictures(world, outcome.game, shown, shop.shelf());
  list.found = in_order(std::move(outcome.found));
  return list;
}

}  // namespace quoin::job
