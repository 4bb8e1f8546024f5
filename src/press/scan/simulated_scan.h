#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <random>
#include <vector>

#include "press/fit.h"
#include "press/scan/grey_image.h"
#include "press/scan/simulated_jpeg.h"
#include "press/sheet_layout.h"

namespace quoin::press {

/// A measuring sheet as it was printed, pricked and scanned: for tests and measurements only. All
/// errors are assumed, none was measured: a real flatbed may be several times worse.
struct SimulatedFaults {
  double ppi = 300;
  double shift_mm = 1.2, turn_degrees = 0.4, scale = 0.005, skew = 0.0015;  // of each side's print
  double scan_turn_degrees = 3, scan_scale = 0.005, scan_jitter = 0.0002;
  double wobble_mm = 0.03;                   // of the carriage
  double blur_least = 0.6, blur_most = 1.2;  // pixels
  double noise_least = 2, noise_most = 7;    // levels
  int jpeg_least = 0, jpeg_most = 0;         // quality, 1 to 100; 0: not pressed into a JPEG
  double light = 0.2;                        // fall-off over the picture
  double show_through = 0.08;
  int dust = 150;
  double edge_bias_mm = 0.05;  // of each edge in each scan
  double pin_slant_mm = 0.04;  // of each hole in each coordinate
  int pins = 6;
  double curl_mm = 0;      // at the right edge
  double perspective = 0;  // of a camera
  double missing = 0;      // part of the picture's foot that is not there
  bool white_lid = false;  // nothing dark behind the sheet
};

struct SimulatedPair {
  GreyImage front, back;
  Affine truth;  ///< as Profile::back
  SheetLayout layout;
};

namespace simulated {

/// From paper (mm, as seen on this side) to the picture.
struct Camera {
  Affine to_mm;  // picture millimetres
  double pixels = 0;
  double wobble = 0, wobble_length = 50, phase = 0, curl = 0;
  double tilt_x = 0, tilt_y = 0;
  Size paper, picture;

  [[nodiscard]] Pixel operator()(Point p) const {
    if (curl > 0) {
      const double u = std::max(0.0, (p.x / paper.width - 0.5) * 2);
      p.x -= Mm{curl * u * u * u};
      p.y -= Mm{0.3 * curl * u * u};
    }
    const Point at = to_mm(p);
    double x = at.x.value, y = at.y.value;
    y += wobble * std::sin(2 * std::numbers::pi * y / wobble_length + phase);
    const double cx = picture.width.value / 2, cy = picture.height.value / 2;
    const double w = 1 + tilt_x * (x - cx) / cx + tilt_y * (y - cy) / cy;
    return {(cx + (x - cx) / w) * pixels, (cy + (y - cy) / w) * pixels};
  }
};

/// A picture that is painted on: brightness 0 to 1.
class Painting {
 public:
  Painting(int width, int height, double light)
      : width_(width),
        height_(height),
        light_(static_cast<std::size_t>(width) * static_cast<std::size_t>(height),
               static_cast<float>(light)) {}

  [[nodiscard]] int width() const { return width_; }
  [[nodiscard]] int height() const { return height_; }
  float& at(int x, int y) {
    return light_[static_cast<std::size_t>(y) * static_cast<std::size_t>(width_) +
                  static_cast<std::size_t>(x)];
  }

  /// Paints a figure with straight sides, in either direction: eight lines a row, exact along each.
  void polygon(const std::vector<Pixel>& corners, double light) {
    double top = 1e9, bottom = -1e9;
    for (const Pixel p : corners) {
      top = std::min(top, p.y);
      bottom = std::max(bottom, p.y);
    }
    const int y0 = std::max(0, static_cast<int>(std::floor(top)));
    const int y1 = std::min(height_ - 1, static_cast<int>(std::floor(bottom)));
    std::vector<float> covered(static_cast<std::size_t>(width_) + 1);
    for (int y = y0; y <= y1; ++y) {
      int least = width_, most = -1;
      for (int i = 0; i < 8; ++i) cover_line(corners, y + (i + 0.5) / 8, covered, least, most);
      for (int x = least; x <= most; ++x) {
        float& under = at(x, y);
        float& part = covered[static_cast<std::size_t>(x)];
        under += (static_cast<float>(light) - under) * part / 8;
        part = 0;
      }
    }
  }
  void disc(Pixel middle, double radius, double light) {
    std::vector<Pixel> corners;
    for (int i = 0; i < 48; ++i) {
      const double angle = i * std::numbers::pi / 24;
      corners.push_back({middle.x + radius * std::cos(angle), middle.y + radius * std::sin(angle)});
    }
    polygon(corners, light);
  }

