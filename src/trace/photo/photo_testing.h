#pragma once
#include <array>
#include <cmath>
#include <functional>
#include <numbers>
#include <random>

#include "trace/photo/find_cards.h"

namespace quoin::trace {

// Photographs of a card that were never taken: what the tests and the bench of photographs share.
// A pinhole camera, a lens that bends, a shadow, uneven light, blur and noise; nothing of it is
// taken from the code that is tested.

enum class Table { plain, wood, clutter, low_contrast, cloth };

struct PhotoWishes {
  Table table = Table::plain;
  unsigned seed = 1;
  int width = 1600, height = 1200;        ///< px
  double tilt = 25;                       ///< degrees at most, about both axes
  double turn = 25;                       ///< degrees at most about the line of sight
  double bow = 0;                         ///< of the lens, as in FoundCard
  double noise = 5;                       ///< standard deviation, 0..255
  double blur = 1.05, blur_range = 0.25;  ///< standard deviation, px of 1600 across
};

struct Photograph {
  Raster picture;
  std::array<Spot, 4> corners;  ///< as they are seen, clockwise from the card's own top left
};

namespace photo {

struct Ink {
  double red = 0, green = 0, blue = 0;
};
inline Ink operator*(Ink a, double k) { return {a.red * k, a.green * k, a.blue * k}; }
inline Ink operator+(Ink a, Ink b) { return {a.red + b.red, a.green + b.green, a.blue + b.blue}; }

/// The distance from the edge of a rectangle with round corners, negative inside.
inline double off_round_rect(double x, double y, double width, double height, double radius) {
  const double dx = std::abs(x - width / 2) - width / 2 + radius;
  const double dy = std::abs(y - height / 2) - height / 2 + radius;
  const double outside = std::hypot(std::max(dx, 0.0), std::max(dy, 0.0));
  return outside + std::min(std::max(dx, dy), 0.0) - radius;
}

class Chance {
 public:
  explicit Chance(unsigned seed) : random_(seed) {}
  double unit() { return std::uniform_real_distribution<double>(0, 1)(random_); }
  double both() { return 2 * unit() - 1; }
  double normal() { return std::normal_distribution<double>(0, 1)(random_); }
  Ink ink(double least, double most) {
    const auto one = [&] { return least + (most - least) * unit(); };
    const double r = one(), g = one(), b = one();
    return {r, g, b};
  }

 private:
  std::mt19937 random_;
};

/// What is printed on the card, in millimetres.
class PrintedFace {
 public:
  PrintedFace(Chance& chance, const CardShape& shape)
      : width_(shape.size.width.value), height_(shape.size.height.value) {
    const double pick = chance.unit();
    border_ = pick < 0.3 ? Ink{245, 245, 245} : pick < 0.6 ? Ink{25, 25, 25} : chance.ink(60, 180);
    margin_ = width_ * (0.05 + 0.03 * chance.unit());
    inner_radius_ = chance.unit() < 0.5 ? 0 : 2;
    inner_ = chance.ink(150, 250);
    frames_ = chance.unit() < 0.3 ? 2 : 1;
    second_ = chance.ink(40, 220);
    for (int i = 0; i < 8; ++i) {
      blobs_.push_back({width_ * (0.2 + 0.6 * chance.unit()),
                        height_ * (0.2 + 0.42 * chance.unit()), 2 + 8 * chance.unit(),
                        chance.unit() < 0.4, chance.ink(0, 255)});
    }
    for (int i = 0; i < 4; ++i) bars_.push_back(width_ * (0.4 + 0.35 * chance.unit()));
  }
  [[nodiscard]] Ink border() const { return border_; }
  [[nodiscard]] Ink at(double x, double y) const {
    const auto within = [&](double margin) {
      return off_round_rect(x - margin, y - margin, width_ - 2 * margin, height_ - 2 * margin,
                            inner_radius_) < 0;
    };
    if (!within(margin_)) return border_;
    if (frames_ == 2 && !within(margin_ * 1.6)) return second_;
    for (std::size_t i = 0; i < bars_.size(); ++i) {
      const double top = height_ * (0.72 + 0.05 * double(i));
      if (y > top && y < top + height_ * 0.015 && x > width_ * 0.12 && x < width_ * 0.12 + bars_[i])
        return {30, 30, 30};
    }
    for (auto blob = blobs_.rbegin(); blob != blobs_.rend(); ++blob) {
      const double dx = std::abs(x - blob->x), dy = std::abs(y - blob->y);
      if (blob->square ? std::max(dx, dy) < blob->reach : std::hypot(dx, dy) < blob->reach)
        return blob->ink;
    }
    return inner_;
  }

