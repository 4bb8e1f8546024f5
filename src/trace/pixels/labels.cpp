#include "trace/pixels/labels.h"

#include <array>
#include <limits>

namespace quoin::trace {
namespace {

constexpr float least_share = 0.38F;  // of the stroke's colour in its middle pixel
constexpr float mixing_cost = 16;     // L*a*b* units; a pixel that is no mixture is likelier
constexpr double gradient_reach = 3;  // pixels along the gradient
constexpr int widest_window = 4;      // pixels

/// How badly `colour` explains a pixel as a mixture of it with `ground`.
float misfit(Three pixel, Three colour, Three ground) {
  const Three way = colour - ground;
  const float length = squared(way);
  if (length < 60) return std::numeric_limits<float>::max();
  const float share = dot(pixel - ground, way) / length;
  if (share < least_share) return std::numeric_limits<float>::max();
  const float held = std::min(share, 1.0F);
  return distance(pixel, ground + way * held) + (1 - held) * mixing_cost;
}

/// The colour of a thin stroke, -1 when none explains it.
int stroke_label(const Palette& palette, Three pixel, const Ridge& ridge) {
  const bool nearer_one = squared(ridge.one_side - pixel) < squared(ridge.other_side - pixel);
  const Three ground = nearer_one ? ridge.one_side : ridge.other_side;
  const Three middle = (ridge.one_side + ridge.other_side) * 0.5F;
  int best = -1;
  float least = static_cast<float>(std::max(14.0, 2 * palette.radius));
  for (int i = 0; i < palette.size(); ++i) {
    const Three colour = palette.lab[std::size_t(i)];
    const float fit = std::min(misfit(pixel, colour, ground), misfit(pixel, colour, middle));
    if (fit < least) {
      least = fit;
      best = i;
    }
  }
  return best;
}

Grid<int> core_labels(const Coloured& picture) {
  const Grid<Three>& lab = picture.lab;
  Grid<int> labels(lab.width(), lab.height(), -1);
  Three last{-1, 0, 0};
  int last_label = -1;
  for (int y = 0; y < lab.height(); ++y) {
    for (int x = 0; x < lab.width(); ++x) {
      const Three colour = lab.at(x, y);
      if (picture.core.flat(x, y)) {
        if (!(colour == last)) {
          last = colour;
          last_label = picture.palette.nearest(colour);
        }
        labels.at(x, y) = last_label;
      } else if (const Ridge* ridge = picture.core.ridge(x, y)) {
        labels.at(x, y) = stroke_label(picture.palette, colour, *ridge);
      }
    }
  }
  return labels;
}

/// What a cell may choose among.
class Candidates {
 public:
  void add(int label, Three colour) {
    if (label < 0 || count_ == labels_.size()) return;
    for (std::size_t i = 0; i < count_; ++i) {
      if (labels_[i] == label) return;
    }
    labels_[count_] = label;
    colours_[count_++] = colour;
  }
  [[nodiscard]] std::size_t count() const { return count_; }
  [[nodiscard]] int nearest(Three to) const {
    std::size_t best = 0;
    for (std::size_t i = 1; i < count_; ++i) {
      if (squared(colours_[i] - to) < squared(colours_[best] - to)) best = i;
    }
    return labels_[best];
  }

 private:
  std::array<int, 24> labels_{};
  std::array<Three, 24> colours_{};
  std::size_t count_ = 0;
};

class Labeller {
 public:
  explicit Labeller(const Coloured& picture)
      : picture_(picture),
        core_(core_labels(picture)),
        cells_(picture.enlarged.width(), picture.enlarged.height(), 0) {}

  Grid<int> run() {
    for (int y = 0; y < core_.height(); ++y) {
      for (int x = 0; x < core_.width(); ++x) pixel(x, y);
    }
    return std::move(cells_);
  }

