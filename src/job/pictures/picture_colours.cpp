#include "job/pictures/picture_colours.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "formats/png/png.h"
#include "media/canvas.h"
#include "trace/drawing/colour_words.h"
#include "trace/redraw.h"

namespace quoin::job {
namespace {

constexpr int looked_at_wide = 400;        // px
constexpr double alike = 6, the_same = 1;  // CIEDE2000
constexpr double unprinted_ppi = 96;
constexpr std::size_t most_changed = 40, most_told = 4;

double unlike(const Colour& one, const Colour& other) {
  return ciede2000(to_lab(one), to_lab(other));
}

/// The picture's pixels, few enough to be looked at quickly; nothing when it cannot be read.
std::optional<Raster> glance(PictureShelf& shelf, const PicturePtr& picture) {
  const PictureFacts& facts = picture->facts();
  if (!facts.is_vector()) {
    const auto pixels = shelf.pixels(picture, looked_at_wide);
    return pixels ? std::optional(**pixels) : std::nullopt;
  }
  const double scale = looked_at_wide / std::max(facts.width, facts.height);
  const auto side = [&](double length) { return Mm{std::max(8.0, std::round(length * scale))}; };
  const Size size{side(facts.width), side(facts.height)};  // a pixel to a millimetre
  ImageCanvas canvas(shelf, size, mm_per_inch, ImageCanvas::Background::transparent);
  canvas.canvas().picture(picture, Rect{{}, size});
  return canvas.found().empty() ? std::optional(canvas.raster()) : std::nullopt;
}

struct Area {
  Colour colour;
  double share = 0;  // of what is not transparent
};

/// The colours of a picture's areas; none when it has no areas.
std::vector<Area> areas_in(const Raster& raster, const std::string& name) {
  const auto found = trace::colour_areas(raster, {}, 1, name, Origin{FileName(name)});
  if (!found) return {};
  std::vector<Area> areas;
  for (const Colour& colour : found->colours) areas.push_back({colour, 0});
  double all = 0;
  for (const int label : found->colour) {
    if (label < 0 || areas[std::size_t(label)].colour.alpha <= 0) continue;
    areas[std::size_t(label)].share += 1;
    all += 1;
  }
  std::erase_if(areas, [](const Area& one) { return one.share <= 0; });
  for (Area& one : areas) {
    one.share /= all;
    one.colour.alpha = 1;
  }
  return areas;
}

/// Of colours that look alike the largest stands for all.
std::vector<Area> merged(std::vector<Area> areas) {
  const auto by_share = [](const Area& a, const Area& b) { return a.share > b.share; };
  std::stable_sort(areas.begin(), areas.end(), by_share);
  std::vector<Area> kept;
  for (const Area& one : areas) {
    const auto near = std::find_if(kept.begin(), kept.end(), [&](const Area& other) {
      return unlike(one.colour, other.colour) < alike;
    });
    if (near == kept.end()) {
      kept.push_back(one);
    } else {
      near->share += one.share;
    }
  }
  std::stable_sort(kept.begin(), kept.end(), by_share);
  return kept;
}

/// "dark blue" as a bare key of TOML that is not taken.
std::string free_key(const Colour& colour, const std::vector<PictureColour>& of_game,
                     const std::vector<PictureColour>& given) {
  std::string words = trace::colour_words(colour);
  std::replace(words.begin(), words.end(), ' ', '-');
  const auto is_taken = [&](const std::string& name) {
    const auto has_it = [&](const PictureColour& one) { return one.name == name; };
    return std::any_of(of_game.begin(), of_game.end(), has_it) ||
           std::any_of(given.begin(), given.end(), has_it);
  };
  std::string name = words;
  for (int number = 2; is_taken(name); ++number) name = fmt::format("{}-{}", words, number);
  return name;
}

using Rgb3 = std::array<double, 3>;  // sRGB 0..255

Rgb3 parts_of(const Colour& colour) {
  return {colour.red * 255, colour.green * 255, colour.blue * 255};
}

/// A colour of the picture's areas and how it changes.
struct Anchor {
  Rgb3 at, change;
};

Rgb3 pulled(const Rgb3& colour, const std::vector<Anchor>& anchors) {
  Rgb3 change{0, 0, 0};
  double weights = 0;
  for (const Anchor& anchor : anchors) {
    double square = 0;
    for (std::size_t k = 0; k < 3; ++k) {
      square += (colour[k] - anchor.at[k]) * (colour[k] - anchor.at[k]);
    }
    if (square < 0.5) {
      change = anchor.change;
      weights = 1;
      break;
    }
    for (std::size_t k = 0; k < 3; ++k) change[k] += anchor.change[k] / square;
    weights += 1 / square;
  }
  Rgb3 result = colour;
  for (std::size_t k = 0; k < 3 && weights > 0; ++k) {
    result[k] = std::clamp(colour[k] + change[k] / weights, 0.0, 255.0);
  }
  return result;
}

std::uint32_t pulled(std::uint32_t pixel, const std::vector<Anchor>& anchors) {
  const std::uint32_t alpha = pixel >> 24;
  if (alpha == 0) return pixel;
  const double share = alpha / 255.0;
  Rgb3 colour;
  for (std::size_t k = 0; k < 3; ++k) colour[k] = double(pixel >> (16 - 8 * k) & 255U) / share;
  const Rgb3 fresh = pulled(colour, anchors);
  std::uint32_t result = alpha << 24;
  for (std::size_t k = 0; k < 3; ++k) {
    const auto part = static_cast<std::uint32_t>(std::lround(fresh[k] * share));
    result |= std::min(part, alpha) << (16 - 8 * k);
  }
  return result;
}

Raster pulled(const Raster& raster, const std::vector<Anchor>& anchors) {
  Raster result{raster.width, raster.height, {}};
  result.pixels.reserve(raster.pixels.size());
  std::uint32_t last = 0, last_pulled = 0;
  for (const std::uint32_t pixel : raster.pixels) {
    if (pixel != last) last = pixel, last_pulled = pulled(pixel, anchors);
    result.pixels.push_back(last_pulled);
  }
  return result;
}

}  // namespace

std::vector<PictureColour> colours_of(const game::Game& game) {
  std::vector<PictureColour> colours;
  for (const game::Named& named : game.colours) {
    const std::string* text = named.value.text();
    const auto colour = text != nullptr ? parse_colour(*text) : std::nullopt;
    if (colour && colour->alpha >= 1) colours.push_back({*colour, named.name, 0});
  }
  return colours;
}

std::vector<PictureColour> colours_in(PictureShelf& shelf, std::span<const PicturePtr> pictures,
                                      int most, const std::vector<PictureColour>& of_game) {
  std::vector<Area> all;
  int counted = 0;
  for (const PicturePtr& picture : pictures) {
    const auto raster = glance(shelf, picture);
    if (!raster) continue;
    const std::vector<Area> areas = areas_in(*raster, picture->path());
    if (!areas.empty()) ++counted;
    all.insert(all.end(), areas.begin(), areas.end());
  }
  std::vector<PictureColour> colours;
  for (const Area& area : merged(std::move(all))) {
    if (static_cast<int>(colours.size()) >= most) break;
    const auto own = std::find_if(of_game.begin(), of_game.end(), [&](const PictureColour& one) {
      return unlike(one.colour, area.colour) < the_same;
    });
    const std::string name =
        own != of_game.end() ? own->name : free_key(area.colour, of_game, colours);
    colours.push_back({area.colour, name, area.share / counted});
  }
  return colours;
}

NewPictures pull_picture(PictureShelf& shelf, const PicturePtr& picture,
                         const std::vector<PictureColour>& to, double reach) {
  NewPictures made{MadeBy::recolouring, {}, {}, {}};
  const auto pixels = own_pixels(shelf, picture, made.found);
  if (!pixels) return made;
  const auto looked_at = glance(shelf, picture);
  std::vector<Area> areas = areas_in(looked_at ? *looked_at : *pixels, picture->path());
  std::stable_sort(areas.begin(), areas.end(),
                   [](const Area& a, const Area& b) { return a.share > b.share; });
  if (areas.size() > most_changed) areas.resize(most_changed);
  std::vector<Anchor> anchors;
  std::vector<std::string> told;
  for (const Area& area : areas) {
    const auto nearest = std::ranges::min_element(
        to, {}, [&](const PictureColour& one) { return unlike(one.colour, area.colour); });
    const Rgb3 at = parts_of(area.colour);
    Rgb3 change{0, 0, 0};
    if (nearest != to.end() && unlike(nearest->colour, area.colour) < reach) {
      const Rgb3 target = parts_of(nearest->colour);
      for (std::size_t k = 0; k < 3; ++k) change[k] = target[k] - at[k];
      if (to_string(area.colour) != to_string(nearest->colour)) {
        told.push_back(fmt::format("{} became {}", to_string(area.colour), nearest->name));
      }
    }
    anchors.push_back({at, change});
  }
  const Raster raster = pulled(*pixels, anchors);
  made.pictures.push_back({write_png(raster, unprinted_ppi), raster.width, raster.height, {}});
  if (told.empty()) {
    made.words.emplace_back("No colour of the picture is so near to one of the game's.");
    return made;
  }
  const std::size_t more = told.size() > most_told ? told.size() - most_told : 0;
  told.resize(told.size() - more);
  std::string words = fmt::format("{}", fmt::join(told, ", "));
  if (more > 0) words += fmt::format(", and {} more", more);
  made.words.push_back(words + ".");
  return made;
}

}  // namespace quoin::job