 private:
  struct Blob {
    double x, y, reach;
    bool square;
    Ink ink;
  };
  double width_, height_, margin_ = 4, inner_radius_ = 0;
  int frames_ = 1;
  Ink border_, inner_, second_;
  std::vector<Blob> blobs_;
  std::vector<double> bars_;
};

/// What the card lies on; x and y in pixels of a picture 1600 across.
class TableTop {
 public:
  TableTop(Chance& chance, Table table, Ink border) : table_(table) {
    if (table == Table::plain) {
      const double r = 40 + 90 * chance.unit(), g = 60 + 100 * chance.unit();
      plain_ = {r, g, 40 + 80 * chance.unit()};
    } else if (table == Table::low_contrast) {
      const auto near = [](double part) { return part + (part > 128 ? -21 : 21); };
      plain_ = {near(border.red), near(border.green), near(border.blue)};
    } else if (table == Table::wood) {
      along_ = chance.unit() < 0.5;
      for (double& value : grain_) value = chance.normal();
    } else if (table == Table::clutter) {
      for (int i = 0; i < 14; ++i) {
        sheets_.push_back({1600 * chance.unit(), 1200 * chance.unit(), 30 + 150 * chance.unit(),
                           10 + 130 * chance.unit(), std::numbers::pi * chance.unit(),
                           chance.ink(0, 255)});
      }
    }
  }
  [[nodiscard]] Ink at(double x, double y) const {
    switch (table_) {
      case Table::plain:
      case Table::low_contrast:
        return plain_;
      case Table::wood: {
        const double v = 14 * (along_ ? smooth(x / 3, y / 40) : smooth(y / 3, x / 40));
        return {160 + v * 1.3, 110 + v * 1.2, 70 + v};
      }
      case Table::clutter:
        for (auto sheet = sheets_.rbegin(); sheet != sheets_.rend(); ++sheet) {
          const double c = std::cos(sheet->turn), s = std::sin(sheet->turn);
          const double dx = x - sheet->x, dy = y - sheet->y;
          if (std::abs(c * dx + s * dy) < sheet->across && std::abs(c * dy - s * dx) < sheet->down)
            return sheet->ink;
        }
        return {120, 110, 90};
      case Table::cloth: {
        const double v = 12 * std::sin(x * 0.9) * std::sin(y * 0.8);
        return {50 + v, 60 + v, 120 + v};
      }
    }
    return {};
  }

