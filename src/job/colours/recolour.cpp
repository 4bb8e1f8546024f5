#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <set>

#include "formats/png/png.h"
#include "job/colours/game_colours.h"
#include "job/trace/picture_files.h"
#include "pack/report.h"
#include "trace/colours/pull.h"
#include "trace/colours/pull_svg.h"

namespace quoin::job {
namespace fs = std::filesystem;
namespace {

using OrderedJson = nlohmann::ordered_json;
constexpr double usual_ppi = 96;

Diagnostic nothing_near(const std::string& path, double reach) {
  return Diagnostic(Id::palette_nothing_changed, {FileName(path)},
                    fmt::format("no colour of {} is within {:g} of one of the palette that it does "
                                "not have already",
                                path, reach))
      .hint(fmt::format("try --reach {:g}", reach * 2));
}

/// Of what is not transparent.
double changed_share(const Raster& before, const Raster& after) {
  std::size_t shown = 0, changed = 0;
  for (std::size_t i = 0; i < before.pixels.size(); ++i) {
    shown += before.pixels[i] >> 24 != 0 ? 1 : 0;
    changed += before.pixels[i] != after.pixels[i] ? 1 : 0;
  }
  return shown > 0 ? double(changed) / double(shown) : 0;
}

std::string ending_for(const Bytes& bytes) {
  return bytes.starts_with("\x89PNG") ? ".png" : ".svg";
}

/// Where a recoloured picture goes: as the order says, once for each.
std::string place_for(const RecolourOrder& order, const std::string& picture,
                      const std::string& ending) {
  if (order.out.ends_with(ending)) return order.out;
  const std::string name = fs::path(picture).stem().string() + "-colours" + ending;
  const fs::path folder = order.out.empty() ? fs::path(picture).parent_path() : fs::path(order.out);
  return (folder / name).string();
}

RecolouredFile one_file(const RecolourOrder& order, const std::string& picture, NewPictures made) {
  RecolouredFile file;
  file.picture = picture;
  file.found = std::move(made.found);
  file.words = std::move(made.words);
  const bool is_changed = std::none_of(file.found.begin(), file.found.end(), [](const auto& one) {
    return one.id == Id::palette_nothing_changed;
  });
  if (made.pictures.empty() || !is_changed) return file;
  const Bytes& bytes = made.pictures[0].bytes;
  file.file = place_for(order, picture, ending_for(bytes));
  std::error_code ignored;
  const bool is_named = file.file == order.out;
  if (is_one_of(order.pictures, file.file) || (!is_named && fs::exists(file.file, ignored))) {
    file.found.push_back(file_there(file.file, picture));
    return file;
  }
  auto fault = write_whole(file.file, bytes);
  file.written = !fault;
  if (fault) file.found.push_back(std::move(*fault));
  return file;
}

}  // namespace

NewPictures recolour_picture(PictureShelf& shelf, const PicturePtr& picture,
                             const std::vector<Colour>& palette, double reach) {
  NewPictures made;
  made.how = MadeBy::recolouring;
  const PictureFacts& facts = picture->facts();
  NewPicture fresh;
  std::string words;
  if (facts.is_vector()) {
    trace::PulledSvg pulled = trace::pull_svg(picture->bytes(), palette, reach);
    fresh.bytes = std::move(pulled.svg);
    if (pulled.changed > 0) {
      words = fmt::format("{} {} in its text changed.", pulled.changed,
                          pulled.changed == 1 ? "colour" : "colours");
    }
  } else if (const auto pixels = shelf.pixels(picture).or_report(made.found)) {
    const Raster pulled = trace::pull(**pixels, palette, reach);
    fresh.bytes = write_png(pulled, usual_ppi);
    const double share = changed_share(**pixels, pulled);
    if (share > 0) {
      words = share < 0.01 ? "Less than 1 % of it changed its colour."
                           : fmt::format("{:.0f} % of it changed its colour.", share * 100);
    }
  } else {
    return made;
  }
  if (words.empty()) {
    made.found.push_back(nothing_near(picture->path(), reach));
    words = "No colour of it is so near to one of the palette's.";
  }
  made.words.push_back(std::move(words));
  fresh.width = static_cast<int>(facts.width);
  fresh.height = static_cast<int>(facts.height);
  made.pictures.push_back(std::move(fresh));
  return made;
}

std::vector<RecolouredFile> recolour_pictures(const RecolourOrder& order, Watcher& watcher) {
  std::vector<NewPictures> recoloured(order.pictures.size());
  const auto one = [&](int i) {
    const std::string& picture = order.pictures[std::size_t(i)];
    const PictureOnDisk disk(picture);
    PictureShelf shelf(disk.world());
    NewPictures made;
    const auto opened =
        shelf.open(disk.name(), Origin{FileName(picture)}, made.found).or_report(made.found);
    if (opened) {
      NewPictures pulled = recolour_picture(shelf, *opened, order.palette, order.reach);
      for (Diagnostic& problem : pulled.found) made.found.push_back(std::move(problem));
      made.pictures = std::move(pulled.pictures);
      made.words = std::move(pulled.words);
    }
    recoloured[std::size_t(i)] = std::move(made);
  };
  work_through(static_cast<int>(recoloured.size()), "recolouring", watcher, one,
               [&](int i) { recoloured[std::size_t(i)].found.push_back(stopped_before_done()); });
  // One after another: of two that go to the same place the first has it.
  std::vector<RecolouredFile> all;
  for (std::size_t i = 0; i < recoloured.size(); ++i) {
    all.push_back(one_file(order, order.pictures[i], std::move(recoloured[i])));
  }
  return all;
}

Bytes palette_report(const FoundPalette& palette) {
  OrderedJson colours = OrderedJson::array();
  for (const PaletteColour& one : palette.colours) {
    colours.push_back({{"name", one.name},
                       {"colour", to_string(one.colour)},
                       {"share", std::round(one.share * 10000) / 10000}});
  }
  return OrderedJson{{"colours", std::move(colours)},
                     {"untagged", palette.untagged},
                     {"found", OrderedJson::parse(pack::findings_json(palette.found))}}
             .dump(2) +
         "\n";
}

Bytes recolour_report(const std::vector<RecolouredFile>& files) {
  OrderedJson list = OrderedJson::array();
  for (const RecolouredFile& one : files) {
    list.push_back({{"picture", one.picture},
                    {"file", one.file},
                    {"written", one.written},
                    {"found", OrderedJson::parse(pack::findings_json(one.found))}});
  }
  return OrderedJson{{"pictures", std::move(list)}}.dump(2) + "\n";
}

}  // namespace quoin::job
