#include "trace/photo/grid.h"

#include <algorithm>
#include <map>

#include "trace/photo/coarse.h"

namespace quoin::trace {
namespace {

constexpr double least_in_grid = 0.0012;  // of the picture, for each card
constexpr double most_in_grid = 0.45;
constexpr std::size_t most_looked_at = 160;

Spot centre_of(const Weighed& w) { return mean(w.outline.corners); }
Spot across_of(const Corners& c) { return (c[1] - c[0] + c[2] - c[3]) * 0.5; }
Spot down_of(const Corners& c) { return (c[3] - c[0] + c[2] - c[1]) * 0.5; }

/// Where a place is in steps of two directions.
Spot in_steps(Spot p, Spot a, Spot b) {
  const double whole = cross(a, b);
  return {cross(p, b) / whole, cross(a, p) / whole};
}

std::vector<Weighed> cards_near(const View& view, const CardShape& shape) {
  const double given = shape.size.width / shape.size.height;
  const double proportion = std::min(given, 1 / given);
  const Lens lens{view.middle(), view.longer() / 2.0, 0};
  std::vector<Weighed> all;
  for (const Guess& guess :
       coarse_guesses(view, proportion, least_in_grid, most_looked_at, close_glance)) {
    const double side = std::sqrt(area_of(guess.corners));
    auto outline = follow_sides(view, guess.corners, lens, std::clamp(side * 0.05, 3.0, 12.0));
    if (!outline) continue;
    if (auto again = follow_sides(view, outline->corners, lens, 3)) outline = again;
    Weighed one = weigh(view, std::move(*outline), shape);
    if (one.share > most_in_grid || one.pose.misfit > 12) continue;
    if (one.outline.least_support() < 0.5) continue;
    all.push_back(std::move(one));
  }
  return all;
}

bool like(const Weighed& a, const Weighed& b) {
  const Corners &c = a.outline.corners, &d = b.outline.corners;
  const double across = size(across_of(c)), down = size(down_of(c));
  return size(across_of(c) - across_of(d)) < 0.12 * across &&
         size(down_of(c) - down_of(d)) < 0.12 * down;
}

bool overlap(const Weighed& a, const Weighed& b) {
  const Corners& c = a.outline.corners;
  const Spot off = in_steps(centre_of(b) - centre_of(a), across_of(c), down_of(c));
  return std::abs(off.x) < 0.85 && std::abs(off.y) < 0.85;
}

/// Those like `seed` that do not lie over each other, the best of each place.
std::vector<Weighed> like_seed(const std::vector<Weighed>& all, const Weighed& seed) {
  std::vector<Weighed> chosen{seed};
  for (const Weighed& one : all) {
    if (!like(seed, one)) continue;
    const bool taken = std::any_of(chosen.begin(), chosen.end(),
                                   [&](const Weighed& other) { return overlap(other, one); });
    if (!taken) chosen.push_back(one);
  }
  return chosen;
}

/// The outlines of the equal cards for which most speaks.
std::vector<Weighed> best_group(std::vector<Weighed> all) {
  std::stable_sort(all.begin(), all.end(),
                   [](const Weighed& a, const Weighed& b) { return a.score > b.score; });
  std::vector<Weighed> best;
  double most = 0;
  for (std::size_t i = 0; i < std::min<std::size_t>(all.size(), 40); ++i) {
    std::vector<Weighed> group = like_seed(all, all[i]);
    double sum = 0;
    for (const Weighed& one : group) sum += one.score;
    if (sum > most * 1.0001) {
      most = sum;
      best = std::move(group);
    }
  }
  return best;
}

using Cell = std::pair<int, int>;  // row, column

/// Rows and columns: `centre(row, column) = at + across column + down row`.
struct Lattice {
  Spot at, across, down;
  std::map<Cell, std::size_t> cards;  // which of the group stands where
};

/// The shortest step from card to card that runs along `way`.
std::optional<Spot> step_along(const std::vector<Weighed>& group, Spot way, Spot other) {
  std::optional<Spot> best;
  double shortest = 1e18;
  for (const Weighed& a : group) {
    for (const Weighed& b : group) {
      const Spot off = centre_of(b) - centre_of(a), steps = in_steps(off, way, other);
      if (steps.x < 0.85 || std::abs(steps.y) > 0.25 * steps.x || steps.x >= shortest) continue;
      shortest = steps.x;
      best = off;
    }
  }
  return best;
}

/// Fits the lattice to the centres of its cards, by least squares.
void fit(Lattice& lattice, const std::vector<Weighed>& group) {
  double n = 0, i1 = 0, j1 = 0, ii = 0, jj = 0, ij = 0;
  Spot s, si, sj;
  for (const auto& [cell, card] : lattice.cards) {
    const double i = cell.second, j = cell.first;
    const Spot c = centre_of(group[card]);
    n += 1;
    i1 += i;
    j1 += j;
    ii += i * i;
    jj += j * j;
    ij += i * j;
    s = s + c;
    si = si + c * i;
    sj = sj + c * j;
  }
  const double a = ii - i1 * i1 / n, b = ij - i1 * j1 / n, d = jj - j1 * j1 / n;
  const Spot u = si - s * (i1 / n), v = sj - s * (j1 / n);
  const bool columns = a > 1e-9, rows = d > 1e-9;
  const double whole = a * d - b * b;
  if (columns && rows && whole > 1e-9) {
    lattice.across = (u * d - v * b) * (1 / whole);
    lattice.down = (v * a - u * b) * (1 / whole);
  } else if (columns) {
    lattice.across = u * (1 / a);
  } else if (rows) {
    lattice.down = v * (1 / d);
  }
  lattice.at = s * (1 / n) - lattice.across * (i1 / n) - lattice.down * (j1 / n);
}

Lattice lattice_of(const std::vector<Weighed>& group) {
  Lattice lattice;
  const Corners& c = group.front().outline.corners;
  const Spot across = across_of(c), down = down_of(c);
  const auto one = step_along(group, across, down), other = step_along(group, down, across);
  // With one row only, a second row would stand as far off as the columns do beside their cards.
  const double gap = one ? size(*one) / size(across) : other ? size(*other) / size(down) : 1;
  lattice.at = centre_of(group.front());
  lattice.across = one ? *one : across * gap;
  lattice.down = other ? *other : down * gap;
  for (int round = 0; round < 3; ++round) {
    lattice.cards.clear();
    for (std::size_t k = 0; k < group.size(); ++k) {
      const Spot steps = in_steps(centre_of(group[k]) - lattice.at, lattice.across, lattice.down);
      const Cell cell{int(std::lround(steps.y)), int(std::lround(steps.x))};
      if (std::hypot(steps.x - cell.second, steps.y - cell.first) > 0.22) continue;
      lattice.cards.emplace(cell, k);
    }
    fit(lattice, group);
  }
  return lattice;
}

double off_proportion(Spot across, Spot down, const CardShape& shape) {
  const double given = shape.size.width / shape.size.height, seen = size(across) / size(down);
  return std::min(std::abs(std::log(seen / given)), std::abs(std::log(seen * given)));
}

/// Whether something is to be seen within the corners: a card, and not the bare ground.
bool shows_something(const View& view, const Corners& c) {
  constexpr int looks = 12;
  const Homography map = from_unit_square(c);
  std::vector<float> lights;
  for (int k = 0; k < looks * looks; ++k) {
    const Spot p = map({(k % looks + 0.5) / looks, (k / looks + 0.5) / looks});
    if (view.shows(p)) lights.push_back(view.at(p).x);
  }
  if (lights.size() < looks * looks / 2) return false;
  std::sort(lights.begin(), lights.end());
  return lights[lights.size() * 9 / 10] - lights[lights.size() / 10] > 10 + 3 * view.grain;
}

Corners moved(const Corners& c, Spot by) { return {c[0] + by, c[1] + by, c[2] + by, c[3] + by}; }

Spot middle_one(std::vector<Spot>& all) {
  const auto middle = all.begin() + std::ptrdiff_t(all.size() / 2);
  std::nth_element(all.begin(), middle, all.end(),
                   [](Spot a, Spot b) { return size(a) < size(b); });
  return *middle;
}

/// The corners of a card in the middle of the lattice, all equal.
Corners typical(const std::vector<Weighed>& group, const Lattice& lattice, const CardShape& shape) {
  // Those in the middle by their length: some may be the frame of a card whose edge is faint.
  std::vector<Spot> all_across, all_down;
  for (const auto& [cell, k] : lattice.cards) {
    all_across.push_back(across_of(group[k].outline.corners));
    all_down.push_back(down_of(group[k].outline.corners));
  }
  Spot across = middle_one(all_across), down = middle_one(all_down);
  // Frames printed on cards that touch: the cards are as far apart as they are large.
  const bool near =
      size(lattice.across) < 1.25 * size(across) && size(lattice.down) < 1.25 * size(down);
  if (near && off_proportion(lattice.across, lattice.down, shape) + 0.004 <
                  off_proportion(across, down, shape)) {
    across = lattice.across;
    down = lattice.down;
  }
  const Spot a = across * 0.5, d = down * 0.5;
  return {Spot{} - a - d, a - d, a + d, d - a};
}

}  // namespace

std::vector<Weighed> grid_in(const View& view, const CardShape& shape) {
  const std::vector<Weighed> group = best_group(cards_near(view, shape));
  if (group.size() < 2) return {};
  const Lattice lattice = lattice_of(group);
  if (lattice.cards.size() < 2) return {};
  const Corners card = typical(group, lattice, shape);
  const Lens lens{view.middle(), view.longer() / 2.0, 0};
  Cell least{1 << 20, 1 << 20}, most{-(1 << 20), -(1 << 20)};
  for (const auto& [cell, k] : lattice.cards) {
    least = {std::min(least.first, cell.first), std::min(least.second, cell.second)};
    most = {std::max(most.first, cell.first), std::max(most.second, cell.second)};
  }
  if ((most.first - least.first + 1) * (most.second - least.second + 1) > 400) return {};
  std::vector<Weighed> cards;
  const double reach = std::max(2.0, 0.012 * size(across_of(card)));
  for (int row = least.first; row <= most.first; ++row) {
    for (int column = least.second; column <= most.second; ++column) {
      const Spot centre = lattice.at + lattice.across * column + lattice.down * row;
      const Corners meant = moved(card, centre);
      const bool seen = lattice.cards.contains({row, column});
      auto outline = follow_sides(view, meant, lens, reach);
      // Sides that touch a card like it cannot be seen, and are where the others say.
      const bool sure = outline && farthest_corner(outline->corners, meant) < 1.5 * reach;
      if (!sure && !seen && !shows_something(view, meant)) continue;
      if (!sure) {
        outline = Outline{meant, {}, lens};
        for (Side& side : outline->sides) side.support = side.strength = 1;
      }
      cards.push_back(weigh(view, std::move(*outline), shape));
      // A place where only the others say that there is a card.
      if (!sure && !seen) cards.back().outline.sides.front().support = 0;
    }
  }
  return cards.size() < 2 ? std::vector<Weighed>{} : cards;
}

}  // namespace quoin::trace