 private:
  struct Sheet {
    double x, y, across, down, turn;
    Ink ink;
  };
  static constexpr int cells = 64;
  [[nodiscard]] double smooth(double x, double y) const {
    const double fx = std::floor(x), fy = std::floor(y);
    const auto ease = [](double t) { return t * t * (3 - 2 * t); };
    const double u = ease(x - fx), v = ease(y - fy);
    const auto value = [&](int i, int j) {
      const int a = ((static_cast<int>(fx) + i) % cells + cells) % cells;
      const int b = ((static_cast<int>(fy) + j) * 37 + a * 11) % cells;
      return grain_[std::size_t(a * cells + (b + cells) % cells)];
    };
    return (value(0, 0) * (1 - u) + value(1, 0) * u) * (1 - v) +
           (value(0, 1) * (1 - u) + value(1, 1) * u) * v;
  }
  Table table_;
  Ink plain_;
  bool along_ = false;
  std::array<double, cells * cells> grain_{};
  std::vector<Sheet> sheets_;
};

/// Where the camera is: millimetres on the card to pixels of an ideal lens and back.
class Camera {
 public:
  Camera(Chance& chance, const PhotoWishes& wishes, const CardShape& shape) : shape_(shape) {
    const double degree = std::numbers::pi / 180;
    const double a = chance.both() * wishes.tilt * degree, b = chance.both() * wishes.tilt * degree;
    const double c = chance.both() * wishes.turn * degree;
    const double ca = std::cos(a), sa = std::sin(a), cb = std::cos(b), sb = std::sin(b);
    const double cc = std::cos(c), sc = std::sin(c);
    // About the x axis after the y axis after the line of sight.
    const double y_turn[3][2] = {{cb * cc, -cb * sc}, {sc, cc}, {-sb * cc, sb * sc}};
    for (int k = 0; k < 2; ++k) {
      turn_[0][k] = y_turn[0][k];
      turn_[1][k] = ca * y_turn[1][k] - sa * y_turn[2][k];
      turn_[2][k] = sa * y_turn[1][k] + ca * y_turn[2][k];
    }
    away_ = 150 + 60 * chance.both();
    focal_ = 1400.0 / 1600 * wishes.width;
    middle_ = {wishes.width / 2.0, wishes.height / 2.0};
    const double edge = 8.0 / 1600 * wishes.width;
    const auto inside = [&] {
      for (int k = 0; k < 4; ++k) {
        const Spot p = corner(k);
        if (p.x < edge || p.y < edge || p.x > wishes.width - edge || p.y > wishes.height - edge)
          return false;
      }
      return true;
    };
    while (!inside()) focal_ *= 0.72;
  }
  [[nodiscard]] Spot corner(int k) const {
    return seen(
        {k == 1 || k == 2 ? shape_.size.width.value : 0, k >= 2 ? shape_.size.height.value : 0});
  }
  [[nodiscard]] Spot seen(Spot mm) const {
    const double x = mm.x - shape_.size.width.value / 2, y = mm.y - shape_.size.height.value / 2;
    const double z = turn_[2][0] * x + turn_[2][1] * y + away_;
    return {middle_.x + focal_ * (turn_[0][0] * x + turn_[0][1] * y) / z,
            middle_.y + focal_ * (turn_[1][0] * x + turn_[1][1] * y) / z};
  }
  /// Where the line of sight through a pixel meets the plane of the card.
  [[nodiscard]] Spot on_card(Spot px) const {
    const double u = (px.x - middle_.x) / focal_, v = (px.y - middle_.y) / focal_;
    const double a = turn_[0][0] - u * turn_[2][0], b = turn_[0][1] - u * turn_[2][1];
    const double c = turn_[1][0] - v * turn_[2][0], d = turn_[1][1] - v * turn_[2][1];
    const double whole = a * d - b * c;
    return {(u * away_ * d - b * v * away_) / whole + shape_.size.width.value / 2,
            (a * v * away_ - c * u * away_) / whole + shape_.size.height.value / 2};
  }
  [[nodiscard]] double pixels_per_mm() const { return focal_ / away_; }
  [[nodiscard]] Spot middle() const { return middle_; }

