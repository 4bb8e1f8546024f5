#include "press/scan/find_dots.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace quoin::press {
namespace {

/// A square of the image as darkness: 0 paper, 1 black.
class Window {
 public:
  Window(const GreyImage& image, int left, int top, int side)
      : side_(side), dark_(static_cast<std::size_t>(side) * static_cast<std::size_t>(side)) {
    for (int y = 0; y < side; ++y) {
      for (int x = 0; x < side; ++x) dark_[index(x, y)] = image.at(left + x, top + y);
    }
    const std::array<double, 3> paper = paper_plane();
    const double middle = (side - 1) / 2.0;
    for (int y = 0; y < side; ++y) {
      for (int x = 0; x < side; ++x) {
        const double light = paper[0] + paper[1] * (x - middle) + paper[2] * (y - middle);
        double& value = dark_[index(x, y)];
        value = 1 - value / std::max(20.0, light);
      }
    }
  }

  [[nodiscard]] int side() const { return side_; }
  [[nodiscard]] double at(int x, int y) const { return dark_[index(x, y)]; }
  [[nodiscard]] std::size_t index(int x, int y) const {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(side_) +
           static_cast<std::size_t>(x);
  }

  /// The darkest mean of 3 by 3 pixels.
  [[nodiscard]] double darkest() const {
    double most = 0;
    for (int y = 1; y + 1 < side_; ++y) {
      for (int x = 1; x + 1 < side_; ++x) {
        double sum = 0;
        for (int dy = -1; dy <= 1; ++dy) {
          for (int dx = -1; dx <= 1; ++dx) sum += at(x + dx, y + dy);
        }
        most = std::max(most, sum / 9);
      }
    }
    return most;
  }

 private:
  /// Least squares through the brightest two fifths, about the window's middle.
  [[nodiscard]] std::array<double, 3> paper_plane() const {
    std::vector<double> sorted = dark_;
    const auto at_three_fifths =
        sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() * 3 / 5);
    std::nth_element(sorted.begin(), at_three_fifths, sorted.end());
    const double least = *at_three_fifths - 1, middle = (side_ - 1) / 2.0;
    double n = 0, sx = 0, sy = 0, sxx = 0, sxy = 0, syy = 0, sv = 0, sxv = 0, syv = 0;
    for (int y = 0; y < side_; ++y) {
      for (int x = 0; x < side_; ++x) {
        const double v = at(x, y), dx = x - middle, dy = y - middle;
        if (v < least) continue;
        n += 1;
        sx += dx;
        sy += dy;
        sxx += dx * dx;
        sxy += dx * dy;
        syy += dy * dy;
        sv += v;
        sxv += dx * v;
        syv += dy * v;
      }
    }
    const double mx = sx / n, my = sy / n, mv = sv / n;
    const double cxx = sxx / n - mx * mx, cxy = sxy / n - mx * my, cyy = syy / n - my * my;
    const double cxv = sxv / n - mx * mv, cyv = syv / n - my * mv;
    const double det = cxx * cyy - cxy * cxy;
    if (!(det > 1e-9)) return {mv, 0, 0};
    const double a = (cxv * cyy - cyv * cxy) / det, b = (cyv * cxx - cxv * cxy) / det;
    return {mv - a * mx - b * my, a, b};
  }

  int side_;
  std::vector<double> dark_;
};

struct Blob {
  std::vector<std::size_t> pixels;
  int left, top, right, bottom;  // bounds, the last pixels counted
  double x = 0, y = 0;           // middle of its pixels
};

