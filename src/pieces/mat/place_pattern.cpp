#include "pieces/mat/place_pattern.h"

#include <algorithm>
#include <cmath>

namespace quoin::pieces {
namespace {

/// Cards of a fan turn about a point this many heights below their middle, as in a hand: the thumb
/// holds them beneath their lower edge (common practice, no source).
constexpr double fan_pivot = 1.1;

LaidPlaces in_ranks(const PlacePattern& pattern, int columns) {
  const int rows = (pattern.count + columns - 1) / columns;
  const Size step{pattern.each.width + pattern.gap, pattern.each.height + pattern.gap};
  LaidPlaces laid;
  for (int i = 0; i < pattern.count; ++i) {
    laid.spots.push_back({{step.width * (i % columns) + pattern.each.width / 2,
                           step.height * (i / columns) + pattern.each.height / 2},
                          {}});
  }
  const int widest = std::min(columns, pattern.count);
  // With a gap far below 0 the first place is the widest thing of all.
  laid.whole = {std::max(pattern.each.width, pattern.each.width + step.width * (widest - 1)),
                std::max(pattern.each.height, pattern.each.height + step.height * (rows - 1))};
  return laid;
}

LaidPlaces in_a_fan(const PlacePattern& pattern) {
  const Mm reach = pattern.each.height * fan_pivot;
  LaidPlaces laid;
  std::optional<Rect> all;
  for (int i = 0; i < pattern.count; ++i) {
    const double share = pattern.count == 1 ? 0.5 : static_cast<double>(i) / (pattern.count - 1);
    const Angle turn{pattern.spread.radians * (share - 0.5)};
    const SinCos at = sin_cos(turn);
    laid.spots.push_back({{reach * at.sin, -reach * at.cos}, turn});
    const Rect upright{{-pattern.each.width / 2, -pattern.each.height / 2}, pattern.each};
    const Rect round = bounds(place_map(laid.spots.back()), upright);
    all = all ? covering(*all, round) : round;
  }
  for (PlaceSpot& spot : laid.spots) spot.middle = spot.middle - (all->at - Point{});
  laid.whole = all->size;
  return laid;
}

Polygon mapped_outline(const Polygon& outline, const Affine& map) {
  Polygon there;
  there.reserve(outline.size());
  for (const Point corner : outline) there.push_back(map(corner));
  return there;
}

}  // namespace

Affine place_map(const PlaceSpot& spot) {
  return then(Affine::turn(spot.turn), Affine::move(spot.middle - Point{}));
}

LaidPlaces lay_places(const PlacePattern& pattern) {
  switch (pattern.arrange) {
    case PlaceArrange::row:
      return in_ranks(pattern, pattern.count);
    case PlaceArrange::column:
      return in_ranks(pattern, 1);
    case PlaceArrange::grid:
      return in_ranks(pattern, pattern.columns);
    case PlaceArrange::fan:
      return in_a_fan(pattern);
    case PlaceArrange::single:
    case PlaceArrange::pile:
      break;
  }
  LaidPlaces laid{pattern.each, {{{pattern.each.width / 2, pattern.each.height / 2}, {}}}};
  if (pattern.arrange == PlaceArrange::pile) {
    const Mm beneath = pile_step * cards_beneath;
    laid.whole = {pattern.each.width + beneath, pattern.each.height + beneath};
  }
  return laid;
}

Polygon place_outline(Size each, Mm radius) {
  constexpr int steps = 12;  // of a quarter: off by r (1 - cos(pi/48)), 0.011 mm at 5 mm
  const Mm r = std::clamp(radius, Mm{0}, Mm{std::min(each.width.value, each.height.value) / 2});
  const Mm across = each.width / 2 - r, down = each.height / 2 - r;
  const Point centres[4] = {{across, -down}, {across, down}, {-across, down}, {-across, -down}};
  Polygon outline;
  for (int corner = 0; corner < 4; ++corner) {
    for (int i = 0; i <= (r > Mm{0} ? steps : 0); ++i) {
      const SinCos at = sin_cos(Angle::degrees(90.0 * corner + 90.0 * i / steps));
      // Clockwise on the page from the top of the upper right corner.
      outline.push_back(centres[corner] + Vec{r * at.sin, -r * at.cos});
    }
  }
  return outline;
}

std::vector<Path> seen_outlines(const PlacePattern& pattern, const LaidPlaces& laid) {
  std::vector<Path> paths;
  if (pattern.arrange != PlaceArrange::fan) {
    const Rect upright{{-pattern.each.width / 2, -pattern.each.height / 2}, pattern.each};
    for (const PlaceSpot& spot : laid.spots) {
      paths.push_back(mapped(Path::rounded_rectangle(upright, pattern.radius), place_map(spot)));
    }
    return paths;
  }
  const Polygon outline = place_outline(pattern.each, pattern.radius);
  std::vector<Polygon> cards;
  for (const PlaceSpot& spot : laid.spots) {
    cards.push_back(mapped_outline(outline, place_map(spot)));
  }
  for (std::size_t i = 0; i < cards.size(); ++i) {
    const std::vector<Polygon> over(cards.begin() + static_cast<std::ptrdiff_t>(i) + 1,
                                    cards.end());
    paths.push_back(to_path(without({{cards[i], {}}}, over)));
  }
  return paths;
}

std::vector<Path> pile_edges(const PlacePattern& pattern, const LaidPlaces& laid) {
  std::vector<Path> paths;
  if (pattern.arrange != PlaceArrange::pile) return paths;
  const Polygon outline = place_outline(pattern.each, pattern.radius);
  const auto at = [&](int depth) {
    const Mm by = pile_step * depth;
    return mapped_outline(outline,
                          Affine::move((laid.spots.front().middle + Vec{by, by}) - Point{}));
  };
  for (int depth = cards_beneath; depth > 0; --depth) {
    paths.push_back(to_path(without({{at(depth), {}}}, {at(depth - 1)})));
  }
  return paths;
}

}  // namespace quoin::pieces