 private:
  /// Flat, and all round it of the same colour.
  [[nodiscard]] bool settled(int x, int y) const {
    if (!picture_.core.flat(x, y)) return false;
    const int own = core_.at(x, y);
    for (int v = -1; v <= 1; ++v) {
      for (int u = -1; u <= 1; ++u) {
        const int other = core_.near(x + u, y + v);
        if (other >= 0 && other != own) return false;
      }
    }
    return true;
  }

  void pixel(int x, int y) {
    const int scale = picture_.scale;
    const bool is_settled = settled(x, y);
    const bool flat = picture_.core.flat(x, y);
    const double angle = is_settled || flat ? 0 : gradient_angle(x, y);
    for (int v = 0; v < scale; ++v) {
      for (int u = 0; u < scale; ++u) {
        cells_.at(x * scale + u, y * scale + v) =
            is_settled ? core_.at(x, y) : choose(x, y, u, v, flat, angle);
      }
    }
  }

  /// Across the edge at a pixel: the structure tensor of the three channels over 3x3 pixels.
  [[nodiscard]] double gradient_angle(int x, int y) const {
    const Grid<Three>& lab = picture_.lab;
    double xx = 0, yy = 0, xy = 0;
    for (int v = -1; v <= 1; ++v) {
      for (int u = -1; u <= 1; ++u) {
        const Three across = lab.near(x + u + 1, y + v) - lab.near(x + u - 1, y + v);
        const Three down = lab.near(x + u, y + v + 1) - lab.near(x + u, y + v - 1);
        xx += dot(across, across);
        yy += dot(down, down);
        xy += dot(across, down);
      }
    }
    return 0.5 * std::atan2(2 * xy, xx - yy);
  }

  void add(Candidates& to, int x, int y) const {
    const int label = core_.at(x, y);
    if (label < 0) return;
    const bool stroke = !picture_.core.flat(x, y);
    to.add(label,
           stroke ? three(picture_.pixels.at(x, y)) : picture_.palette.srgb[std::size_t(label)]);
  }

  /// The first core pixels met along the gradient, on both sides; how many sides had one.
  int along_gradient(Candidates& to, double x, double y, double angle) const {
    int sides = 0;
    for (const int way : {-1, 1}) {
      for (double step = 0.5; step <= gradient_reach; step += 0.5) {
        const int u = static_cast<int>(std::lround(x + way * step * std::cos(angle)));
        const int v = static_cast<int>(std::lround(y + way * step * std::sin(angle)));
        if (!core_.has(u, v)) break;
        if (core_.at(u, v) < 0) continue;
        add(to, u, v);
        ++sides;
        break;
      }
    }
    return sides;
  }

  void in_window(Candidates& to, int x, int y, int reach) const {
    for (int v = std::max(0, y - reach); v <= std::min(core_.height() - 1, y + reach); ++v) {
      for (int u = std::max(0, x - reach); u <= std::min(core_.width() - 1, x + reach); ++u) {
        add(to, u, v);
      }
    }
  }

  [[nodiscard]] int choose(int x, int y, int u, int v, bool flat, double angle) const {
    const int scale = picture_.scale;
    const Three own = three(picture_.enlarged.at(x * scale + u, y * scale + v));
    Candidates candidates;
    if (picture_.core.ridge(x, y) != nullptr) add(candidates, x, y);
    int sides = 0;
    if (!flat) {
      sides = along_gradient(candidates, x + (u + 0.5) / scale - 0.5, y + (v + 0.5) / scale - 0.5,
                             angle);
    }
    for (int reach = 1; sides < 2 && reach <= widest_window; ++reach) {
      in_window(candidates, x, y, reach);
      if (candidates.count() >= 2 || flat) break;
    }
    if (candidates.count() > 0) return candidates.nearest(own);
    return picture_.palette.nearest(picture_.lab.at(x, y));
  }

  const Coloured& picture_;
  Grid<int> core_;
  Grid<int> cells_;
};

}  // namespace

Grid<int> label_cells(const Coloured& picture) { return Labeller(picture).run(); }

}  // namespace quoin::trace