/// All patches above the threshold, by flooding from each of their first pixels.
std::vector<Blob> blobs_in(const Window& window, double threshold) {
  const int side = window.side();
  std::vector<char> taken(static_cast<std::size_t>(side) * static_cast<std::size_t>(side), 0);
  std::vector<Blob> blobs;
  std::vector<std::pair<int, int>> open;
  for (int y = 0; y < side; ++y) {
    for (int x = 0; x < side; ++x) {
      if (taken[window.index(x, y)] || window.at(x, y) <= threshold) continue;
      Blob blob{{}, x, y, x, y};
      open.assign(1, {x, y});
      taken[window.index(x, y)] = 1;
      while (!open.empty()) {
        const auto [px, py] = open.back();
        open.pop_back();
        blob.pixels.push_back(window.index(px, py));
        blob.left = std::min(blob.left, px);
        blob.right = std::max(blob.right, px);
        blob.top = std::min(blob.top, py);
        blob.bottom = std::max(blob.bottom, py);
        blob.x += px;
        blob.y += py;
        for (const auto& [nx, ny] :
             {std::pair{px - 1, py}, {px + 1, py}, {px, py - 1}, {px, py + 1}}) {
          if (nx < 0 || ny < 0 || nx >= side || ny >= side) continue;
          if (taken[window.index(nx, ny)] || window.at(nx, ny) <= threshold) continue;
          taken[window.index(nx, ny)] = 1;
          open.emplace_back(nx, ny);
        }
      }
      blob.x /= static_cast<double>(blob.pixels.size());
      blob.y /= static_cast<double>(blob.pixels.size());
      blobs.push_back(std::move(blob));
    }
  }
  return blobs;
}

bool fits(const Blob& blob, const DotSought& sought, int side) {
  const double radius = std::max(blob.right - blob.left + 1, blob.bottom - blob.top + 1) / 2.0;
  if (radius < sought.least_radius || radius > sought.most_radius) return false;
  if (blob.left == 0 || blob.top == 0 || blob.right + 1 == side || blob.bottom + 1 == side) {
    return false;
  }
  const double least_area = 0.25 * 3.1416 * sought.least_radius * sought.least_radius;
  return static_cast<double>(blob.pixels.size()) >= least_area;
}

/// Centroid of darkness over the blob and two pixels round it.
Pixel centroid(const Window& window, const Blob& blob, double darkest) {
  constexpr int round = 2;
  constexpr double grain = 0.06;
  const int side = window.side();
  std::vector<char> near(static_cast<std::size_t>(side) * static_cast<std::size_t>(side), 0);
  for (const std::size_t pixel : blob.pixels) {
    const int px = static_cast<int>(pixel) % side, py = static_cast<int>(pixel) / side;
    for (int y = std::max(0, py - round); y <= std::min(side - 1, py + round); ++y) {
      for (int x = std::max(0, px - round); x <= std::min(side - 1, px + round); ++x) {
        near[window.index(x, y)] = 1;
      }
    }
  }
  double sum = 0, sx = 0, sy = 0;
  for (int y = 0; y < side; ++y) {
    for (int x = 0; x < side; ++x) {
      if (!near[window.index(x, y)]) continue;
      const double weight = std::clamp(window.at(x, y) - grain, 0.0, darkest);
      sum += weight;
      sx += weight * x;
      sy += weight * y;
    }
  }
  return {sx / sum + 0.5, sy / sum + 0.5};
}

}  // namespace

std::optional<Pixel> find_dot(const GreyImage& image, const DotSought& sought) {
  if (!std::isfinite(sought.near.x) || !std::isfinite(sought.near.y)) return std::nullopt;
  const int reach = static_cast<int>(std::ceil(sought.reach)), side = 2 * reach + 1;
  if (std::abs(sought.near.x) > 1e6 || std::abs(sought.near.y) > 1e6) return std::nullopt;
  const int left = static_cast<int>(std::floor(sought.near.x)) - reach;
  const int top = static_cast<int>(std::floor(sought.near.y)) - reach;
  const bool inside =
      left >= 0 && top >= 0 && left + side <= image.width && top + side <= image.height;
  if (!inside || reach < 3) return std::nullopt;
  const Window window(image, left, top, side);
  const double darkest = window.darkest();
  if (darkest < 0.25) return std::nullopt;
  const double threshold = sought.threshold > 0 ? sought.threshold : darkest / 2;
  const Pixel middle{sought.near.x - left - 0.5, sought.near.y - top - 0.5};
  const Blob* nearest = nullptr;
  double least = 0;
  const std::vector<Blob> blobs = blobs_in(window, threshold);
  for (const Blob& blob : blobs) {
    if (!fits(blob, sought, side)) continue;
    const double distance = std::hypot(blob.x - middle.x, blob.y - middle.y);
    if (nearest && distance >= least) continue;
    nearest = &blob;
    least = distance;
  }
  if (!nearest) return std::nullopt;
  const Pixel in_window = centroid(window, *nearest, darkest);
  return Pixel{in_window.x + left, in_window.y + top};
}

}  // namespace quoin::press
