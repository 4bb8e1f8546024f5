#include "pieces/box/deck_block.h"

#include <algorithm>
#include <cmath>

#include "pieces/box/draft.h"

namespace quoin::pieces {
namespace {

using fold::Vec3;

/// The outline of a card, clockwise; corners in chords.
Polygon card_outline(Size card, Mm corner) {
  const Mm r = std::min({corner, card.width / 2, card.height / 2});
  if (r <= Mm{}) return block(Mm{}, Mm{}, card.width, card.height);
  Polygon outline;
  const Mm right = card.width - r, bottom = card.height - r;
  const Point centres[] = {{r, r}, {right, r}, {right, bottom}, {r, bottom}};
  for (int k = 0; k < 4; ++k) {
    add_arc(outline, centres[k], r, Angle::degrees(180 + 90.0 * k), Angle::degrees(270 + 90.0 * k));
  }
  return outline;
}

/// How far the lines lie apart.
double line_distance(Mm card) {
  constexpr double least = 0.3;
  const double each = std::max(card.value, 0.01);
  return each * std::ceil(least / each - 1e-9);
}

BlockFace side_of(const StagedDeck& deck, Point a, Point b, double apart) {
  const double depth = deck.size.depth.value;
  const Vec along = (b - a) * (1 / length(b - a).value);
  BlockFace face;
  face.surface.side = fold::Side::edge;
  face.surface.normal = deck.place.turned({along.y.value, -along.x.value, 0});
  const auto at = [&](Point p, double z) { return deck.place(fold::lifted(p, z)); };
  face.surface.parts = {{at(a, 0), at(b, 0), at(b, depth), at(a, depth)}};
  const int lines = static_cast<int>(std::min(depth / apart, 2000.0));
  for (int k = 1; k <= lines; ++k) face.lines.push_back({at(a, k * apart), at(b, k * apart)});
  return face;
}

}  // namespace

std::vector<BlockFace> deck_block(const StagedDeck& deck, Mm corner, Mm card) {
  const Polygon outline = card_outline({deck.size.width, deck.size.height}, corner);
  const double depth = deck.size.depth.value;
  std::vector<BlockFace> faces(2);
  for (int k = 0; k < 2; ++k) {
    fold::Surface& surface = faces[static_cast<std::size_t>(k)].surface;
    surface.side = k == 0 ? fold::Side::printed : fold::Side::edge;
    surface.map = {deck.place(Vec3{0, 0, k * depth}), deck.place.turned({1, 0, 0}),
                   deck.place.turned({0, 1, 0})};
    surface.normal = deck.place.normal() * (k == 0 ? -1 : 1);
    surface.parts.emplace_back();
    for (const Point p : outline) surface.parts[0].push_back(surface.map(p));
  }
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Point a = outline[i], b = outline[(i + 1) % outline.size()];
    if (length(b - a).value < 1e-9) continue;
    faces.push_back(side_of(deck, a, b, line_distance(card)));
  }
  return faces;
}

}  // namespace quoin::pieces
