#include "trace/outline/cracks.h"

#include <optional>
#include <unordered_map>

namespace quoin::trace {
namespace {

constexpr double farthest_move = 0.6;  // pixels

enum class Way { east, south, west, north };
constexpr Way back_of(Way way) { return Way((int(way) + 2) % 4); }

class CrackWalker {
 public:
  CrackWalker(const Regions& regions, const Coloured& picture, const SideColours& colours)
      : of_(regions.of),
        picture_(picture),
        colours_(colours),
        width_(of_.width()),
        height_(of_.height()),
        seen_across_(width_ + 1, height_ + 1, 0),
        seen_down_(width_ + 1, height_ + 1, 0) {}

  CrackMap run() {
    for (int y = 0; y <= height_; ++y) {
      for (int x = 0; x <= width_; ++x) {
        if (degree(x, y) > 0 && is_junction(x, y)) {
          for (const Way way : {Way::east, Way::south, Way::west, Way::north}) {
            if (open(x, y, way)) walk(x, y, way);
          }
        }
      }
    }
    for (int y = 0; y <= height_; ++y) {
      for (int x = 0; x <= width_; ++x) {
        if (open(x, y, Way::east)) walk(x, y, Way::east);
      }
    }
    const double scale = picture_.scale;
    for (Chain& chain : map_.chains) {
      for (Spot& point : chain.points) point = point * (1 / scale);
    }
    for (Spot& junction : map_.junctions) junction = junction * (1 / scale);
    return std::move(map_);
  }

 private:
  [[nodiscard]] int region(int x, int y) const { return of_.has(x, y) ? of_.at(x, y) : -1; }
  /// Whether the cell side that leaves a corner to the east, or to the south, is a border.
  [[nodiscard]] bool across(int x, int y) const {
    return x >= 0 && x < width_ && y >= 0 && y <= height_ && region(x, y - 1) != region(x, y);
  }
  [[nodiscard]] bool down(int x, int y) const {
    return y >= 0 && y < height_ && x >= 0 && x <= width_ && region(x - 1, y) != region(x, y);
  }
  [[nodiscard]] bool border(int x, int y, Way way) const {
    switch (way) {
      case Way::east:
        return across(x, y);
      case Way::south:
        return down(x, y);
      case Way::west:
        return across(x - 1, y);
      case Way::north:
        return down(x, y - 1);
    }
    return false;
  }
  [[nodiscard]] char& seen(int x, int y, Way way) {
    switch (way) {
      case Way::east:
        return seen_across_.at(x, y);
      case Way::south:
        return seen_down_.at(x, y);
      case Way::west:
        return seen_across_.at(x - 1, y);
      case Way::north:
        break;
    }
    return seen_down_.at(x, y - 1);
  }
  [[nodiscard]] bool open(int x, int y, Way way) { return border(x, y, way) && !seen(x, y, way); }
  [[nodiscard]] int degree(int x, int y) const {
    return int(across(x, y)) + int(across(x - 1, y)) + int(down(x, y)) + int(down(x, y - 1));
  }
  [[nodiscard]] bool is_junction(int x, int y) const {
    const int ways = degree(x, y);
    return ways > 2 || (ways == 2 && (x == 0 || x == width_) && (y == 0 || y == height_));
  }

  int junction(int x, int y) {
    const std::int64_t key = std::int64_t(y) * (width_ + 1) + x;
    const auto [found, is_new] = numbers_.try_emplace(key, int(map_.junctions.size()));
    if (is_new) map_.junctions.push_back({double(x), double(y)});
    return found->second;
  }

  /// How much of the second colour a cell has.
  [[nodiscard]] double share(int x, int y, Three first, Three second) const {
    const Three way = second - first;
    const float length = squared(way);
    if (length < 1) return 0.5;
    return double(dot(three(picture_.enlarged.near(x, y)) - first, way) / length);
  }

  /// The middle of a cell side, moved across it to where the border is.
  [[nodiscard]] Spot crossing(bool horizontal, int x, int y) const {
    Spot middle = horizontal ? Spot{x + 0.5, double(y)} : Spot{double(x), y + 0.5};
    const int first = horizontal ? region(x, y - 1) : region(x - 1, y), second = region(x, y);
    if (first < 0 || second < 0) return middle;
    const double scale = picture_.scale;
    const Spot place = middle * (1 / scale);
    const Three a = colours_.of(first, place), b = colours_.of(second, place);
    double& across = horizontal ? middle.y : middle.x;
    auto found = by_area_if_level(horizontal, place, a, b);
    if (!found) found = by_halves(horizontal, x, y, a, b);
    if (!found) return middle;
    const double move = *found * scale - across;
    across += std::clamp(move, -farthest_move * scale, farthest_move * scale);
    return middle;
  }

