#include "job/trace/straighten_pictures.h"

#include <fmt/format.h>

#include <filesystem>
#include <mutex>
#include <nlohmann/json.hpp>
#include <set>

#include "formats/png/png.h"
#include "job/trace/picture_files.h"
#include "pack/report.h"

namespace quoin::job {
namespace fs = std::filesystem;
namespace {

constexpr double screen_ppi = 96;

/// Gives each new file its place, once, and writes it there.
class PngPlaces {
 public:
  PngPlaces(const std::vector<std::string>& pictures, const std::string& out)
      : pictures_(pictures), out_(out) {}

  /// Where the `number`th of `count` files made from a picture goes. `word` is what is added to the
  /// picture's name beside it.
  [[nodiscard]] std::string place(const std::string& picture, std::size_t number, std::size_t count,
                                  const std::string& word) const {
    const std::string tail = count > 1 ? fmt::format("-{}", number + 1) : "";
    if (is_file()) {
      const fs::path named(out_);
      return (named.parent_path() / (named.stem().string() + tail + ".png")).string();
    }
    const fs::path from(picture);
    const fs::path folder = out_.empty() ? from.parent_path() : fs::path(out_);
    const std::string added = !tail.empty() ? tail : out_.empty() ? word : "";
    return (folder / (from.stem().string() + added + ".png")).string();
  }

  /// Writes unless a file stands there that was not named, or that is one of the pictures.
  [[nodiscard]] std::optional<Diagnostic> write(const std::string& path, const Bytes& bytes,
                                                const std::string& picture) {
    {
      const std::lock_guard lock(claiming_);
      std::error_code ignored;
      const bool named = path == out_;
      const bool there = fs::exists(path, ignored);
      if (!claimed_.insert(fs::path(path).lexically_normal().string()).second ||
          (there && (!named || is_one_of(pictures_, path)))) {
        return file_there(path, picture);
      }
    }
    return write_whole(path, bytes);
  }

 private:
  [[nodiscard]] bool is_file() const { return out_.ends_with(".png"); }
  const std::vector<std::string>& pictures_;
  const std::string& out_;
  std::mutex claiming_;
  std::set<std::string> claimed_;
};

void write_cards(StraightPicture& straight, PngPlaces& places) {
  for (std::size_t k = 0; k < straight.cards.size(); ++k) {
    StraightCard& one = straight.cards[k];
    one.file = places.place(straight.picture, k, straight.cards.size(), "-straight");
    auto fault = places.write(one.file, write_png(one.picture, one.ppi), straight.picture);
    one.written = !fault;
    if (fault) straight.found.push_back(std::move(*fault));
    if (straight.cards.size() > 1) one.picture = {};  // a sheet of them would fill the memory
  }
}

/// The photograph with the corners drawn. It is read again: most photographs are not shown.
void write_shown(const StraightenOrder& order, StraightPicture& straight) {
  const PictureOnDisk file(straight.picture);
  Diagnostics told_already;
  const auto pixels = pixels_of(file.world(), file.name(), straight.picture, told_already);
  if (!pixels) return;
  trace::FoundCards found{pixels->width, pixels->height, {}, straight.grid, straight.whole_picture};
  for (const StraightCard& one : straight.cards) found.cards.push_back(one.card);
  if (is_one_of(order.pictures, order.shown)) {
    straight.found.push_back(file_there(order.shown, straight.picture));
    return;
  }
  const Bytes png = write_png(trace::shown_on(*pixels, found, 1600), screen_ppi);
  if (auto fault = write_whole(order.shown, png)) straight.found.push_back(std::move(*fault));
}

using Json = nlohmann::ordered_json;

Json rounded_to(double value, double steps) { return std::round(value * steps) / steps; }

}  // namespace

std::vector<StraightPicture> straighten_pictures(const StraightenOrder& order, Watcher& watcher) {
  std::vector<StraightPicture> all(order.pictures.size());
  PngPlaces places(order.pictures, order.out);
  const auto one = [&](int i) {
    const std::string& picture = order.pictures[std::size_t(i)];
    const PictureOnDisk file(picture);
    StraightPicture straight = straighten_file(file.world(), file.name(), picture, order.wishes);
    if (!order.shown.empty() && !straight.cards.empty()) write_shown(order, straight);
    write_cards(straight, places);
    all[std::size_t(i)] = std::move(straight);
  };
  work_through(int(all.size()), "straightening", watcher, one, [&](int i) {
    all[std::size_t(i)].picture = order.pictures[std::size_t(i)];
    all[std::size_t(i)].found.push_back(stopped_before_done());
  });
  return all;
}

std::vector<CutPicture> cut_out_pictures(const CutOutOrder& order, Watcher& watcher) {
  std::vector<CutPicture> all(order.pictures.size());
  PngPlaces places(order.pictures, order.out);
  const auto one = [&](int i) {
    const std::string& picture = order.pictures[std::size_t(i)];
    const PictureOnDisk file(picture);
    CutPicture cut = cut_out_file(file.world(), file.name(), picture, order.wishes);
    if (!cut.cut.pixels.empty()) {
      cut.file = places.place(picture, 0, 1, "-cut-out");
      auto fault = places.write(cut.file, write_png(cut.cut, screen_ppi), picture);
      cut.written = !fault;
      if (fault) cut.found.push_back(std::move(*fault));
    }
    all[std::size_t(i)] = std::move(cut);
  };
  work_through(int(all.size()), "cutting out", watcher, one, [&](int i) {
    all[std::size_t(i)].picture = order.pictures[std::size_t(i)];
    all[std::size_t(i)].found.push_back(stopped_before_done());
  });
  return all;
}

Bytes straighten_report(const std::vector<StraightPicture>& pictures) {
  Json list = Json::array();
  for (const StraightPicture& one : pictures) {
    Json cards = Json::array();
    for (const StraightCard& card : one.cards) {
      Json corners = Json::array();
      for (const trace::Spot p : card.card.corners) {
        corners.push_back({{"x_px", rounded_to(p.x, 100)}, {"y_px", rounded_to(p.y, 100)}});
      }
      cards.push_back({{"file", card.file},
                       {"written", card.written},
                       {"corners", std::move(corners)},
                       {"bow", rounded_to(card.card.bow, 10000)},
                       {"ppi", rounded_to(card.ppi, 10)},
                       {"doubts", card.card.doubts}});
    }
    list.push_back({{"picture", one.picture},
                    {"width_px", one.width},
                    {"height_px", one.height},
                    {"grid", one.grid},
                    {"whole_picture", one.whole_picture},
                    {"cards", std::move(cards)},
                    {"found", Json::parse(pack::findings_json(one.found))}});
  }
  return Json{{"pictures", std::move(list)}}.dump(2) + "\n";
}

Bytes cut_out_report(const std::vector<CutPicture>& pictures) {
  Json list = Json::array();
  for (const CutPicture& one : pictures) {
    list.push_back({{"picture", one.picture},
                    {"file", one.file},
                    {"written", one.written},
                    {"transparent", rounded_to(one.share, 1000)},
                    {"found", Json::parse(pack::findings_json(one.found))}});
  }
  return Json{{"pictures", std::move(list)}}.dump(2) + "\n";
}

}  // namespace quoin::job
