#include "trace/outline/corners.h"

#include <array>
#include <numbers>

#include "trace/outline/straight.h"

namespace quoin::trace {
namespace {

constexpr double skipped = 0.6, short_reach = 2.2, long_reach = 4.2;  // pixels
constexpr double least_turn = 40;                                     // degrees
/// A stroke of two pixels turns round at its end: a point there would be a thorn.
constexpr double most_turn = 140;                                  // degrees
constexpr double apart = 1.5, farthest_tip = 1.3, cleared = 0.55;  // pixels

struct Turn {
  double degrees = 0;
  StraightLine before, after;
};

class CornerFinder {
 public:
  explicit CornerFinder(const Chain& chain) : points_(chain.points), ring_(chain.ring()) {
    double whole = 0;
    for (std::size_t i = 0; i + 1 < points_.size(); ++i) {
      whole += length(points_[i + 1] - points_[i]);
    }
    step_ = whole / static_cast<double>(std::max<std::size_t>(1, points_.size() - 1));
    if (ring_ && whole < 4 * long_) {
      long_ = whole / 5;
      short_ = long_ * 0.6;
    }
  }

  CornerRow run() {
    const std::vector<int> corners = find();
    const int count = static_cast<int>(points_.size());
    std::vector<int> corner_at(points_.size(), -1);
    std::vector<char> dropped(points_.size(), 0);
    const int clear = std::max(0, static_cast<int>(std::lround(cleared / step_)));
    for (std::size_t k = 0; k < corners.size(); ++k) {
      corner_at[std::size_t(corners[k])] = static_cast<int>(k);
      for (int d = -clear; d <= clear; ++d) {
        const int i = ring_ ? wrapped(corners[k] + d) : corners[k] + d;
        const bool an_end = !ring_ && (i <= 0 || i >= count - 1);
        if (!an_end) dropped[std::size_t(i)] = 1;
      }
    }
    CornerRow row;
    row.step = step_;
    const int start = ring_ && !corners.empty() ? corners.front() : 0;
    for (int k = 0; k < count; ++k) {
      const int i = (start + k) % count;
      if (corner_at[std::size_t(i)] >= 0) {
        row.corners.push_back(row.points.size());
        row.points.push_back(tip(i));
      } else if (dropped[std::size_t(i)] == 0) {
        row.points.push_back(points_[std::size_t(i)]);
      }
    }
    if (ring_) row.points.push_back(row.points.front());
    std::erase_if(row.corners,
                  [&](std::size_t at) { return at == 0 || at + 1 >= row.points.size(); });
    ring_has_corner_ = !corners.empty();
    return row;
  }
  [[nodiscard]] bool ring_has_corner() const { return ring_has_corner_; }

 private:
  [[nodiscard]] int wrapped(int i) const {
    const int count = static_cast<int>(points_.size());
    return ((i % count) + count) % count;
  }
  [[nodiscard]] Spot at(int i) const { return points_[std::size_t(ring_ ? wrapped(i) : i)]; }

  /// How a chain turns at a point, seen over `reach` pixels to both sides.
  [[nodiscard]] Turn turn_at(int i, double reach) const {
    const int count = static_cast<int>(points_.size());
    const int near = std::max(1, static_cast<int>(std::lround(skipped / step_)));
    int far = std::max(near + 2, static_cast<int>(std::lround(reach / step_)));
    if (!ring_) {
      far = std::min({far, i, count - 1 - i});
      if (far < near + 2) return {};
    }
    far = std::min(far, near + 23);
    std::array<Spot, 24> before{}, after{};
    std::size_t n = 0;
    for (int k = near; k <= far; ++k, ++n) {
      before[n] = at(i - k);
      after[n] = at(i + k);
    }
    Turn turn{0, best_line({before.data(), n}), best_line({after.data(), n})};
    if (dot(turn.before.way, at(i) - at(i - far)) < 0) turn.before.way = turn.before.way * -1;
    if (dot(turn.after.way, at(i + far) - at(i)) < 0) turn.after.way = turn.after.way * -1;
    const double cosine = std::clamp(dot(turn.before.way, turn.after.way), -1.0, 1.0);
    turn.degrees = std::acos(cosine) * 180 / std::numbers::pi;
    return turn;
  }

  [[nodiscard]] std::vector<int> find() const {
    const int count = static_cast<int>(points_.size());
    std::vector<double> sharp(points_.size(), 0);
    for (int i = 0; i < count; ++i) {
      if (!ring_ && (i < 2 || i > count - 3)) continue;
      const double near = turn_at(i, short_).degrees;
      if (near < least_turn || near > most_turn) continue;
      const double far = turn_at(i, long_).degrees;
      if (near >= 0.55 * far) sharp[std::size_t(i)] = std::min(near, far);
    }
    std::vector<int> corners;
    const int window = std::max(1, static_cast<int>(std::lround(apart / step_)));
    for (int i = 0; i < count; ++i) {
      if (sharp[std::size_t(i)] >= least_turn && is_peak(sharp, i, window)) corners.push_back(i);
    }
    return corners;
  }

  [[nodiscard]] bool is_peak(const std::vector<double>& sharp, int i, int window) const {
    const double own = sharp[std::size_t(i)];
    for (int d = -window; d <= window; ++d) {
      const int j = ring_ ? wrapped(i + d) : i + d;
      if (d == 0 || j < 0 || j >= static_cast<int>(sharp.size()) || j == i) continue;
      const double other = sharp[std::size_t(j)];
      if (other > own || (other == own && d < 0)) return false;
    }
    return true;
  }

  [[nodiscard]] Spot tip(int i) const {
    const Turn turn = turn_at(i, 3);
    if (turn.degrees > 25) {
      const auto met = meeting(turn.before, turn.after);
      if (met && length(*met - at(i)) < farthest_tip) return *met;
    }
    return at(i);
  }

  const std::vector<Spot>& points_;
  bool ring_;
  double step_ = 0.5, short_ = short_reach, long_ = long_reach;
  bool ring_has_corner_ = false;
};

}  // namespace

CornerRow with_corners(const Chain& chain) {
  CornerFinder finder(chain);
  CornerRow row = finder.run();
  row.smooth_ring = chain.ring() && !finder.ring_has_corner();
  return row;
}

}  // namespace quoin::trace