  /// By area where the border is upright or level: at a slanting one that says the same for both
  /// cells of a pixel, which makes steps.
  [[nodiscard]] std::optional<double> by_area_if_level(bool horizontal, Spot place, Three a,
                                                       Three b) const {
    constexpr double level = 0.06;  // pixels from one pixel to the next
    const double none = -1e9;
    const double here = by_area(horizontal, place, a, b, 0).value_or(none);
    const double before = by_area(horizontal, place, a, b, -1).value_or(none);
    const double after = by_area(horizontal, place, a, b, 1).value_or(none);
    if (here == none || std::abs(before - here) > level || std::abs(after - here) > level) {
      return std::nullopt;
    }
    return here;
  }

  /// Where the border must be for the pixels across it to have as much of both colours as they
  /// have: exact for an upright or level border, whatever part of a pixel it covers. Looks so many
  /// pixels beside the place. Nothing when the colours do not come out pure within two pixels on
  /// both sides.
  [[nodiscard]] std::optional<double> by_area(bool horizontal, Spot place, Three a, Three b,
                                              int beside) const {
    const int along = static_cast<int>(std::floor(horizontal ? place.x : place.y)) + beside;
    const int start = static_cast<int>(std::floor(horizontal ? place.y : place.x));
    const Three way = b - a;
    const float length = squared(way);
    if (length < 100) return std::nullopt;
    const double pure = std::max(0.04, 3 / std::sqrt(double(length)));
    const auto part = [&](int i) {
      const Rgb pixel =
          horizontal ? picture_.pixels.near(along, i) : picture_.pixels.near(i, along);
      return double(dot(three(pixel) - a, way)) / double(length);
    };
    int low = start, high = start;
    while (part(low) > pure && start - low < 2) --low;
    while (part(high) < 1 - pure && high - start < 2) ++high;
    const double first = part(low), last = part(high);
    if (std::abs(first) > pure || std::abs(last - 1) > pure) return std::nullopt;
    double border = low + 1;
    for (int i = low + 1; i < high; ++i) border += 1 - std::clamp(part(i), 0.0, 1.0);
    return border;
  }

  /// Where the enlarged picture is half the one and half the other colour.
  [[nodiscard]] std::optional<double> by_halves(bool horizontal, int x, int y, Three a,
                                                Three b) const {
    const int reach = 2 + picture_.scale / 2;
    double before = 0, best = 1e9;
    for (int k = -reach; k < reach; ++k) {
      const double here = horizontal ? share(x, y + k, a, b) : share(x + k, y, a, b);
      if (k > -reach && before < 0.5 && here >= 0.5) {
        const double at = k - 0.5 + (0.5 - before) / (here - before);
        if (std::abs(at) < std::abs(best)) best = at;
      }
      before = here;
    }
    if (best > 1e8) return std::nullopt;
    return ((horizontal ? y : x) + best) / picture_.scale;
  }

  void walk(int x, int y, Way way) {
    Chain chain;
    const int start_x = x, start_y = y;
    if (is_junction(x, y)) {
      chain.from = junction(x, y);
      chain.points.push_back({double(x), double(y)});
    }
    bool first = true;
    while (true) {
      seen(x, y, way) = 1;
      const bool horizontal = way == Way::east || way == Way::west;
      const int u = way == Way::west ? x - 1 : x, v = way == Way::north ? y - 1 : y;
      if (first) {
        const int before = horizontal ? region(u, v - 1) : region(u - 1, v), after = region(u, v);
        const bool plain = way == Way::east || way == Way::north;
        chain.left = plain ? before : after;
        chain.right = plain ? after : before;
        first = false;
      }
      chain.points.push_back(crossing(horizontal, u, v));
      const int old_x = x, old_y = y;
      if (horizontal) {
        x += way == Way::east ? 1 : -1;
      } else {
        y += way == Way::south ? 1 : -1;
      }
      chain.twice_area += std::int64_t(old_x) * y - std::int64_t(x) * old_y;
      if (is_junction(x, y)) {
        chain.to = junction(x, y);
        chain.points.push_back({double(x), double(y)});
        break;
      }
      if (x == start_x && y == start_y) break;
      const Way back = back_of(way);
      for (const Way next : {Way::east, Way::south, Way::west, Way::north}) {
        if (next != back && border(x, y, next)) way = next;
      }
    }
    map_.chains.push_back(std::move(chain));
  }

  const Grid<int>& of_;
  const Coloured& picture_;
  const SideColours& colours_;
  int width_, height_;
  Grid<char> seen_across_, seen_down_;
  std::unordered_map<std::int64_t, int> numbers_;
  CrackMap map_;
};

}  // namespace

CrackMap walk_cracks(const Regions& regions, const Coloured& picture, const SideColours& colours) {
  return CrackWalker(regions, picture, colours).run();
}

}  // namespace quoin::trace
