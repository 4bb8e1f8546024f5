#include "fold/convex.h"

#include <algorithm>
#include <cmath>

namespace quoin::fold {
namespace {

/// A direction or a place without its unit, for products.
struct Flat {
  double x = 0, y = 0;
};

Flat way(Point from, Point to) { return {to.x.value - from.x.value, to.y.value - from.y.value}; }
double crossed(Flat a, Flat b) { return a.x * b.y - a.y * b.x; }

/// A side as a line: `out` is square to it, outwards, of length 1 (clockwise on the page).
struct SideLine {
  Point at;
  Flat out;

  [[nodiscard]] double beyond(Point p) const {
    const Flat v = way(at, p);
    return v.x * out.x + v.y * out.y;
  }
};

std::vector<SideLine> side_lines(const Convex& outline) {
  std::vector<SideLine> lines;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Flat along = way(outline[i], outline[(i + 1) % outline.size()]);
    const double size = std::hypot(along.x, along.y);
    if (size < 1e-9) continue;
    lines.push_back({outline[i], {along.y / size, -along.x / size}});
  }
  return lines;
}

/// Whether a side of `a` has all of `b` beyond it.
bool is_apart(const Convex& a, const Convex& b) {
  constexpr double touches = 1e-5;
  const std::vector<SideLine> lines = side_lines(a);
  return std::any_of(lines.begin(), lines.end(), [&](const SideLine& line) {
    return std::all_of(b.begin(), b.end(), [&](Point p) { return line.beyond(p) >= -touches; });
  });
}

enum class Keep { inner, outer };

/// The part of an outline on one side of a line.
Convex part_of(const Convex& outline, const SideLine& line, Keep keep) {
  const double sign = keep == Keep::inner ? 1 : -1;
  Convex kept;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Point a = outline[i], b = outline[(i + 1) % outline.size()];
    const double at_a = line.beyond(a) * sign, at_b = line.beyond(b) * sign;
    if (at_a <= 0) kept.push_back(a);
    if ((at_a < 0 && at_b > 0) || (at_a > 0 && at_b < 0)) {
      kept.push_back(a + (b - a) * (at_a / (at_a - at_b)));
    }
  }
  return kept;
}

/// Whether there is so little of it that nobody sees it.
bool is_sliver(const Convex& outline) {
  if (outline.size() < 3) return true;
  double round = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    round += length(outline[(i + 1) % outline.size()] - outline[i]).value;
  }
  return area(outline) < 0.001 * round / 2;
}

/// What is left of `piece` beside `cover`, in convex parts.
void add_uncovered(Convex piece, const Convex& cover, std::vector<Convex>& parts) {
  for (const SideLine& line : side_lines(cover)) {
    Convex outside = part_of(piece, line, Keep::outer);
    if (!is_sliver(outside)) parts.push_back(std::move(outside));
    piece = part_of(piece, line, Keep::inner);
    if (is_sliver(piece)) return;
  }
}

}  // namespace

Convex clockwise_on_page(Polygon outline) {
  const double size = signed_area(outline);
  if (std::abs(size) < 1e-6) return {};
  if (size < 0) std::reverse(outline.begin(), outline.end());
  return outline;
}

bool overlap(const Convex& a, const Convex& b) { return !is_apart(a, b) && !is_apart(b, a); }

bool is_covered(const Convex& piece, const std::vector<const Convex*>& covers) {
  constexpr std::size_t most = 64;
  if (is_sliver(piece)) return false;  // thin ones fill the gaps between others
  std::vector<Convex> left{piece};
  for (const Convex* cover : covers) {
    std::vector<Convex> still;
    for (Convex& part : left) {
      if (overlap(part, *cover)) {
        add_uncovered(std::move(part), *cover, still);
      } else {
        still.push_back(std::move(part));
      }
    }
    left = std::move(still);
    if (left.empty()) return true;
    if (left.size() > most) return false;
  }
  return false;
}

Convex grown(const Convex& outline, Mm by) {
  constexpr double shortest_mitre =
      -0.11;  // cosine between sides whose corner sticks out 1.5 times
  const std::vector<SideLine> lines = side_lines(outline);
  Convex out;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const Flat before = lines[(i + lines.size() - 1) % lines.size()].out, after = lines[i].out;
    const double cosine = before.x * after.x + before.y * after.y;
    const Point corner = lines[i].at;
    if (cosine > shortest_mitre) {
      const Mm reach = by / (1 + cosine);
      out.push_back(corner + Vec{reach * (before.x + after.x), reach * (before.y + after.y)});
    } else {
      out.push_back(corner + Vec{by * before.x, by * before.y});
      out.push_back(corner + Vec{by * after.x, by * after.y});
    }
  }
  return out;
}

Convex convex_hull(std::vector<Point> places) {
  std::sort(places.begin(), places.end(),
            [](Point a, Point b) { return a.x != b.x ? a.x < b.x : a.y < b.y; });
  Convex hull;
  for (int way_along = 0; way_along < 2; ++way_along) {  // there on one side, back on the other
    const std::size_t from = hull.size();
    for (const Point p : places) {
      while (hull.size() >= from + 2 &&
             crossed(way(hull[hull.size() - 2], hull.back()), way(hull.back(), p)) <= 1e-12) {
        hull.pop_back();
      }
      hull.push_back(p);
    }
    hull.pop_back();
    std::reverse(places.begin(), places.end());
  }
  if (hull.size() < 3) return {};
  return hull;
}

}  // namespace quoin::fold
