#include "trace/photo/weigh.h"

#include <algorithm>

namespace quoin::trace {
namespace {

/// Looks at a card by places on it: (0, 0) its top left corner, (1, 1) its bottom right.
class OnCard {
 public:
  OnCard(const View& view, const Corners& straight, const Lens& lens)
      : view_(view), lens_(lens), map_(from_unit_square(straight)) {}
  [[nodiscard]] std::optional<Three> at(double u, double v) const {
    const Spot p = lens_.as_seen(map_({u, v}));
    if (!view_.shows(p)) return std::nullopt;
    return view_.at(p);
  }

 private:
  const View& view_;
  const Lens& lens_;
  Homography map_;
};

/// A card's sides in pixels, across and down.
Spot sides_of(const Corners& c) {
  return {(size(c[1] - c[0]) + size(c[2] - c[3])) / 2, (size(c[2] - c[1]) + size(c[3] - c[0])) / 2};
}

/// A place `along` 0..1 of a side and `out` of the other dimension's length outwards.
Spot beside(std::size_t side, double along, double out) {
  switch (side) {
    case 0:
      return {along, -out};
    case 1:
      return {1 + out, along};
    case 2:
      return {1 - along, 1 + out};
    default:
      return {-out, 1 - along};
  }
}

/// How many of the corners have the ground's colour in their tip, weighted by how well that can be
/// told there.
double roundness_of(const OnCard& card, Spot px, double radius) {
  double sum = 0, weights = 0;
  const double ru = radius / px.x, rv = radius / px.y;
  for (int k = 0; k < 4; ++k) {
    const auto look = [&](double a, double b) {
      return card.at(k == 0 || k == 3 ? a * ru : 1 - a * ru, k < 2 ? b * rv : 1 - b * rv);
    };
    const auto tip = look(0.1, 0.1);
    const auto out_a = look(-0.35, 0.6), out_b = look(0.6, -0.35), out_c = look(-0.3, -0.3);
    const auto in_a = look(1.6, 0.35), in_b = look(0.35, 1.6), in_c = look(0.6, 0.6);
    if (!tip || !out_a || !out_b || !out_c || !in_a || !in_b || !in_c) continue;
    const Three out = (*out_a + *out_b + *out_c) * (1 / 3.0F);
    const Three in = (*in_a + *in_b + *in_c) * (1 / 3.0F);
    const double contrast = squared(out - in);
    const double weight = std::min(contrast, 900.0);
    sum +=
        weight * std::clamp(double(dot(*tip - in, out - in)) / std::max(contrast, 1.0), 0.0, 1.0);
    weights += weight;
  }
  return weights > 1 ? sum / weights : 0;
}

/// 0..1: how much a line beside each side is of one colour.
double evenness_at(const OnCard& card, Spot px, double out) {
  constexpr int looks = 24;
  double spread = 0;
  for (std::size_t side = 0; side < 4; ++side) {
    const double other = side % 2 == 0 ? px.y : px.x;
    std::vector<Three> colours;
    for (int k = 0; k < looks; ++k) {
      const Spot p = beside(side, 0.1 + 0.8 * k / (looks - 1), out / other);
      if (const auto colour = card.at(p.x, p.y)) colours.push_back(*colour);
    }
    if (colours.size() < looks / 2) return 0;
    Three middle;
    for (const Three& c : colours)
      middle = middle + c * (1.0F / static_cast<float>(colours.size()));
    std::vector<double> off;
    for (const Three& c : colours) off.push_back(distance(c, middle));
    std::nth_element(off.begin(), off.begin() + std::ptrdiff_t(off.size() * 3 / 4), off.end());
    spread = std::max(spread, off[off.size() * 3 / 4]);
  }
  return std::exp(-spread / 12);
}

/// Steps along lines parallel to a side.
struct Parallel {
  double out = 0, step = 0;  // px, at most steep_enough
};

std::vector<Parallel> parallels(const View& view, const OnCard& card, Spot px, std::size_t side,
                                std::size_t most) {
  constexpr int parts = 8, each = 8;
  const double other = side % 2 == 0 ? px.y : px.x;
  const double shorter = std::min(px.x, px.y);
  const int least = -static_cast<int>(0.10 * shorter), far = static_cast<int>(0.20 * shorter);
  std::vector<double> steps;
  std::vector<std::vector<std::optional<Three>>> rows;
  for (int d = least - 1; d <= far + 1; ++d) {
    auto& row = rows.emplace_back();
    for (int k = 0; k < parts * each; ++k) {
      const Spot p = beside(side, 0.08 + 0.84 * (k + 0.5) / (parts * each), d / other);
      row.push_back(card.at(p.x, p.y));
    }
  }
  for (std::size_t i = 1; i + 1 < rows.size(); ++i) {
    double sum = 0;
    int seen = 0;
    for (int j = 0; j < parts; ++j) {
      Three step;
      int count = 0;
      for (int k = j * each; k < (j + 1) * each; ++k) {
        const auto &a = rows[i - 1][std::size_t(k)], &b = rows[i + 1][std::size_t(k)];
        if (!a || !b) continue;
        step = step + (*b - *a);
        ++count;
      }
      if (count < each / 2) continue;
      ++seen;
      sum += std::min(double(std::sqrt(squared(step))) / count, steep_enough);
    }
    steps.push_back(seen >= parts / 2 ? sum / seen : 0);
  }
  std::vector<Parallel> peaks;
  const double notable = 1.2 * notable_step(view, each);
  for (std::size_t i = 1; i + 1 < steps.size(); ++i) {
    const double out = least + double(i);
    if (std::abs(out) < 2.5 || steps[i] < notable) continue;
    if (steps[i] < steps[i - 1] || steps[i] <= steps[i + 1]) continue;
    const double bend = steps[i - 1] - 2 * steps[i] + steps[i + 1];
    const double part = bend < -1e-9 ? 0.5 * (steps[i - 1] - steps[i + 1]) / bend : 0;
    peaks.push_back({out + std::clamp(part, -0.5, 0.5), steps[i]});
  }
  std::sort(peaks.begin(), peaks.end(),
            [](const Parallel& a, const Parallel& b) { return a.step > b.step; });
  if (peaks.size() > most) peaks.resize(most);
  return peaks;
}

}  // namespace

double proportion_as_lying(const Corners& straight, const CardShape& shape) {
  const double given = shape.size.width / shape.size.height;
  const double upright = std::min(given, 1 / given);
  const Spot px = sides_of(straight);
  return px.x > px.y ? 1 / upright : upright;
}

Weighed weigh(const View& view, Outline outline, const CardShape& shape) {
  Weighed w;
  w.outline = std::move(outline);
  const Corners& c = w.outline.corners;
  const double proportion = proportion_as_lying(c, shape);
  w.pose = pose_of(c, proportion, w.outline.lens);
  // At a slant the longer side may look the shorter one.
  const Pose turned = pose_of(c, 1 / proportion, w.outline.lens);
  if (turned.misfit < w.pose.misfit) w.pose = turned;
  const OnCard card(view, c, w.outline.lens);
  const Spot px = sides_of(c);
  const double mm = std::sqrt(px.x * px.y / (shape.size.width.value * shape.size.height.value));
  const double radius = shape.corner.value * mm;
  w.roundness = radius > 3 ? roundness_of(card, px, radius) : 0.5;
  const double near = std::max(3.0, 0.6 * mm);
  w.even_border = evenness_at(card, px, -near);
  w.share = area_of(c) / (double(view.width()) * view.height());
  const double seen = 0.3 + 0.7 * w.outline.least_support();
  const double steep = std::min(1.0, w.outline.least_strength() / 4);
  const double off = w.pose.misfit / 2.5;
  const double fitting = 0.15 + 0.85 / (1 + off * off);
  const double round = shape.corner.value > 0 ? 0.5 + 0.5 * w.roundness : 1;
  w.score = seen * steep * fitting * round * (0.8 + 0.2 * w.even_border) * std::pow(w.share, 0.75);
  return w;
}

std::vector<Corners> neighbours(const View& view, const Weighed& found, const CardShape& shape,
                                std::size_t most) {
  const Corners& c = found.outline.corners;
  const OnCard card(view, c, found.outline.lens);
  const Homography map = from_unit_square(c);
  const Spot px = sides_of(c);
  const double proportion =
      found.pose.proportion > 1
          ? std::max(shape.size.width / shape.size.height, shape.size.height / shape.size.width)
          : std::min(shape.size.width / shape.size.height, shape.size.height / shape.size.width);
  std::array<std::vector<Parallel>, 4> choices;
  for (std::size_t side = 0; side < 4; ++side) {
    choices[side] = parallels(view, card, px, side, 4);
    choices[side].push_back({0, found.outline.sides[side].strength});
  }
  struct Option {
    Corners corners;
    double score = 0;
  };
  std::vector<Option> options;
  for (const Parallel& top : choices[0]) {
    for (const Parallel& right : choices[1]) {
      for (const Parallel& bottom : choices[2]) {
        for (const Parallel& left : choices[3]) {
          if (top.out == 0 && right.out == 0 && bottom.out == 0 && left.out == 0) continue;
          const double l = -left.out / px.x, r = 1 + right.out / px.x;
          const double t = -top.out / px.y, b = 1 + bottom.out / px.y;
          const Corners corners{map({l, t}), map({r, t}), map({r, b}), map({l, b})};
          const Pose pose = pose_of(corners, proportion, found.outline.lens);
          const double steps = std::min(top.step, 8.0) + std::min(right.step, 8.0) +
                               std::min(bottom.step, 8.0) + std::min(left.step, 8.0);
          const double growth = (r - l) * (b - t);
          options.push_back({corners, steps * growth / (1 + std::pow(pose.misfit / 2.5, 2))});
        }
      }
    }
  }
  std::stable_sort(options.begin(), options.end(),
                   [](const Option& a, const Option& b) { return a.score > b.score; });
  std::vector<Corners> best;
  for (const Option& option : options) {
    if (best.size() == most) break;
    const bool twice = std::any_of(best.begin(), best.end(), [&](const Corners& other) {
      return farthest_corner(option.corners, other) < 3;
    });
    if (!twice) best.push_back(option.corners);
  }
  return best;
}

}  // namespace quoin::trace
