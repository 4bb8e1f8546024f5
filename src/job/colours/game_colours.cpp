#include "job/colours/game_colours.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "job/edit/editor.h"
#include "job/pictures/list_pictures.h"
#include "job/trace/picture_files.h"
#include "media/canvas.h"

namespace quoin::job {
namespace {

constexpr double drawn_wide = 700;  // px
constexpr double the_same = 1;      // CIEDE2000: nobody tells them apart

/// The pixels of a picture; a drawing in vectors is drawn.
std::shared_ptr<const Raster> pixels_or_drawn(PictureShelf& shelf, const PicturePtr& picture,
                                              Diagnostics& found) {
  const PictureFacts& facts = picture->facts();
  if (!facts.is_vector()) return shelf.pixels(picture).or_report(found).value_or(nullptr);
  const double high = std::clamp(drawn_wide * facts.height / facts.width, 1.0, 4 * drawn_wide);
  const Size size{Mm{drawn_wide}, Mm{high}};  // a pixel to a millimetre
  ImageCanvas image(shelf, size, mm_per_inch, ImageCanvas::Background::transparent);
  image.canvas().picture(picture, {{}, size});
  return std::make_shared<const Raster>(image.raster());
}

/// The colour of `all` that is this one to everybody's eyes.
const PaletteColour* same_as(const PaletteColour& colour, const std::vector<PaletteColour>& all) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const PaletteColour& one) {
    return ciede2000(to_lab(one.colour), to_lab(colour.colour)) < the_same;
  });
  return found == all.end() ? nullptr : &*found;
}

/// The game in a folder; nothing, with the errors in `found`, when it cannot be read.
std::optional<game::Game> readable_game(const std::string& folder, Diagnostics& found) {
  Checked<game::Game> read = game::read_game(*real_world(folder));
  bool is_sound = true;
  for (Diagnostic& one : read.found) {
    if (one.severity != Severity::error) continue;
    is_sound = false;
    found.push_back(std::move(one));
  }
  if (!is_sound) return std::nullopt;
  return std::move(read.value);
}

/// Gathers pictures from one shelf or from several.
class Gathering {
 public:
  void add(PictureShelf& shelf, const PicturePtr& picture) {
    const auto pixels = pixels_or_drawn(shelf, picture, result_.found);
    if (!pixels) return;
    const Raster* one = pixels.get();
    if (trace::palette_of({&one, 1}).empty()) {
      result_.found.push_back(Diagnostic(Id::palette_no_colours, {FileName(picture->path())},
                                         fmt::format("{} has no areas of colour", picture->path()))
                                  .hint("leave it out"));
      return;
    }
    const PictureFacts& facts = picture->facts();
    if (!facts.is_vector() && !facts.has_profile) result_.untagged.push_back(picture->path());
    pixels_.push_back(pixels);
  }

  FoundPalette done(PaletteWishes wishes, const std::vector<PaletteColour>& of_game) {
    std::vector<const Raster*> all;
    for (const auto& one : pixels_) all.push_back(one.get());
    for (const PaletteColour& one : of_game) wishes.named[one.name] = one.colour;
    result_.colours = trace::palette_of(all, wishes);
    return std::move(result_);
  }

  Diagnostics& found() { return result_.found; }

 private:
  FoundPalette result_;
  std::vector<std::shared_ptr<const Raster>> pixels_;
};

}  // namespace

FoundPalette palette_of_pictures(PictureShelf& shelf, const std::vector<PicturePtr>& pictures,
                                 const PaletteWishes& wishes,
                                 const std::vector<PaletteColour>& of_game) {
  Gathering gathering;
  for (const PicturePtr& picture : pictures) gathering.add(shelf, picture);
  return gathering.done(wishes, of_game);
}

FoundPalette palette_of_files(const std::vector<std::string>& files, const PaletteWishes& wishes,
                              const std::vector<PaletteColour>& of_game) {
  Gathering gathering;
  for (const std::string& file : files) {
    const PictureOnDisk disk(file);
    PictureShelf shelf(disk.world());
    const auto picture = shelf.open(disk.name(), Origin{FileName(file)}, gathering.found())
                             .or_report(gathering.found());
    if (picture) gathering.add(shelf, *picture);
  }
  return gathering.done(wishes, of_game);
}

FoundPalette palette_of_game(const std::string& folder, const PaletteWishes& wishes,
                             Watcher& watcher) {
  const auto world = real_world(folder);
  const PictureList list = list_pictures(*world, watcher);
  Gathering gathering;
  for (const Diagnostic& one : list.found) {
    if (one.severity == Severity::error) gathering.found().push_back(one);
  }
  PictureShelf shelf(*world);
  for (const ListedPicture& one : list.pictures) {
    if (one.pieces.empty() || !one.readable) continue;
    Diagnostics said_elsewhere;
    const auto picture = shelf.open(one.file, {}, said_elsewhere);
    if (picture) gathering.add(shelf, *picture);
  }
  return gathering.done(wishes, colours_of(game::read_game(*world).value));
}

std::vector<PaletteColour> colours_of(const game::Game& game) {
  std::vector<PaletteColour> colours;
  for (const game::Named& named : game.colours) {
    const std::string* text = named.value.text();
    const auto colour = text != nullptr ? parse_colour(*text) : std::nullopt;
    if (colour && colour->alpha >= 1) colours.push_back({*colour, named.name, 0});
  }
  return colours;
}

std::vector<PaletteColour> colours_of(const std::string& folder, Diagnostics& found) {
  const auto game = readable_game(folder, found);
  return game ? colours_of(*game) : std::vector<PaletteColour>{};
}

TakenColours take_colours(const std::string& folder, std::vector<PaletteColour> colours) {
  TakenColours taken;
  const auto game = readable_game(folder, taken.found);
  if (!game) return taken;
  const std::vector<PaletteColour> of_game = colours_of(*game);
  std::set<std::string> names;  // of all colours there, translucent ones too
  for (const game::Named& named : game->colours) names.insert(named.name);
  Edit edit;
  for (PaletteColour& one : colours) {
    if (const PaletteColour* same = same_as(one, of_game)) {
      taken.there.push_back(*same);
      continue;
    }
    const std::string wanted = one.name;
    for (int number = 2; !names.insert(one.name).second; ++number) {
      one.name = fmt::format("{}-{}", wanted, number);
    }
    edit.changes.push_back(
        game::SetValue{"game.toml", {"colours", one.name}, game::Node{{}, to_string(one.colour)}});
    taken.added.push_back(std::move(one));
  }
  taken.done = true;
  if (edit.changes.empty()) return taken;
  edit.label = taken.added.size() == 1
                   ? "a colour of the palette"
                   : fmt::format("{} colours of the palette", taken.added.size());
  auto opened = Editor::open(folder).or_report(taken.found);
  if (opened) {
    const View seen = opened->editor->look();
    EditAnswer answer = opened->editor->apply(seen, std::move(edit));
    for (Diagnostic& why : answer.found) taken.found.push_back(std::move(why));
    if (answer.state == EditAnswer::State::done) return taken;
  }
  taken.done = false;
  taken.added.clear();
  return taken;
}

}  // namespace quoin::job
