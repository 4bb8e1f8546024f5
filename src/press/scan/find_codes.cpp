#include "press/scan/find_codes.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <optional>

#include "press/scan/dark_patches.h"
#include "press/scan/plane_map.h"

namespace quoin::press {
namespace {

using Corners = std::array<Pixel, 4>;

double squared(Pixel a, Pixel b) { return (a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y); }

/// Twice the area of the triangle, positive when c lies clockwise of a -> b (y down).
double side_of(Pixel a, Pixel b, Pixel c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

/// Corners of the pixels at both ends of each run: whatever is farthest out is among them.
std::vector<Pixel> outline_of(const DarkPatch& patch) {
  std::vector<Pixel> points;
  for (const DarkRun& run : patch.runs) {
    for (const int x : {run.from, run.to}) {
      for (const int y : {run.row, run.row + 1}) {
        points.push_back({static_cast<double>(x), static_cast<double>(y)});
      }
    }
  }
  return points;
}

template <typename Measure>
Pixel farthest(const std::vector<Pixel>& points, Measure measure) {
  return *std::max_element(points.begin(), points.end(),
                           [&](Pixel a, Pixel b) { return measure(a) < measure(b); });
}

/// The patch as a four-sided figure, clockwise; nothing when it is none with sides about alike.
std::optional<Corners> corners_of(const DarkPatch& patch) {
  const std::vector<Pixel> points = outline_of(patch);
  const Pixel middle{(patch.left + patch.right) / 2.0, (patch.top + patch.bottom) / 2.0};
  const Pixel a = farthest(points, [&](Pixel p) { return squared(p, middle); });
  const Pixel c = farthest(points, [&](Pixel p) { return squared(p, a); });
  const Pixel b = farthest(points, [&](Pixel p) { return -side_of(a, c, p); });
  const Pixel d = farthest(points, [&](Pixel p) { return side_of(a, c, p); });
  const double area = (std::abs(side_of(a, c, b)) + std::abs(side_of(a, c, d))) / 2;
  const std::array<double, 4> sides{squared(a, b), squared(b, c), squared(c, d), squared(d, a)};
  const auto [least, most] = std::minmax_element(sides.begin(), sides.end());
  if (!(*least > 36) || *most > *least * 4 || area < *least / 2) return std::nullopt;
  return Corners{a, b, c, d};
}

std::optional<PlaneMap> module_map(const Corners& corners) {
  const Mm n{press::code_modules};
  const std::array<Point, 4> square{Point{}, {n, Mm{}}, {n, n}, {Mm{}, n}};
  std::vector<Sighting> sightings;
  for (std::size_t i = 0; i < 4; ++i) sightings.push_back({square[i], corners[i]});
  const auto fit = fit_plane(sightings, Perspective::free, 1e6);
  return fit ? std::optional(fit->map) : std::nullopt;
}

/// Mean brightness round the middle of a module; outside of 0 to 6 of the paper round the mark.
double module_brightness(const GreyImage& image, const PlaneMap& map, double column, double row) {
  double sum = 0;
  for (const double dx : {0.3, 0.5, 0.7}) {
    for (const double dy : {0.3, 0.5, 0.7}) {
      sum += brightness(image, map({Mm{column + dx}, Mm{row + dy}}));
    }
  }
  return sum / 9;
}

/// The inner modules as bits, first row first; nothing when the black ring or the white one round
/// it is not there.
std::optional<std::uint32_t> read_bits(const GreyImage& image, const PlaneMap& map) {
  constexpr int n = code_modules;
  std::vector<double> ring, paper;
  for (int i = 0; i < n; ++i) {
    for (const auto& [column, row] : {std::pair{i, 0}, {i, n - 1}, {0, i}, {n - 1, i}}) {
      ring.push_back(module_brightness(image, map, column, row));
    }
    for (const auto& [column, row] : {std::pair{i, -1}, {i, n}, {-1, i}, {n, i}}) {
      paper.push_back(module_brightness(image, map, column, row));
    }
  }
  const auto mean = [](const std::vector<double>& all) {
    double sum = 0;
    for (const double each : all) sum += each;
    return sum / static_cast<double>(all.size());
  };
  const double black = mean(ring), white = mean(paper), middle = (black + white) / 2;
  if (!(white - black > 25)) return std::nullopt;
  const auto light = std::count_if(ring.begin(), ring.end(), [&](double b) { return b > middle; });
  const auto dark = std::count_if(paper.begin(), paper.end(), [&](double b) { return b < middle; });
  if (light > 2 || dark > 4) return std::nullopt;
  std::uint32_t bits = 0;
  for (int row = 1; row < n - 1; ++row) {
    for (int column = 1; column < n - 1; ++column) {
      bits = bits << 1 | (module_brightness(image, map, column, row) < middle ? 1U : 0U);
    }
  }
  return bits;
}

/// The same square read after a quarter turn clockwise.
std::uint32_t turned_bits(std::uint32_t bits) {
  std::uint32_t to = 0;
  for (int row = 0; row < 5; ++row) {
    for (int column = 0; column < 5; ++column) {
      to = to << 1 | (bits >> (24 - ((4 - column) * 5 + row)) & 1U);
    }
  }
  return to;
}

std::uint32_t mirrored_bits(std::uint32_t bits) {
  std::uint32_t to = 0;
  for (int i = 0; i < 25; ++i) to = to << 1 | (bits >> (24 - (i / 5 * 5 + 4 - i % 5)) & 1U);
  return to;
}

/// The code that these bits are; its corners in the order of the upright mark.
std::optional<CodeSeen> recognised(std::uint32_t bits, const Corners& corners) {
  const auto& codes = code_bits();
  for (const bool mirrored : {false, true}) {
    std::uint32_t seen = mirrored ? mirrored_bits(bits) : bits;
    // Mirrored, the corners come in the other order: from the second backwards.
    Corners order = mirrored ? Corners{corners[1], corners[0], corners[3], corners[2]} : corners;
    for (int quarter = 0; quarter < 4; ++quarter) {
      for (std::size_t i = 0; i < codes.size(); ++i) {
        const int wrong = std::popcount(seen ^ codes[i]);
        if (wrong <= most_wrong_bits) return CodeSeen{static_cast<int>(i), mirrored, wrong, order};
      }
      // After a quarter turn clockwise what was at the bottom left is at the top left.
      seen = turned_bits(seen);
      order = {order[3], order[0], order[1], order[2]};
    }
  }
  return std::nullopt;
}

}  // namespace

std::vector<CodeSeen> find_codes(const GreyImage& image) {
  std::vector<CodeSeen> found;
  const int longer = std::max(image.width, image.height);
  const PatchSizes sizes{std::max(12, longer * 12 / 1000), longer * 12 / 100};
  for (const DarkPatch& patch : dark_patches(image, longer / 32, 0.8, sizes)) {
    const std::optional<Corners> corners = corners_of(patch);
    if (!corners) continue;
    const std::optional<PlaneMap> map = module_map(*corners);
    if (!map) continue;
    const std::optional<std::uint32_t> bits = read_bits(image, *map);
    if (!bits) continue;
    if (auto code = recognised(*bits, *corners)) found.push_back(*code);
  }
  return found;
}

}  // namespace quoin::press
