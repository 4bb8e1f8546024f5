#include "trace/outline/side_colours.h"

#include <array>

namespace quoin::trace {
namespace {

/// How often each value of a channel was met.
struct Channel {
  std::array<int, 256> counts{};
  [[nodiscard]] float median(int total) const {
    int below = 0;
    for (std::size_t i = 0; i < counts.size(); ++i) {
      below += counts[i];
      if (below * 2 > total) return static_cast<float>(i);
    }
    return 255;
  }
};
struct SideTally {
  Channel red, green, blue;
  int total = 0;
};

/// Whether a pixel and all round it lie in one region.
bool well_inside(const Grid<int>& of, int x, int y, int scale) {
  const int own = of.at(x * scale, y * scale);
  for (int v = (y - 1) * scale; v < (y + 2) * scale; ++v) {
    for (int u = (x - 1) * scale; u < (x + 2) * scale; ++u) {
      if (of.near(u, v) != own) return false;
    }
  }
  return true;
}

Three snapped(Three colour, double noise) {
  if (noise <= 0) return colour;
  if (std::min({colour.x, colour.y, colour.z}) >= 248) return {255, 255, 255};
  if (std::max({colour.x, colour.y, colour.z}) <= 8) return {0, 0, 0};
  return colour;
}

}  // namespace

std::optional<Three> MixedRegions::at(int region, Spot place) const {
  constexpr int farthest = 3;  // pixels
  const int x = static_cast<int>(std::floor(place.x * scale));
  const int y = static_cast<int>(std::floor(place.y * scale));
  Three sum;
  int count = 0;
  const auto look = [&](int u, int v) {
    if (!of.has(u, v) || of.at(u, v) != region) return;
    sum = sum + plain[std::size_t(part.at(u, v))];
    ++count;
  };
  int enough = farthest * scale;
  for (int away = 0; away <= enough; ++away) {
    for (int i = -away; i <= away; ++i) {
      look(x + i, y - away);
      if (away > 0) look(x + i, y + away);
      if (std::abs(i) == away) continue;
      look(x - away, y + i);
      look(x + away, y + i);
    }
    // A pixel's width further on, so that where two parts meet both have their share.
    if (count > 0) enough = std::min(enough, away + scale / 2);
  }
  if (count == 0) return std::nullopt;
  return sum * (1 / static_cast<float>(count));
}

std::vector<Three> label_colours(const Regions& regions, const Coloured& picture, double noise) {
  std::vector<SideTally> tallies(picture.palette.srgb.size());
  // Of the pixels themselves: between them an enlarged edge swings past its colours.
  const int scale = picture.scale;
  for (int y = 0; y < picture.pixels.height(); ++y) {
    for (int x = 0; x < picture.pixels.width(); ++x) {
      if (!well_inside(regions.of, x, y, scale)) continue;
      const int label = regions.all[std::size_t(regions.of.at(x * scale, y * scale))].label;
      if (label < 0) continue;
      SideTally& tally = tallies[std::size_t(label)];
      const Rgb pixel = picture.pixels.at(x, y);
      ++tally.red.counts[pixel.red];
      ++tally.green.counts[pixel.green];
      ++tally.blue.counts[pixel.blue];
      ++tally.total;
    }
  }
  std::vector<Three> colours = picture.palette.srgb;
  for (std::size_t i = 0; i < colours.size(); ++i) {
    const SideTally& t = tallies[i];
    if (t.total > 12) {
      colours[i] = {t.red.median(t.total), t.green.median(t.total), t.blue.median(t.total)};
    }
    colours[i] = snapped(colours[i], noise);
  }
  return colours;
}

}  // namespace quoin::trace