  void blur(double deviation) {
    const int reach = static_cast<int>(std::ceil(3 * deviation));
    std::vector<float> kernel;
    float sum = 0;
    for (int i = -reach; i <= reach; ++i) {
      kernel.push_back(static_cast<float>(std::exp(-i * i / (2 * deviation * deviation))));
      sum += kernel.back();
    }
    for (float& k : kernel) k /= sum;
    std::vector<float> row(static_cast<std::size_t>(std::max(width_, height_)));
    for (int y = 0; y < height_; ++y) {
      filter(kernel, reach, width_, row, [&](int x) -> float& { return at(x, y); });
    }
    for (int x = 0; x < width_; ++x) {
      filter(kernel, reach, height_, row, [&](int y) -> float& { return at(x, y); });
    }
  }

 private:
  /// Adds what a line at height y has inside the figure to the pixels of its row.
  void cover_line(const std::vector<Pixel>& corners, double y, std::vector<float>& covered,
                  int& least, int& most) const {
    std::vector<double> at;
    for (std::size_t i = 0, j = corners.size() - 1; i < corners.size(); j = i++) {
      const Pixel a = corners[i], b = corners[j];
      if ((a.y > y) != (b.y > y)) at.push_back((b.x - a.x) * (y - a.y) / (b.y - a.y) + a.x);
    }
    std::sort(at.begin(), at.end());
    for (std::size_t i = 0; i + 1 < at.size(); i += 2) {
      const double from = std::clamp(at[i], 0.0, static_cast<double>(width_));
      const double to = std::clamp(at[i + 1], 0.0, static_cast<double>(width_));
      if (!(to > from)) continue;
      const int first = static_cast<int>(from), last = std::min(static_cast<int>(to), width_ - 1);
      least = std::min(least, first);
      most = std::max(most, last);
      for (int x = first; x <= last; ++x) {
        covered[static_cast<std::size_t>(x)] +=
            static_cast<float>(std::min(to, x + 1.0) - std::max(from, static_cast<double>(x)));
      }
    }
  }
  template <typename At>
  static void filter(const std::vector<float>& kernel, int reach, int count,
                     std::vector<float>& row, At at) {
    for (int i = 0; i < count; ++i) row[static_cast<std::size_t>(i)] = at(i);
    for (int i = 0; i < count; ++i) {
      float sum = 0;
      for (int k = -reach; k <= reach; ++k) {
        const int from = std::clamp(i + k, 0, count - 1);
        sum += kernel[static_cast<std::size_t>(k + reach)] * row[static_cast<std::size_t>(from)];
      }
      at(i) = sum;
    }
  }

  int width_, height_;
  std::vector<float> light_;
};

class Simulation {
 public:
  Simulation(const SheetLayout& layout, const SimulatedFaults& faults, std::uint32_t seed,
             game::FlipEdge flip)
      : layout_(layout), faults_(faults), random_(seed), flip_(flip) {}

  [[nodiscard]] SimulatedPair run() {
    const Affine behind = turned_over(layout_.paper, flip_);
    const Affine front = print(), back = print();  // page frame to paper, each seen from its side
    const Camera front_camera = camera(), back_camera = camera();
    prick(front);
    SimulatedPair pair;
    pair.layout = layout_;
    // behind is its own inverse, for paper as for pages: both have the same size here.
    pair.truth = then(then(behind, back), then(behind, inverse(front).value()));
    pair.front =
        scan(SheetSide::front, front_camera, front, then(then(behind, back), behind), behind);
    pair.back = scan(SheetSide::back, back_camera, back, then(then(behind, front), behind), behind);
    return pair;
  }

 private:
  double any() { return any_(random_); }     // -1 to 1
  double part() { return (any() + 1) / 2; }  // 0 to 1
  double normal() { return normal_(random_); }

  Affine print() {
    Parts parts;
    parts.shift = {Mm{faults_.shift_mm * any()}, Mm{faults_.shift_mm * any()}};
    parts.turn = Angle::degrees(faults_.turn_degrees * any());
    parts.scale_x = 1 + faults_.scale * any();
    parts.scale_y = 1 + faults_.scale * any();
    parts.skew = Angle{faults_.skew * any()};
    return map_of(parts, {layout_.paper.width / 2, layout_.paper.height / 2});
  }

