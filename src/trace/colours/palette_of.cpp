#include "trace/colours/palette_of.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "trace/colours/plain_areas.h"
#include "trace/drawing/colour_words.h"

namespace quoin::trace {
namespace {

constexpr double same_colour = 1;           // CIEDE2000
constexpr float shade_side = 3;             // L*a*b* units: gradients are counted in such cells
constexpr double least_plain_share = 5e-4;  // of the pictures
constexpr double least_shade_share = 0.01;  // of the pictures, for what gradients only have

/// One colour that was met, and on how many pixels.
struct Shade {
  double pixels = 0;
  double plain = 0;                     ///< of these, in plain areas
  double red = 0, green = 0, blue = 0;  ///< sums, 0..255 each, over `seen` pixels
  double seen = 0;
  [[nodiscard]] Colour colour() const {
    const double whole = std::max(seen, 1e-9) * 255;
    return {red / whole, green / whole, blue / whole, 1};
  }
  void add_seen(Three srgb, double weight) {
    red += srgb.x * weight;
    green += srgb.y * weight;
    blue += srgb.z * weight;
    seen += weight;
  }
  void add(const Shade& other) {
    pixels += other.pixels;
    plain += other.plain;
    red += other.red;
    green += other.green;
    blue += other.blue;
    seen += other.seen;
  }
};

using ShadeCell = std::array<int, 3>;
ShadeCell cell_of_shade(Three lab) {
  const auto place = [](float v) { return static_cast<int>(std::floor(v / shade_side)); };
  return {place(lab.x), place(lab.y), place(lab.z)};
}

/// The shades of one picture: a row for each plain area, then cells of its gradients.
void add_shades(const PlainAreas& areas, std::vector<Shade>& shades) {
  const std::size_t base = shades.size();
  for (const PlainArea& area : areas.all()) {
    Shade one;
    if (!area.gradient) one.add_seen(area.mean, area.pixels);
    shades.push_back(one);
  }
  std::map<ShadeCell, Shade> cells;
  const auto count = [&](int area, Three colour, Three lab, double weight) {
    const bool plain = !areas.all()[std::size_t(area)].gradient;
    Shade& one = plain ? shades[base + std::size_t(area)] : cells[cell_of_shade(lab)];
    one.pixels += weight;
    if (plain) {
      one.plain += weight;
    } else {
      one.add_seen(colour, weight);
    }
  };
  for (int y = 0; y < areas.height(); ++y) {
    for (int x = 0; x < areas.width(); ++x) {
      const double weight = areas.alpha(x, y) / 255.0;
      if (weight <= 0) continue;
      if (areas.area(x, y) >= 0) {
        count(areas.area(x, y), areas.colour(x, y), areas.lab(x, y), weight);
        continue;
      }
      const std::optional<Mixture> mixture = areas.mixture(x, y);
      if (!mixture || mixture->off > areas.tolerance()) continue;
      const auto part_of = [&](int area, Three colour, double part) {
        if (area < 0 || part <= 0) return;
        const Colour c{colour.x / 255.0, colour.y / 255.0, colour.z / 255.0, 1};
        const Lab lab = to_lab(c);
        count(area, colour, {float(lab.l), float(lab.a), float(lab.b)}, part * weight);
      };
      part_of(mixture->first, mixture->first_colour, 1 - mixture->part);
      part_of(mixture->second, mixture->second_colour, mixture->part);
    }
  }
  for (const auto& [cell, shade] : cells) shades.push_back(shade);
}

bool larger(const Shade& a, const Shade& b) {
  const auto key = [](const Shade& s) { return std::array{-s.pixels, s.red, s.green, s.blue}; };
  return key(a) < key(b);
}

/// Shades nearer than `nearest` to a larger one added to the nearest such.
std::vector<Shade> merged(std::vector<Shade> shades, double nearest) {
  std::sort(shades.begin(), shades.end(), larger);
  std::vector<Shade> kept;
  std::vector<Lab> labs;  // of what each began with: what is added moves no limit
  for (const Shade& one : shades) {
    if (one.pixels <= 0) continue;
    const Lab own = to_lab(one.colour());
    std::size_t best = kept.size();
    double least = nearest;
    for (std::size_t i = 0; i < kept.size(); ++i) {
      const double away = ciede2000(own, labs[i]);
      if (away < least) {
        least = away;
        best = i;
      }
    }
    if (best < kept.size()) {
      kept[best].add(one);
    } else {
      kept.push_back(one);
      labs.push_back(own);
    }
  }
  std::sort(kept.begin(), kept.end(), larger);
  return kept;
}

std::string key_words(Colour colour) {
  std::string words = colour_words(colour);
  std::replace(words.begin(), words.end(), ' ', '-');
  // Plain words that mean a colour wherever a colour is written keep that meaning.
  if (words == "white" && colour != white) return "off-white";
  if (words == "black" && colour != black) return "soft-black";
  return words;
}

/// Names in order, each unlike those before it and those the game has for other colours.
class ColourNames {
 public:
  explicit ColourNames(const std::map<std::string, Colour>& named) : named_(named) {}
  std::string name(Colour colour) {
    const Lab own = to_lab(colour);
    std::string nearest;
    double least = same_colour;
    for (const auto& [name, known] : named_) {
      const double away = ciede2000(own, to_lab(known));
      if (away >= least || given_.contains(name)) continue;
      least = away;
      nearest = name;
    }
    if (nearest.empty()) nearest = fresh(key_words(colour));
    given_.insert(nearest);
    return nearest;
  }

 private:
  [[nodiscard]] std::string fresh(const std::string& words) const {
    std::string name = words;
    for (int n = 2; given_.contains(name) || named_.contains(name); ++n) {
      name = words + "-" + std::to_string(n);
    }
    return name;
  }
  const std::map<std::string, Colour>& named_;
  std::set<std::string> given_;
};

}  // namespace

std::vector<PaletteColour> palette_of(std::span<const Raster* const> pictures,
                                      const PaletteWishes& wishes) {
  std::vector<Shade> shades;
  for (const Raster* picture : pictures) add_shades(PlainAreas(*picture), shades);
  double total = 0;
  for (const Shade& one : shades) total += one.pixels;
  std::vector<PaletteColour> palette;
  ColourNames names(wishes.named);
  for (const Shade& one : merged(std::move(shades), wishes.nearest)) {
    if (static_cast<int>(palette.size()) >= wishes.most) break;
    const bool enough =
        one.plain / total >= least_plain_share || one.pixels / total >= least_shade_share;
    if (!enough) continue;
    const Colour colour = *parse_colour(to_string(one.colour()));
    palette.push_back({colour, names.name(colour), one.pixels / total});
  }
  return palette;
}

}  // namespace quoin::trace
