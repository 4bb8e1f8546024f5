#pragma once
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

namespace quoin::trace {

/// A colour as three numbers: sRGB 0..255 or CIE L*a*b*, as whoever holds it says.
struct Three {
  float x = 0, y = 0, z = 0;
  bool operator==(const Three&) const = default;
};
constexpr Three operator+(Three a, Three b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
constexpr Three operator-(Three a, Three b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
constexpr Three operator*(Three a, float k) { return {a.x * k, a.y * k, a.z * k}; }
constexpr float dot(Three a, Three b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
constexpr float squared(Three a) { return dot(a, a); }
inline float distance(Three a, Three b) { return std::sqrt(squared(a - b)); }

/// A pixel in sRGB.
struct Rgb {
  std::uint8_t red = 0, green = 0, blue = 0;
  bool operator==(const Rgb&) const = default;
};
constexpr Three three(Rgb c) {
  return {static_cast<float>(c.red), static_cast<float>(c.green), static_cast<float>(c.blue)};
}
[[nodiscard]] inline Rgb rgb(Three c) {
  const auto part = [](float v) {
    return static_cast<std::uint8_t>(std::clamp(std::lround(v), 0L, 255L));
  };
  return {part(c.x), part(c.y), part(c.z)};
}

/// Rows of cells, the top one first.
template <typename T>
class Grid {
 public:
  Grid() = default;
  Grid(int width, int height, T fill = {})
      : width_(width), height_(height), cells_(std::size_t(width) * std::size_t(height), fill) {}

  [[nodiscard]] int width() const { return width_; }
  [[nodiscard]] int height() const { return height_; }
  [[nodiscard]] bool has(int x, int y) const {
    return x >= 0 && y >= 0 && x < width_ && y < height_;
  }
  [[nodiscard]] std::size_t index(int x, int y) const {
    return std::size_t(y) * std::size_t(width_) + std::size_t(x);
  }
  [[nodiscard]] T& at(int x, int y) { return cells_[index(x, y)]; }
  [[nodiscard]] const T& at(int x, int y) const { return cells_[index(x, y)]; }
  /// The cell, or the nearest one at the edge.
  [[nodiscard]] const T& near(int x, int y) const {
    return at(std::clamp(x, 0, width_ - 1), std::clamp(y, 0, height_ - 1));
  }
  [[nodiscard]] std::vector<T>& cells() { return cells_; }
  [[nodiscard]] const std::vector<T>& cells() const { return cells_; }

 private:
  int width_ = 0, height_ = 0;
  std::vector<T> cells_;
};

}  // namespace quoin::trace