  Camera camera() {
    Camera camera;
    camera.paper = layout_.paper;
    camera.picture = {layout_.paper.width + Mm{16}, layout_.paper.height + Mm{16}};
    camera.pixels = faults_.ppi / mm_per_inch;
    if (scale_x_ == 0) {
      scale_x_ = 1 + faults_.scan_scale * any();
      scale_y_ = 1 + faults_.scan_scale * any();
    }
    const Point paper{layout_.paper.width / 2, layout_.paper.height / 2};
    const Point picture{camera.picture.width / 2 + Mm{any()},
                        camera.picture.height / 2 + Mm{any()}};
    const Affine home = Affine::move(Point{} - paper);
    const Affine turn = Affine::turn(Angle::degrees(faults_.scan_turn_degrees * any()));
    const Affine size = Affine::scale(scale_x_ * (1 + faults_.scan_jitter * any()),
                                      scale_y_ * (1 + faults_.scan_jitter * any()));
    camera.to_mm = then(then(then(home, turn), size), Affine::move(picture - Point{}));
    camera.wobble = faults_.wobble_mm;
    camera.wobble_length = 40 + 60 * part();
    camera.phase = 7 * part();
    camera.curl = faults_.curl_mm;
    camera.tilt_x = faults_.perspective * any() / 2;
    camera.tilt_y = faults_.perspective * any() / 2;
    return camera;
  }

  /// Where the holes go through the paper, seen from the front, and where they come out.
  void prick(const Affine& front) {
    for (const Point target : layout_.pins) {
      const Point in = front(target + Vec{Mm{0.5 * any()}, Mm{0.5 * any()}});
      const Vec slant{Mm{faults_.pin_slant_mm * normal()}, Mm{faults_.pin_slant_mm * normal()}};
      Hole hole{in, in + slant, 0.38 + 0.12 * part(), {}};
      for (double& each : hole.ragged) each = 0.2 * any();
      holes_.push_back(hole);
    }
  }

  GreyImage scan(SheetSide side, const Camera& camera, const Affine& print,
                 const Affine& other_print, const Affine& behind) {
    Painting painting(static_cast<int>(camera.picture.width.value * camera.pixels),
                      static_cast<int>(camera.picture.height.value * camera.pixels),
                      faults_.white_lid ? 0.93 : 0.10 + 0.12 * part());
    paint_paper(painting, camera);
    // The other side's marks, faint, where they lie seen from this side.
    const SheetSide other = side == SheetSide::front ? SheetSide::back : SheetSide::front;
    if (faults_.show_through > 0) {
      const auto through = [&](Point p) { return camera(other_print(behind(p))); };
      paint_marks(painting, other, through, camera.pixels, 0.95 - faults_.show_through);
    }
    const auto printed = [&](Point p) { return camera(print(p)); };
    paint_marks(painting, side, printed, camera.pixels, 0.12);
    if (side == SheetSide::front) paint_rings(painting, printed, camera.pixels);
    paint_holes(painting, side, camera, behind);
    for (int i = 0; i < faults_.dust; ++i) {
      const Point at{layout_.paper.width * part(), layout_.paper.height * part()};
      painting.disc(camera(at), (0.03 + 0.08 * part()) * camera.pixels, 0.3 + 0.7 * part());
    }
    return exposed(painting);
  }

  void paint_paper(Painting& painting, const Camera& camera) {
    std::array<double, 4> off{};
    for (double& each : off) each = faults_.edge_bias_mm * normal();
    const double w = layout_.paper.width.value, h = layout_.paper.height.value;
    std::vector<Pixel> corners;
    const std::array<Point, 4> places{Point{Mm{off[0]}, Mm{off[1]}},
                                      {Mm{w + off[2]}, Mm{off[1]}},
                                      {Mm{w + off[2]}, Mm{h + off[3]}},
                                      {Mm{off[0]}, Mm{h + off[3]}}};
    for (std::size_t i = 0; i < 4; ++i) {  // along the sides, for paper that is bent
      for (int k = 0; k < 24; ++k) {
        corners.push_back(camera(places[i] + (places[(i + 1) % 4] - places[i]) * (k / 24.0)));
      }
    }
    painting.polygon(corners, 0.95);
  }

