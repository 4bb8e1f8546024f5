#include "trace/colours/plain_areas.h"

#include <algorithm>
#include <map>

#include "trace/pixels/noise.h"
#include "trace/pixels/source.h"

namespace quoin::trace {
namespace {

constexpr int least_alpha = 32;       // below, a premultiplied pixel says too little of its colour
constexpr int least_area = 6;         // pixels; fewer are a speck of something mixed
constexpr int tile = 8;               // pixels; means over tiles have little noise left
constexpr double noise_share = 0.02;  // of plain pixels, below which a picture is noise
// A plain area: so many of its tiles within so many units of L*a*b* of its middle.
constexpr double near_tile = 1, near_share = 0.6;
constexpr double far_tile = 4, far_share = 0.95;
constexpr int mixture_reach = 3;  // pixels: as far as an edge is soft

Three straight_colour(std::uint32_t pixel) {
  const auto alpha = float(pixel >> 24);
  if (alpha <= 0) return {};
  const auto part = [&](int shift) {
    return std::min(255.0F, float(pixel >> shift & 255) * 255 / alpha);
  };
  return {part(16), part(8), part(0)};
}

/// Sums of a tile of one area.
struct TileSum {
  Three lab, srgb;
  int pixels = 0;
  [[nodiscard]] Three mean() const { return lab * (1 / float(pixels)); }
};

/// The middle one of the tiles' values of one part of L*a*b*, by pixels.
float middle_of(const std::vector<TileSum>& tiles, float Three::*part) {
  std::vector<std::pair<float, int>> values;
  int total = 0;
  for (const TileSum& one : tiles) {
    values.emplace_back(one.mean().*part, one.pixels);
    total += one.pixels;
  }
  std::sort(values.begin(), values.end());
  int below = 0;
  for (const auto& [value, pixels] : values) {
    below += pixels;
    if (2 * below >= total) return value;
  }
  return 0;
}

/// Tells a gradient, and takes a plain area's mean from where it is undisturbed: coarse coding of
/// colour moves the tiles along an area's border.
void judge(const std::vector<TileSum>& tiles, PlainArea& area, double noise) {
  if (tiles.empty()) return;
  const Three middle{middle_of(tiles, &Three::x), middle_of(tiles, &Three::y),
                     middle_of(tiles, &Three::z)};
  TileSum calm;
  int total = 0, not_far = 0;
  for (const TileSum& one : tiles) {
    const double away = distance(one.mean(), middle);
    total += one.pixels;
    if (away < far_tile + noise) not_far += one.pixels;
    if (away >= near_tile + 0.3 * noise) continue;
    calm.srgb = calm.srgb + one.srgb;
    calm.pixels += one.pixels;
  }
  area.gradient = calm.pixels < near_share * total || not_far < far_share * total;
  if (!area.gradient) area.mean = calm.srgb * (1 / float(calm.pixels));
}

}  // namespace

PlainAreas::PlainAreas(const Raster& picture) {
  read(picture);
  const int w = width(), h = height();
  const auto step = static_cast<float>(5 + noise_), limit = step * step;
  Grid<char> plain(w, h, 1);
  int visible = 0, even = 0;
  for (int y = 0; y < h; ++y) {
    for (int x = 0; x < w; ++x) {
      if (alpha(x, y) < least_alpha) {
        plain.at(x, y) = 0;
        continue;
      }
      ++visible;
      for (const auto& [u, v] : {std::pair{x + 1, y}, {x, y + 1}}) {
        if (!plain.has(u, v) || alpha(u, v) < least_alpha) continue;
        if (squared(lab(u, v) - lab(x, y)) >= limit) plain.at(x, y) = plain.at(u, v) = 0;
      }
    }
  }
  for (const char one : plain.cells()) even += one;
  all_noise_ = visible > 0 && even < noise_share * visible;
  if (all_noise_) plain = Grid<char>(w, h, 0);
  find_areas(plain, step);
  tell_gradients();
}

void PlainAreas::read(const Raster& picture) {
  const int w = picture.width, h = picture.height;
  colour_ = Grid<Three>(w, h);
  alpha_ = Grid<std::uint8_t>(w, h);
  area_ = Grid<int>(w, h, -1);
  Grid<Rgb> pixels(w, h);
  for (std::size_t i = 0; i < picture.pixels.size(); ++i) {
    alpha_.cells()[i] = static_cast<std::uint8_t>(picture.pixels[i] >> 24);
    colour_.cells()[i] = straight_colour(picture.pixels[i]);
    pixels.cells()[i] = rgb(colour_.cells()[i]);
  }
  if (w == 0 || h == 0) return;
  const Noise noise = measure_noise(pixels);
  noise_ = std::min(noise.sigma, 12.0);
  if (noise_ > 0) {
    // With a step wide enough for noise, shades side by side would run into each other.
    pixels = without(noise, pixels);
    for (std::size_t i = 0; i < pixels.cells().size(); ++i) {
      colour_.cells()[i] = three(pixels.cells()[i]);
    }
  }
  lab_ = lab_of(pixels);
}

void PlainAreas::find_areas(const Grid<char>& plain, float step) {
  std::vector<std::pair<int, int>> waiting, members;
  for (int y0 = 0; y0 < height(); ++y0) {
    for (int x0 = 0; x0 < width(); ++x0) {
      if (plain.at(x0, y0) == 0 || area_.at(x0, y0) >= 0) continue;
      const int number = static_cast<int>(all_.size());
      double red = 0, green = 0, blue = 0;
      members.clear();
      waiting.assign(1, {x0, y0});
      area_.at(x0, y0) = number;
      while (!waiting.empty()) {
        const auto [x, y] = waiting.back();
        waiting.pop_back();
        members.emplace_back(x, y);
        red += colour(x, y).x;
        green += colour(x, y).y;
        blue += colour(x, y).z;
        for (const auto& [u, v] : {std::pair{x + 1, y}, {x - 1, y}, {x, y + 1}, {x, y - 1}}) {
          if (!plain.has(u, v) || plain.at(u, v) == 0 || area_.at(u, v) >= 0) continue;
          if (squared(lab(u, v) - lab(x, y)) >= step * step) continue;
          area_.at(u, v) = number;
          waiting.emplace_back(u, v);
        }
      }
      const auto count = double(members.size());
      const bool speck = int(members.size()) < std::min(least_area, width() * height());
      if (speck) {
        for (const auto& [x, y] : members) area_.at(x, y) = -2;  // looked at
        continue;
      }
      all_.push_back({{float(red / count), float(green / count), float(blue / count)},
                      int(members.size()),
                      false});
    }
  }
  for (int& one : area_.cells()) one = std::max(one, -1);
}

void PlainAreas::tell_gradients() {
  std::map<std::pair<int, int>, TileSum> tiles;  // by area and tile
  const int across = width() / tile + 1;
  for (int y = 0; y < height(); ++y) {
    for (int x = 0; x < width(); ++x) {
      if (area(x, y) < 0) continue;
      TileSum& sum = tiles[{area(x, y), y / tile * across + x / tile}];
      sum.lab = sum.lab + lab(x, y);
      sum.srgb = sum.srgb + colour(x, y);
      ++sum.pixels;
    }
  }
  std::vector<std::vector<TileSum>> of_area(all_.size());
  for (const auto& [where, sum] : tiles) {
    if (sum.pixels >= tile) of_area[std::size_t(where.first)].push_back(sum);
  }
  for (std::size_t i = 0; i < all_.size(); ++i) judge(of_area[i], all_[i], noise_);
}

std::optional<Mixture> PlainAreas::mixture(int x, int y) const {
  struct Side {
    int area;
    int away;
    Three colour;
  };
  std::vector<Side> sides;
  for (int v = -mixture_reach; v <= mixture_reach; ++v) {
    for (int u = -mixture_reach; u <= mixture_reach; ++u) {
      if (!area_.has(x + u, y + v) || area(x + u, y + v) < 0) continue;
      const int number = area(x + u, y + v), away = u * u + v * v;
      const PlainArea& one = all_[std::size_t(number)];
      const Three own = one.gradient ? colour(x + u, y + v) : one.mean;
      const auto known = std::find_if(sides.begin(), sides.end(),
                                      [&](const Side& side) { return side.area == number; });
      if (known == sides.end()) {
        sides.push_back({number, away, own});
      } else if (away < known->away) {
        *known = {number, away, own};
      }
    }
  }
  if (sides.empty()) return std::nullopt;
  const Three here = colour(x, y);
  std::optional<Mixture> best;
  const auto offer = [&](const Mixture& one) {
    if (!best || one.off < best->off - 0.5) best = one;
  };
  for (const Side& side : sides) {
    offer({side.area, -1, side.colour, side.colour, 0, distance(here, side.colour)});
  }
  for (std::size_t i = 0; i < sides.size(); ++i) {
    for (std::size_t j = i + 1; j < sides.size(); ++j) {
      const Three way = sides[j].colour - sides[i].colour;
      if (squared(way) <= 0) continue;
      const float part = std::clamp(dot(here - sides[i].colour, way) / squared(way), 0.0F, 1.0F);
      offer({sides[i].area, sides[j].area, sides[i].colour, sides[j].colour, part,
             distance(here, sides[i].colour + way * part)});
    }
  }
  return best;
}

}  // namespace quoin::trace
