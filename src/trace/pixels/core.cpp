#include "trace/pixels/core.h"

#include <array>
#include <optional>

namespace quoin::trace {
namespace {

constexpr std::array<std::pair<int, int>, 4> directions{{{1, 0}, {0, 1}, {1, 1}, {1, -1}}};
/// Steps to either side: a stroke two pixels wide has no single extreme.
constexpr std::array<std::pair<int, int>, 4> reaches{{{1, 1}, {1, 2}, {2, 1}, {2, 2}}};

/// Whether the pixel is an extreme of lightness in one direction with the two reaches given.
std::optional<Ridge> ridge_along(const Grid<Three>& lab, int x, int y, std::pair<int, int> way,
                                 std::pair<int, int> reach, float prominence) {
  const auto [dx, dy] = way;
  const Three here = lab.at(x, y);
  const Three a = lab.at(x + reach.first * dx, y + reach.first * dy);
  const Three b = lab.at(x - reach.second * dx, y - reach.second * dy);
  const float up = here.x - a.x, down = here.x - b.x;
  if (up * down <= 0 || std::min(std::abs(up), std::abs(down)) <= prominence) return std::nullopt;
  // Where a pixel lies between, it must not stand out more than this one.
  if (reach.first == 2 && (lab.at(x + dx, y + dy).x - here.x) * up > 1) return std::nullopt;
  if (reach.second == 2 && (lab.at(x - dx, y - dy).x - here.x) * down > 1) return std::nullopt;
  return Ridge{a, b};
}

std::optional<Ridge> ridge_at(const Grid<Three>& lab, int x, int y, float prominence) {
  if (x < 2 || y < 2 || x + 2 >= lab.width() || y + 2 >= lab.height()) return std::nullopt;
  for (const auto& way : directions) {
    for (const auto& reach : reaches) {
      if (auto found = ridge_along(lab, x, y, way, reach, prominence)) return found;
    }
  }
  return std::nullopt;
}

}  // namespace

Core::Core(const Grid<Three>& lab, double noise) : kind_(lab.width(), lab.height(), mixed_kind) {
  const float step = static_cast<float>(5 + 3 * noise), limit = step * step;
  const float prominence = static_cast<float>(10 + 2 * noise);
  // A step between neighbours is looked at once and counts for both.
  std::vector<char> stepped(lab.cells().size(), 0);
  for (int y = 0; y < lab.height(); ++y) {
    for (int x = 0; x < lab.width(); ++x) {
      const Three here = lab.at(x, y);
      if (x + 1 < lab.width() && squared(lab.at(x + 1, y) - here) >= limit) {
        stepped[lab.index(x, y)] = stepped[lab.index(x + 1, y)] = 1;
      }
      if (y + 1 < lab.height() && squared(lab.at(x, y + 1) - here) >= limit) {
        stepped[lab.index(x, y)] = stepped[lab.index(x, y + 1)] = 1;
      }
    }
  }
  for (int y = 0; y < lab.height(); ++y) {
    for (int x = 0; x < lab.width(); ++x) {
      if (stepped[lab.index(x, y)] == 0) {
        kind_.at(x, y) = flat_kind;
      } else if (const auto ridge = ridge_at(lab, x, y, prominence)) {
        kind_.at(x, y) = static_cast<int>(ridges_.size());
        ridges_.push_back(*ridge);
      }
    }
  }
}

}  // namespace quoin::trace