  template <typename Place>
  void paint_marks(Painting& painting, SheetSide side, Place place, double pixels, double light) {
    for (const Point dot : layout_.dots_of(side)) {
      painting.disc(place(dot), dot_size.value / 2 * pixels, light);
    }
    const Mm module = code_size / code_modules;
    for (const CodeMark& mark : layout_.codes_of(side)) {
      const std::uint32_t bits = code_bits()[static_cast<std::size_t>(mark.number)];
      const Point corner = mark.centre - Vec{code_size / 2, code_size / 2};
      for (int row = 0; row < code_modules; ++row) {
        for (int column = 0; column < code_modules; ++column) {
          const bool ring = row == 0 || column == 0 || row == 6 || column == 6;
          if (!ring && (bits >> (24 - ((row - 1) * 5 + column - 1)) & 1U) == 0) continue;
          const Point at = corner + Vec{module * column, module * row};
          painting.polygon({place(at), place(at + Vec{module, Mm{}}),
                            place(at + Vec{module, module}), place(at + Vec{Mm{}, module})},
                           light);
        }
      }
    }
  }

  template <typename Place>
  void paint_rings(Painting& painting, Place place, double pixels) {
    for (const Point target : layout_.pins) {
      for (int i = 0; i < 240; ++i) {
        const double angle = i * std::numbers::pi / 120;
        const Vec way{Mm{std::cos(angle)}, Mm{std::sin(angle)}};
        painting.disc(place(target + way * 5), 0.1 * pixels, 0.12);
        if (i % 60 != 0) continue;
        for (double r = 2.5; r < 5; r += 0.05) {
          painting.disc(place(target + way * r), 0.1 * pixels, 0.12);
        }
      }
    }
  }

  void paint_holes(Painting& painting, SheetSide side, const Camera& camera, const Affine& behind) {
    for (int i = 0; i < faults_.pins; ++i) {
      const Hole& hole = holes_[static_cast<std::size_t>(i)];
      const bool front = side == SheetSide::front;
      const Point middle = front ? hole.in : behind(hole.out);
      std::vector<Pixel> corners;
      for (std::size_t k = 0; k < hole.ragged.size(); ++k) {
        const double angle = 2 * std::numbers::pi * static_cast<double>(k) / 10;
        const Vec way{Mm{std::cos(angle)}, Mm{std::sin(angle)}};
        const double radius = hole.radius * (front ? 1 : 0.8) * (1 + hole.ragged[k]);
        // Ragged alike on both sides, seen from the other one.
        const Vec step = front ? way : Vec{way.x * behind.a, way.y * behind.d};
        corners.push_back(camera(middle + step * radius));
      }
      painting.polygon(corners, faults_.white_lid ? 0.88 : 0.15 + 0.15 * part());
    }
  }

  GreyImage exposed(Painting& painting) {
    const double blur = faults_.blur_least + (faults_.blur_most - faults_.blur_least) * part();
    painting.blur(blur * std::max(0.5, faults_.ppi / 300));
    const double gx = faults_.light * any(), gy = faults_.light * any();
    const double noise = faults_.noise_least + (faults_.noise_most - faults_.noise_least) * part();
    GreyImage image{painting.width(), painting.height(), {}};
    image.pixels.reserve(static_cast<std::size_t>(image.width) *
                         static_cast<std::size_t>(image.height));
    const int end = static_cast<int>(image.height * (1 - faults_.missing));
    for (int y = 0; y < image.height; ++y) {
      for (int x = 0; x < image.width; ++x) {
        const double lamp = 1 - faults_.light / 2 +
                            gx * (static_cast<double>(x) / image.width - 0.5) +
                            gy * (static_cast<double>(y) / image.height - 0.5);
        const double level = painting.at(x, y) * 255 * lamp + noise * normal();
        image.pixels.push_back(
            y >= end ? std::uint8_t{128}
                     : static_cast<std::uint8_t>(std::clamp(std::lround(level), 0L, 255L)));
      }
    }
    if (faults_.jpeg_most > 0) {
      const double spread = faults_.jpeg_most - faults_.jpeg_least;
      as_jpeg(image, faults_.jpeg_least + static_cast<int>(std::lround(spread * part())));
    }
    return image;
  }

  struct Hole {
    Point in, out;  // both seen from the front
    double radius;
    std::array<double, 10> ragged;
  };

  const SheetLayout& layout_;
  const SimulatedFaults& faults_;
  std::mt19937 random_;
  game::FlipEdge flip_;
  std::uniform_real_distribution<double> any_{-1, 1};
  std::normal_distribution<double> normal_{0, 1};
  double scale_x_ = 0, scale_y_ = 0;
  std::vector<Hole> holes_;
};

}  // namespace simulated

/// One printing, pricking and scanning of the sheet; the same seed gives the same pictures.
[[nodiscard]] inline SimulatedPair simulated_pair(const SheetLayout& layout,
                                                  const SimulatedFaults& faults, std::uint32_t seed,
                                                  game::FlipEdge flip) {
  return simulated::Simulation(layout, faults, seed, flip).run();
}

}  // namespace quoin::press