 private:
  CardShape shape_;
  double turn_[3][2] = {};
  double away_ = 150, focal_ = 1400;
  Spot middle_;
};

/// Blurred along rows and then columns; three numbers to a pixel.
inline void blur(std::vector<float>& image, int width, int height, double sigma) {
  const int reach = static_cast<int>(std::ceil(3 * sigma));
  std::vector<float> weights;
  float sum = 0;
  for (int k = -reach; k <= reach; ++k) {
    weights.push_back(static_cast<float>(std::exp(-k * k / (2 * sigma * sigma))));
    sum += weights.back();
  }
  for (float& weight : weights) weight /= sum;
  const auto pass = [&](int count, int length, std::ptrdiff_t step, std::ptrdiff_t next) {
    std::vector<float> line(std::size_t(length) * 3);
    for (int i = 0; i < count; ++i) {
      float* start = image.data() + i * next;
      for (int k = 0; k < length; ++k) {
        for (int c = 0; c < 3; ++c) line[std::size_t(3 * k + c)] = start[k * step + c];
      }
      for (int k = 0; k < length; ++k) {
        float value[3] = {};
        for (int j = -reach; j <= reach; ++j) {
          const float* from = &line[std::size_t(3 * std::clamp(k + j, 0, length - 1))];
          for (int c = 0; c < 3; ++c) value[c] += weights[std::size_t(j + reach)] * from[c];
        }
        for (int c = 0; c < 3; ++c) start[k * step + c] = value[c];
      }
    }
  };
  pass(height, width, 3, std::ptrdiff_t(3) * width);
  pass(width, height, std::ptrdiff_t(3) * width, 3);
}

inline Raster noisy(const std::vector<float>& image, int width, int height, double noise,
                    Chance& chance) {
  Raster raster{width, height, {}};
  raster.pixels.reserve(std::size_t(width) * std::size_t(height));
  for (std::size_t i = 0; i < image.size(); i += 3) {
    std::uint32_t pixel = 0xFF000000U;
    for (std::size_t c = 0; c < 3; ++c) {
      const double value = std::clamp(double(image[i + c]) + noise * chance.normal(), 0.0, 255.0);
      pixel |= static_cast<std::uint32_t>(std::lround(value)) << (16 - 8 * c);
    }
    raster.pixels.push_back(pixel);
  }
  return raster;
}

}  // namespace photo

/// Takes a photograph of a card of `shape`.
inline Photograph photographed_card(const PhotoWishes& wishes, const CardShape& shape = {}) {
  using namespace photo;
  Chance chance(wishes.seed);
  const PrintedFace face(chance, shape);
  const TableTop ground(chance, wishes.table, face.border());
  const Camera camera(chance, wishes, shape);
  const double scale = wishes.width / 1600.0;
  const double shade_x = 5 * scale / camera.pixels_per_mm() * chance.both();
  const double shade_y = 5 * scale / camera.pixels_per_mm() * chance.both();
  const double soft = 3 * scale / camera.pixels_per_mm();
  const double light_x = 0.3 * chance.both(), light_y = 0.3 * chance.both();
  const double half = std::max(wishes.width, wishes.height) / 2.0;
  const Spot middle = camera.middle();
  const auto ideal = [&](Spot p) {
    const Spot q = p - middle;
    return middle + q * (1 + wishes.bow * (q.x * q.x + q.y * q.y) / (half * half));
  };
  const double width = shape.size.width.value, height = shape.size.height.value;
  std::vector<float> image;
  image.reserve(std::size_t(wishes.width) * std::size_t(wishes.height) * 3);
  for (int y = 0; y < wishes.height; ++y) {
    for (int x = 0; x < wishes.width; ++x) {
      Ink sum;
      for (int k = 0; k < 4; ++k) {
        const Spot p = ideal({x + 0.25 + 0.5 * (k % 2), y + 0.25 + 0.5 * double(k / 2)});
        const Spot mm = camera.on_card(p);
        if (off_round_rect(mm.x, mm.y, width, height, shape.corner.value) <= 0) {
          sum = sum + face.at(mm.x, mm.y);
        } else {
          const double off =
              off_round_rect(mm.x - shade_x, mm.y - shade_y, width, height, shape.corner.value);
          const double shade = 1 - 0.125 * std::erfc(off / (soft * std::numbers::sqrt2));
          sum = sum + ground.at(p.x / scale, p.y / scale) * shade;
        }
      }
      const double light = 1 + light_x * (double(x) / wishes.width - 0.5) +
                           light_y * (double(y) / wishes.height - 0.5);
      sum = sum * (0.9 * light / 4);
      for (const double part : {sum.red, sum.green, sum.blue}) {
        image.push_back(static_cast<float>(std::min(part, 255.0)));
      }
    }
  }
  blur(image, wishes.width, wishes.height,
       std::max(0.5, (wishes.blur + wishes.blur_range * chance.both()) * std::max(scale, 0.6)));
  Photograph photograph;
  photograph.picture = noisy(image, wishes.width, wishes.height, wishes.noise, chance);
  for (int k = 0; k < 4; ++k) {
    const Spot straight = camera.corner(k);
    Spot seen = straight;
    for (int i = 0; i < 20; ++i) seen = seen + (straight - ideal(seen));
    photograph.corners[std::size_t(k)] = seen;
  }
  return photograph;
}

}  // namespace quoin::trace
