#include "trace/outline/skeleton.h"

#include <array>

namespace quoin::trace {
namespace {

/// The eight neighbours, clockwise from the one above.
constexpr std::array<std::pair<int, int>, 8> eight_beside{
    {{0, -1}, {1, -1}, {1, 0}, {1, 1}, {0, 1}, {-1, 1}, {-1, 0}, {-1, -1}}};

bool marked_at(const Grid<char>& grid, int x, int y) {
  return grid.has(x, y) && grid.at(x, y) != 0;
}

std::array<bool, 8> neighbours(const Grid<char>& grid, int x, int y) {
  std::array<bool, 8> found{};
  for (std::size_t k = 0; k < 8; ++k) {
    found[k] = marked_at(grid, x + eight_beside[k].first, y + eight_beside[k].second);
  }
  return found;
}

bool removable(const std::array<bool, 8>& p, bool second) {
  int count = 0, turns = 0;
  for (std::size_t k = 0; k < 8; ++k) {
    count += p[k] ? 1 : 0;
    turns += !p[k] && p[(k + 1) % 8] ? 1 : 0;
  }
  if (count < 2 || count > 6 || turns != 1) return false;
  const bool north = p[0], east = p[2], south = p[4], west = p[6];
  return second ? !(north && east && west) && !(north && south && west)
                : !(north && east && south) && !(east && south && west);
}

/// Lines for walking: pixels side by side count before those that touch at a corner.
class PathWalker {
 public:
  explicit PathWalker(const Grid<char>& grid)
      : grid_(grid), used_(grid.width(), grid.height(), 0) {}

  std::vector<PixelPath> run() {
    // From ends and meeting places first, rings afterwards.
    for (int y = 0; y < grid_.height(); ++y) {
      for (int x = 0; x < grid_.width(); ++x) {
        if (grid_.at(x, y) != 0 && ways(x, y) != 2) from(x, y);
      }
    }
    for (int y = 0; y < grid_.height(); ++y) {
      for (int x = 0; x < grid_.width(); ++x) {
        if (grid_.at(x, y) != 0 && used_.at(x, y) == 0 && ways(x, y) == 2) ring(x, y);
      }
    }
    return std::move(paths_);
  }

 private:
  /// How many lines leave a pixel.
  [[nodiscard]] int ways(int x, int y) const {
    const auto p = neighbours(grid_, x, y);
    int count = 0;
    for (std::size_t k = 0; k < 8; ++k) count += !p[k] && p[(k + 1) % 8] ? 1 : 0;
    return count;
  }

  [[nodiscard]] bool next(int x, int y, std::pair<int, int> before, std::pair<int, int>& to) const {
    for (const std::size_t start : {0U, 1U}) {  // sides, then corners
      for (std::size_t k = start; k < 8; k += 2) {
        const int u = x + eight_beside[k].first, v = y + eight_beside[k].second;
        if (!marked_at(grid_, u, v) || used_.at(u, v) != 0) continue;
        if (std::pair{u, v} == before) continue;
        to = {u, v};
        return true;
      }
    }
    return false;
  }

  void from(int x, int y) {
    used_.at(x, y) = 1;
    std::pair<int, int> step;
    while (next(x, y, {-1, -1}, step)) {
      PixelPath path;
      path.pixels.push_back({x, y});
      std::pair<int, int> at = step, before{x, y};
      while (true) {
        path.pixels.push_back(at);
        if (ways(at.first, at.second) != 2) break;
        used_.at(at.first, at.second) = 1;
        std::pair<int, int> further;
        if (!next(at.first, at.second, before, further)) break;
        before = at;
        at = further;
      }
      if (ways(at.first, at.second) <= 1) used_.at(at.first, at.second) = 1;
      path.branches = ways(x, y) > 2 || ways(at.first, at.second) > 2;
      const bool went_nowhere = path.pixels.size() == 2 && used_.at(at.first, at.second) == 0;
      paths_.push_back(std::move(path));
      if (went_nowhere) break;
    }
  }

  void ring(int x, int y) {
    PixelPath path;
    path.closed = true;
    std::pair<int, int> at{x, y}, before{-1, -1}, further;
    while (true) {
      used_.at(at.first, at.second) = 1;
      path.pixels.push_back(at);
      if (!next(at.first, at.second, before, further)) break;
      before = at;
      at = further;
    }
    const auto& [u, v] = path.pixels.back();
    path.closed = std::abs(u - x) <= 1 && std::abs(v - y) <= 1 && path.pixels.size() > 8;
    paths_.push_back(std::move(path));
  }

  const Grid<char>& grid_;
  Grid<char> used_;
  std::vector<PixelPath> paths_;
};

}  // namespace

void thin(Grid<char>& marked) {
  for (bool changed = true; changed;) {
    changed = false;
    for (const bool second : {false, true}) {
      std::vector<std::size_t> gone;
      for (int y = 0; y < marked.height(); ++y) {
        for (int x = 0; x < marked.width(); ++x) {
          if (marked.at(x, y) != 0 && removable(neighbours(marked, x, y), second)) {
            gone.push_back(marked.index(x, y));
          }
        }
      }
      for (const std::size_t i : gone) marked.cells()[i] = 0;
      changed = changed || !gone.empty();
    }
  }
}

std::vector<PixelPath> paths_of(const Grid<char>& thinned) { return PathWalker(thinned).run(); }

}  // namespace quoin::trace
