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
struct Tally {
  Channel red, green, blue;
  int total = 0;
};

bool well_inside(const Grid<int>& of, int x, int y, int reach) {
  const int own = of.at(x, y);
  for (const int v : {-reach, 0, reach}) {
    for (const int u : {-reach, 0, reach}) {
      if (of.near(x + u, y + v) != own) return false;
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

Three Ramp::at(Spot place) const {
  double offset = 0;
  if (radial) {
    offset = radius > 0 ? std::hypot(place.x - from.x, place.y - from.y) / radius : 0;
  } else {
    const Spot way = to - from;
    const double length = way.x * way.x + way.y * way.y;
    const Spot there = place - from;
    offset = length > 0 ? (there.x * way.x + there.y * way.y) / length : 0;
  }
  if (offset <= offsets.front()) return colours.front();
  for (std::size_t i = 1; i < offsets.size(); ++i) {
    if (offset > offsets[i]) continue;
    const double span = offsets[i] - offsets[i - 1];
    const float share = span > 0 ? static_cast<float>((offset - offsets[i - 1]) / span) : 1;
    return colours[i - 1] * (1 - share) + colours[i] * share;
  }
  return colours.back();
}

std::vector<Three> label_colours(const Regions& regions, const Coloured& picture, double noise) {
  std::vector<Tally> tallies(picture.palette.srgb.size());
  for (int y = 0; y < regions.of.height(); ++y) {
    for (int x = 0; x < regions.of.width(); ++x) {
      if (!well_inside(regions.of, x, y, picture.scale)) continue;
      Tally& tally = tallies[std::size_t(regions.all[std::size_t(regions.of.at(x, y))].label)];
      const Rgb pixel = picture.enlarged.at(x, y);
      ++tally.red.counts[pixel.red];
      ++tally.green.counts[pixel.green];
      ++tally.blue.counts[pixel.blue];
      ++tally.total;
    }
  }
  std::vector<Three> colours = picture.palette.srgb;
  for (std::size_t i = 0; i < colours.size(); ++i) {
    const Tally& t = tallies[i];
    if (t.total > 12) {
      colours[i] = {t.red.median(t.total), t.green.median(t.total), t.blue.median(t.total)};
    }
    colours[i] = snapped(colours[i], noise);
  }
  return colours;
}

}  // namespace quoin::trace
