#include "pieces/card/inspect_pixels.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace quoin::pieces {
namespace {

using Parts = std::array<int, 3>;

Parts parts_of(std::uint32_t pixel) {
  return {static_cast<int>(pixel >> 16 & 255), static_cast<int>(pixel >> 8 & 255),
          static_cast<int>(pixel & 255)};
}

/// Relative luminance of a grey of each of the 256 steps.
const std::array<double, 256>& light_table() {
  static const std::array<double, 256> table = [] {
    std::array<double, 256> values{};
    for (std::size_t i = 0; i < values.size(); ++i) {
      const double part = static_cast<double>(i) / 255;
      values[i] = relative_luminance({part, part, part, 1});
    }
    return values;
  }();
  return table;
}

/// The pixel column or row that holds `place`, kept within 0..end also when it lies far off.
int index_of(double place, int end) {
  if (!(place > 0)) return 0;
  return place >= end ? end : static_cast<int>(place);
}

double cross(Point a, Point b, double x, double y) {
  return (b.x - a.x).value * (y - a.y.value) - (b.y - a.y).value * (x - a.x.value);
}

bool lies_inside(const Quad& quad, double x, double y) {
  bool any_left = false, any_right = false;
  for (std::size_t i = 0; i < quad.size(); ++i) {
    const double side = cross(quad[i], quad[(i + 1) % quad.size()], x, y);
    any_left = any_left || side < 0;
    any_right = any_right || side > 0;
  }
  return !(any_left && any_right);
}

}  // namespace

std::uint32_t Pixels::pixel(int x, int y) const {
  const int column = std::clamp(x, 0, raster_.width - 1);
  const int row = std::clamp(y, 0, raster_.height - 1);
  return raster_.pixels[static_cast<std::size_t>(row) * static_cast<std::size_t>(raster_.width) +
                        static_cast<std::size_t>(column)];
}

std::uint32_t Pixels::at(Point place) const {
  return pixel(index_of((place.x + bleed_).value * per_mm_, raster_.width),
               index_of((place.y + bleed_).value * per_mm_, raster_.height));
}

Colour Pixels::between(Point place) const {
  const double x = (place.x + bleed_).value * per_mm_ - 0.5;
  const double y = (place.y + bleed_).value * per_mm_ - 0.5;
  const int left = static_cast<int>(std::floor(x)), top = static_cast<int>(std::floor(y));
  const double across = x - left, down = y - top;
  Colour mixed{0, 0, 0, 1};
  const auto add = [&](int column, int row, double share) {
    const Colour colour = colour_of(pixel(column, row));
    mixed.red += colour.red * share;
    mixed.green += colour.green * share;
    mixed.blue += colour.blue * share;
  };
  add(left, top, (1 - across) * (1 - down));
  add(left + 1, top, across * (1 - down));
  add(left, top + 1, (1 - across) * down);
  add(left + 1, top + 1, across * down);
  return mixed;
}

std::vector<std::uint32_t> Pixels::inside(const Quad& quad) const {
  Rect box{quad[0], {}};
  for (const Point corner : quad) box = covering(box, Rect{corner, {}});
  const auto index = [&](Mm edge, int end) {
    return index_of((edge + bleed_).value * per_mm_, end);
  };
  const int left = index(box.left(), raster_.width), top = index(box.top(), raster_.height);
  const int right = std::min(index(box.right(), raster_.width) + 1, raster_.width);
  const int bottom = std::min(index(box.bottom(), raster_.height) + 1, raster_.height);
  std::vector<std::uint32_t> found;
  for (int y = top; y < bottom; ++y) {
    for (int x = left; x < right; ++x) {
      const double across = (x + 0.5) / per_mm_ - bleed_.value;
      const double down = (y + 0.5) / per_mm_ - bleed_.value;
      if (lies_inside(quad, across, down)) found.push_back(pixel(x, y));
    }
  }
  return found;
}

Colour colour_of(std::uint32_t pixel) {
  const Parts parts = parts_of(pixel);
  return {parts[0] / 255.0, parts[1] / 255.0, parts[2] / 255.0, 1};
}

double luminance_of(std::uint32_t pixel) {
  const auto& table = light_table();
  return 0.2126 * table[pixel >> 16 & 255] + 0.7152 * table[pixel >> 8 & 255] +
         0.0722 * table[pixel & 255];
}

bool is_paper(std::uint32_t pixel) {
  const Parts parts = parts_of(pixel);
  return *std::min_element(parts.begin(), parts.end()) >= 250;
}

bool is_ink(std::uint32_t pixel) {
  const Parts parts = parts_of(pixel);
  return *std::min_element(parts.begin(), parts.end()) < 235;
}

int largest_step(std::uint32_t a, std::uint32_t b) {
  const Parts first = parts_of(a), second = parts_of(b);
  int step = 0;
  for (std::size_t i = 0; i < first.size(); ++i) {
    step = std::max(step, std::abs(first[i] - second[i]));
  }
  return step;
}

std::uint32_t median_pixel(std::vector<std::uint32_t> pixels) {
  const auto middle = pixels.begin() + static_cast<std::ptrdiff_t>(pixels.size() / 2);
  std::nth_element(pixels.begin(), middle, pixels.end(), [](std::uint32_t a, std::uint32_t b) {
    return luminance_of(a) < luminance_of(b);
  });
  return *middle;
}

}  // namespace quoin::pieces
