#include "trace/outline/dots.h"

#include <numbers>

#include "trace/outline/fit.h"

namespace quoin::trace {
namespace {

constexpr double largest_dot = 40;  // square pixels
constexpr double rim = 2;           // pixels round the spot that still have some of it

struct Moments {
  double sum = 0, x = 0, y = 0, xx = 0, yy = 0, xy = 0;
};

/// The pixels about a spot, and how much of its colour each has.
class SpotPixels {
 public:
  SpotPixels(const Chain& chain, const Regions& regions, const Coloured& picture,
             const SideColours& colours)
      : inner_(chain.twice_area > 0 ? chain.right : chain.left),
        outer_(chain.twice_area > 0 ? chain.left : chain.right),
        regions_(regions),
        picture_(picture),
        colours_(colours) {
    double left = 1e9, top = 1e9, right = -1e9, bottom = -1e9;
    for (const Spot& p : chain.points) {
      left = std::min(left, p.x);
      right = std::max(right, p.x);
      top = std::min(top, p.y);
      bottom = std::max(bottom, p.y);
    }
    x0_ = static_cast<int>(std::floor(left - rim));
    y0_ = static_cast<int>(std::floor(top - rim));
    x1_ = static_cast<int>(std::ceil(right + rim));
    y1_ = static_cast<int>(std::ceil(bottom + rim));
  }

  /// The circle that the spot is; nothing when it is none, or when a third colour is near.
  [[nodiscard]] std::optional<Circle> circle() const {
    if (!alone()) return std::nullopt;
    Moments m;
    each_pixel([&](double x, double y, double share) {
      m.sum += share;
      m.x += share * x;
      m.y += share * y;
      m.xx += share * x * x;
      m.yy += share * y * y;
      m.xy += share * x * y;
    });
    if (m.sum < 0.5 || m.sum > 1.3 * largest_dot) return std::nullopt;
    const Circle found{{m.x / m.sum, m.y / m.sum}, std::sqrt(m.sum / std::numbers::pi)};
    const double xx = m.xx / m.sum - found.centre.x * found.centre.x;
    const double yy = m.yy / m.sum - found.centre.y * found.centre.y;
    const double xy = m.xy / m.sum - found.centre.x * found.centre.y;
    const double middle = (xx + yy) / 2, spread = std::hypot((xx - yy) / 2, xy);
    if (middle - spread <= 0 || std::sqrt((middle + spread) / (middle - spread)) > 1.22) {
      return std::nullopt;
    }
    return misfit(found) < 0.075 ? std::optional(found) : std::nullopt;
  }

 private:
  /// Nothing but the spot and what surrounds it lies within the frame.
  [[nodiscard]] bool alone() const {
    if (inner_ < 0 || outer_ < 0) return false;
    if (!regions_.of.has(x0_ * picture_.scale, y0_ * picture_.scale)) return false;
    if (!regions_.of.has(x1_ * picture_.scale - 1, y1_ * picture_.scale - 1)) return false;
    for (int y = y0_ * picture_.scale; y < y1_ * picture_.scale; ++y) {
      for (int x = x0_ * picture_.scale; x < x1_ * picture_.scale; ++x) {
        const int region = regions_.of.at(x, y);
        if (region != inner_ && region != outer_) return false;
      }
    }
    return true;
  }

  template <typename See>
  void each_pixel(const See& see) const {
    for (int y = y0_; y < y1_; ++y) {
      for (int x = x0_; x < x1_; ++x) {
        const Spot at{x + 0.5, y + 0.5};
        const Three ground = colours_.of(outer_, at), way = colours_.of(inner_, at) - ground;
        const float length = squared(way);
        if (length < 1) continue;
        const float share = dot(three(picture_.pixels.at(x, y)) - ground, way) / length;
        see(at.x, at.y, std::clamp(double(share), 0.0, 1.0));
      }
    }
  }

  /// The root mean square of what the circle covers of each pixel less what the pixel has.
  [[nodiscard]] double misfit(const Circle& circle) const {
    double sum = 0, count = 0;
    each_pixel([&](double x, double y, double share) {
      const double away = std::hypot(x - circle.centre.x, y - circle.centre.y);
      // A pixel well inside a dot smaller than itself is covered by the dot's whole area.
      const double most = std::min(1.0, std::numbers::pi * circle.radius * circle.radius);
      const double covered = std::clamp(circle.radius - away + 0.5, 0.0, 1.0) * most;
      sum += (covered - share) * (covered - share);
      count += 1;
    });
    return std::sqrt(sum / std::max(1.0, count));
  }

  int inner_, outer_;
  const Regions& regions_;
  const Coloured& picture_;
  const SideColours& colours_;
  int x0_ = 0, y0_ = 0, x1_ = 0, y1_ = 0;  // pixels
};

}  // namespace

void make_circle(Border& border, const Chain& chain, const Circle& circle) {
  border.circle = circle;
  border.curves = quarters(circle);
  if (chain.twice_area > 0) return;
  std::reverse(border.curves.begin(), border.curves.end());
  for (Curve& curve : border.curves) curve = turned(curve);
}

void round_dots(std::vector<Border>& borders, const CrackMap& map, const Regions& regions,
                const Coloured& picture, const SideColours& colours) {
  const double cells = double(picture.scale) * picture.scale;
  for (std::size_t i = 0; i < borders.size(); ++i) {
    const Chain& chain = map.chains[i];
    if (!chain.ring() || chain.picture_edge() || borders[i].circle) continue;
    if (std::abs(double(chain.twice_area)) / 2 / cells > largest_dot) continue;
    const auto circle = SpotPixels(chain, regions, picture, colours).circle();
    if (circle) make_circle(borders[i], chain, *circle);
  }
}

}  // namespace quoin::trace
