#include "media/canvas/mask.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace quoin {
namespace {

/// A box of `size` pixels round each pixel, reaching `before` pixels back.
struct Box {
  int size = 1, before = 0;
};

std::array<Box, 3> boxes_for(double sigma) {
  const int d = static_cast<int>(std::floor(sigma * 3 * std::sqrt(2 * std::numbers::pi) / 4 + 0.5));
  if (d % 2 == 1) return {Box{d, d / 2}, Box{d, d / 2}, Box{d, d / 2}};
  return {Box{d, d / 2}, Box{d, d / 2 - 1}, Box{d + 1, d / 2}};
}

constexpr double least_sigma = 0.3;

using Row = std::uint16_t;

Row mean(std::uint32_t sum, Box box) {
  return static_cast<Row>((sum + static_cast<std::uint32_t>(box.size) / 2) /
                          static_cast<std::uint32_t>(box.size));
}

/// Means over the box along one row. Sums stay below 2^32: a box is shorter than 2^16.
void box_row(const Row* from, Row* to, int count, Box box) {
  std::uint32_t sum = 0;
  const int after = box.size - box.before;  // the first pixel past the box
  for (int i = 0; i < std::min(after, count); ++i) sum += from[i];
  for (int i = 0; i < count; ++i) {
    to[i] = mean(sum, box);
    if (i + after < count) sum += from[i + after];
    if (i - box.before >= 0) sum -= from[i - box.before];
  }
}

/// Means over the box down all columns at once, so that memory is met row after row.
void box_columns(const Row* from, Row* to, int width, int height, Box box) {
  std::vector<std::uint32_t> sums(static_cast<std::size_t>(width), 0);
  const auto row = [&](int y) { return from + std::ptrdiff_t{y} * width; };
  const int after = box.size - box.before;
  for (int y = 0; y < std::min(after, height); ++y)
    for (int x = 0; x < width; ++x) sums[static_cast<std::size_t>(x)] += row(y)[x];
  for (int y = 0; y < height; ++y) {
    Row* const out = to + std::ptrdiff_t{y} * width;
    const Row* const enters = y + after < height ? row(y + after) : nullptr;
    const Row* const leaves = y - box.before >= 0 ? row(y - box.before) : nullptr;
    for (int x = 0; x < width; ++x) {
      std::uint32_t& sum = sums[static_cast<std::size_t>(x)];
      out[x] = mean(sum, box);
      if (enters) sum += enters[x];
      if (leaves) sum -= leaves[x];
    }
  }
}

constexpr double nowhere = 1e20;

/// Squared distances along one line: the lower envelope of the parabolas that stand on `f`.
class DistanceLine {
 public:
  explicit DistanceLine(int longest)
      : foot_(static_cast<std::size_t>(longest)), edge_(static_cast<std::size_t>(longest) + 1) {}

  void run(const std::vector<double>& f, std::vector<double>& out, int count) {
    int top = 0;
    foot_[0] = 0;
    edge_[0] = -nowhere;
    edge_[1] = nowhere;
    for (int q = 1; q < count; ++q) {
      double s = crossing(f, q, foot_[at(top)]);
      while (top > 0 && s <= edge_[at(top)]) s = crossing(f, q, foot_[at(--top)]);
      if (s > edge_[at(top)]) ++top;
      foot_[at(top)] = q;
      edge_[at(top)] = top == 0 ? -nowhere : s;
      edge_[at(top + 1)] = nowhere;
    }
    for (int q = 0, k = 0; q < count; ++q) {
      while (edge_[at(k + 1)] < q) ++k;
      const double away = q - foot_[at(k)];
      out[at(q)] = away * away + f[at(foot_[at(k)])];
    }
  }

 private:
  static std::size_t at(int i) { return static_cast<std::size_t>(i); }
  static double crossing(const std::vector<double>& f, int q, int p) {
    return ((f[at(q)] + double(q) * q) - (f[at(p)] + double(p) * p)) / (2.0 * (q - p));
  }
  std::vector<int> foot_;
  std::vector<double> edge_;
};

/// Squared distance of every pixel from the nearest that is more than half covered.
std::vector<float> squared_distances(const Mask& mask) {
  const int longest = std::max(mask.width, mask.height);
  DistanceLine line(longest);
  std::vector<double> f(static_cast<std::size_t>(longest)), out(f.size());
  std::vector<float> squared(mask.cover.size());
  const auto at = [&](int x, int y) { return static_cast<std::size_t>(y) * mask.width + x; };
  for (int x = 0; x < mask.width; ++x) {
    for (int y = 0; y < mask.height; ++y)
      f[static_cast<std::size_t>(y)] = mask.at(x, y) > 127 ? 0 : nowhere;
    line.run(f, out, mask.height);
    for (int y = 0; y < mask.height; ++y)
      squared[at(x, y)] = static_cast<float>(out[static_cast<std::size_t>(y)]);
  }
  for (int y = 0; y < mask.height; ++y) {
    for (int x = 0; x < mask.width; ++x) f[static_cast<std::size_t>(x)] = squared[at(x, y)];
    line.run(f, out, mask.width);
    for (int x = 0; x < mask.width; ++x)
      squared[at(x, y)] = static_cast<float>(out[static_cast<std::size_t>(x)]);
  }
  return squared;
}

}  // namespace

int blur_reach(double sigma) {
  if (sigma < least_sigma) return 0;
  int reach = 0;
  for (const Box& box : boxes_for(sigma)) reach += std::max(box.before, box.size - box.before - 1);
  return reach + 1;
}

Mask blurred(const Mask& mask, double sigma) {
  if (sigma < least_sigma || mask.cover.empty()) return mask;
  std::vector<std::uint16_t> now(mask.cover.size()), next(mask.cover.size());
  for (std::size_t i = 0; i < now.size(); ++i)
    now[i] = static_cast<std::uint16_t>(mask.cover[i] * 257);
  for (const Box& box : boxes_for(sigma)) {
    if (box.size <= 1) continue;
    for (int y = 0; y < mask.height; ++y) {
      const std::ptrdiff_t row = std::ptrdiff_t{y} * mask.width;
      box_row(now.data() + row, next.data() + row, mask.width, box);
    }
    box_columns(next.data(), now.data(), mask.width, mask.height, box);
  }
  Mask soft{mask.width, mask.height, std::vector<std::uint8_t>(now.size())};
  for (std::size_t i = 0; i < now.size(); ++i)
    soft.cover[i] = static_cast<std::uint8_t>((now[i] + 128) / 257);
  return soft;
}

Mask spread_out(const Mask& mask, double radius) {
  Mask wide{mask.width, mask.height, std::vector<std::uint8_t>(mask.cover.size())};
  if (mask.cover.empty()) return wide;
  const std::vector<float> squared = squared_distances(mask);
  for (std::size_t i = 0; i < squared.size(); ++i) {
    // Distances are between middles; the edge of what is covered lies half a pixel out, and a
    // pixel is covered half when that edge runs through its middle.
    const double cover = radius + 1 - std::sqrt(static_cast<double>(squared[i]));
    wide.cover[i] = static_cast<std::uint8_t>(std::lround(std::clamp(cover, 0.0, 1.0) * 255));
  }
  return wide;
}

}  // namespace quoin
