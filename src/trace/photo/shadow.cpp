#include "trace/photo/shadow.h"

#include <algorithm>
#include <numbers>

namespace quoin::trace {
namespace {

constexpr double spacing = 0.5;              // px between samples of a profile
constexpr int samples_outside = 20;          // of them
constexpr double steeper_than_shadows = 11;  // Side::strength
constexpr std::array sharp_widths{1.3, 1.7, 2.3};
constexpr std::array soft_widths{3.0, 4.5, 6.5};

/// A step from 0 to 1 blurred by a standard deviation.
double blurred_step(double off, double width) {
  return 0.5 * std::erfc(-off / (width * std::numbers::sqrt2));
}

/// The mean colour along a stretch of a side, from `inside` samples within it outwards.
struct Profile {
  int inside = 0;
  std::vector<Three> colours;
  [[nodiscard]] double place(std::size_t k) const { return (double(k) - inside) * spacing; }
};

Profile profile_of(const View& view, const Side& side, const Lens& lens, Spot part, int inside) {
  constexpr int looks = 48;
  Profile profile;
  profile.inside = inside;
  const Spot along = unit(side.to - side.from), outwards{along.y, -along.x};
  profile.colours.resize(std::size_t(inside + samples_outside + 1));
  for (int k = 0; k < looks; ++k) {
    const double t = part.x + (part.y - part.x) * (k + 0.5) / looks;
    const Spot middle = lens.as_seen(side.from + (side.to - side.from) * t);
    for (std::size_t i = 0; i < profile.colours.size(); ++i) {
      const Spot p = middle + outwards * profile.place(i);
      const Spot q{std::clamp(p.x, 0.5, view.width() - 0.51),
                   std::clamp(p.y, 0.5, view.height() - 0.51)};
      profile.colours[i] = profile.colours[i] + view.at(q) * (1.0F / looks);
    }
  }
  return profile;
}

/// What remains of a profile after a level, a slope and some steps were fitted to it.
struct Remains {
  double square = 1e18;
  double first_step = 0, second_step = 0;  ///< their sizes, all parts of the colour together
};

/// `shapes`: the steps at each sample, up to two.
Remains remains_of(const Profile& profile, const std::array<std::vector<double>, 2>& shapes,
                   std::size_t steps) {
  const std::size_t terms = 2 + steps;
  double normal[4][4] = {}, right[4][3] = {}, square = 0;
  const std::size_t count = profile.colours.size();
  const Three level = profile.colours[count / 2];
  for (std::size_t k = 0; k < count; ++k) {
    const double row[4] = {1, profile.place(k) / 10, steps > 0 ? shapes[0][k] : 0,
                           steps > 1 ? shapes[1][k] : 0};
    const Three c = profile.colours[k] - level;
    const double colour[3] = {c.x, c.y, c.z};
    for (std::size_t i = 0; i < terms; ++i) {
      for (std::size_t j = 0; j < terms; ++j) normal[i][j] += row[i] * row[j];
      for (std::size_t p = 0; p < 3; ++p) right[i][p] += row[i] * colour[p];
    }
    for (const double p : colour) square += p * p;
  }
  double kept[4][3];
  std::copy(&right[0][0], &right[0][0] + 12, &kept[0][0]);
  for (std::size_t i = 0; i < terms; ++i) normal[i][i] += 1e-3;
  // Gauss without choosing rows: the matrix is symmetric and positive.
  for (std::size_t i = 0; i < terms; ++i) {
    for (std::size_t j = i + 1; j < terms; ++j) {
      const double factor = normal[j][i] / normal[i][i];
      for (std::size_t k = i; k < terms; ++k) normal[j][k] -= factor * normal[i][k];
      for (std::size_t p = 0; p < 3; ++p) right[j][p] -= factor * right[i][p];
    }
  }
  Remains remains;
  remains.square = square;
  double found[4][3] = {};
  for (std::size_t i = terms; i-- > 0;) {
    for (std::size_t p = 0; p < 3; ++p) {
      double value = right[i][p];
      for (std::size_t k = i + 1; k < terms; ++k) value -= normal[i][k] * found[k][p];
      found[i][p] = value / normal[i][i];
      remains.square -= found[i][p] * kept[i][p];
    }
  }
  const auto step = [&](std::size_t i) {
    return std::hypot(found[i][0], found[i][1], found[i][2]);
  };
  if (steps > 0) remains.first_step = step(2);
  if (steps > 1) remains.second_step = step(3);
  return remains;
}

std::vector<double> shape_of(const Profile& profile, double at, double width) {
  std::vector<double> shape;
  for (std::size_t k = 0; k < profile.colours.size(); ++k) {
    shape.push_back(blurred_step(profile.place(k) - at, width));
  }
  return shape;
}

struct Edge {
  double at = 0, width = 0;
  Remains remains;
};

Edge one_step(const Profile& profile, double least, double most) {
  Edge best;
  for (const double width : sharp_widths) {
    for (double at = least; at <= most; at += 0.25) {
      const Remains r = remains_of(profile, {shape_of(profile, at, width), {}}, 1);
      if (r.square < best.remains.square) best = {at, width, r};
    }
  }
  return best;
}

Edge step_before_shadow(const Profile& profile, double least, double most) {
  Edge best;
  double around = 0, reach = 1e9;
  for (const double stride : {1.0, 0.25}) {
    for (const double soft : soft_widths) {
      for (double shade = -1; shade <= 9; shade += 1) {
        std::vector<double> shadow = shape_of(profile, shade, soft);
        for (const double width : sharp_widths) {
          for (double at = least; at <= std::min(most, shade + 2); at += stride) {
            if (std::abs(at - around) > reach || soft < 1.8 * width) continue;
            const Remains r = remains_of(profile, {shape_of(profile, at, width), shadow}, 2);
            if (r.square < best.remains.square) best = {at, width, r};
          }
        }
      }
    }
    around = best.at;
    reach = 1;
  }
  return best;
}

/// How far outwards of its line the two halves of a side have the card's edge, x the first; nothing
/// when it has no shadow to be told from.
std::optional<Spot> edge_before_shadow(const View& view, Side& side, const Lens& lens, int inside) {
  const double least = -inside * spacing + 3, most = 2;
  double alone = 0, both = 0, sharp = 0, soft = 0;
  std::array<double, 2> places{};
  for (std::size_t half = 0; half < 2; ++half) {
    const Spot part{0.5 * double(half), 0.5 + 0.5 * double(half)};
    const Profile profile = profile_of(view, side, lens, part, inside);
    const Edge before = step_before_shadow(profile, least, most);
    const Edge one = one_step(profile, least, most);
    alone += one.remains.square;
    side.other_step = std::max(side.other_step, std::abs(one.at));
    both += before.remains.square;
    sharp += before.remains.first_step / 2;
    soft += before.remains.second_step / 2;
    places[half] = before.at;
  }
  // Two levels are more than noise leaves in the mean of a half; beside a much larger step a small
  // one is texture.
  if (sharp < 2 || sharp < 0.2 * soft || both > 0.5 * alone) return std::nullopt;
  return Spot{places[0], places[1]};
}

}  // namespace

Outline without_shadow(const View& view, Outline outline, double reach) {
  const int inside = std::clamp(static_cast<int>(reach / spacing), 8, 24);
  bool moved = false;
  for (Side& side : outline.sides) {
    if (side.strength > steeper_than_shadows) continue;
    const auto edge = edge_before_shadow(view, side, outline.lens, inside);
    if (!edge) continue;
    // At the side's ends, the halves having their middles at a quarter and three quarters.
    const double slant = (edge->y - edge->x) / 2, from = edge->x - slant, to = edge->y + slant;
    if (std::max(std::abs(from), std::abs(to)) < 0.8 || std::abs(from - to) > 4) continue;
    const Spot along = unit(side.to - side.from), outwards{along.y, -along.x};
    side.from = side.from + outwards * from;
    side.to = side.to + outwards * to;
    moved = true;
  }
  if (!moved) return outline;
  Corners corners;
  for (std::size_t i = 0; i < 4; ++i) {
    const auto corner = meeting(outline.sides[(i + 3) % 4], outline.sides[i]);
    if (!corner) return outline;
    corners[i] = *corner;
  }
  outline.corners = corners;
  return outline;
}

}  // namespace quoin::trace
