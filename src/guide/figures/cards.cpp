#include <algorithm>

#include "guide/figures/figures.h"

namespace quoin::guide {
namespace {

/// A quarter of a round line from the left edge of a card to its top edge.
Path corner_curve(Mm radius) {
  const Mm handle = radius * 0.4477;  // of a quarter circle: r (1 - 0.5523)
  Path path;
  path.move_to({Mm{}, radius}).curve_to({Mm{}, handle}, {handle, Mm{}}, {radius, Mm{}});
  return path;
}

}  // namespace

Figure card_corner(const Making& making, Corner corner) {
  const Mm radius = making.game.card.corner;
  const Size trim = making.game.card.size;
  const Size part{std::min(trim.width, radius * 5), std::min(trim.height, radius * 4)};
  const double enlarged = Mm{48} / part.width;
  constexpr Mm margin{3};
  GroupItem face;
  face.items.push_back(shape(Path::rectangle({{}, trim}), white));
  if (!making.faces.empty()) {
    const std::vector<Item>& items = making.faces.front().scene.items;
    face.items.insert(face.items.end(), items.begin(), items.end());
  }
  // What is seen goes on to the right and below: larger than the part, cut off by the window.
  const Rect whole{{}, {part.width + radius * 2, part.height + radius * 2}};
  const Path outline =
      corner == Corner::round ? Path::rounded_rectangle(whole, radius) : Path::rectangle(whole);
  Item card;
  card.clip = outline;
  card.what = std::move(face);
  GroupItem seen;
  seen.items.push_back(std::move(card));
  seen.items.push_back(line(outline, Colour{0.3, 0.32, 0.36, 1}, Mm{0.1}));
  if (corner == Corner::square) {
    Item cut_line = line(corner_curve(radius), white, Mm{0.4});
    seen.items.push_back(std::move(cut_line));
    seen.items.push_back(line(corner_curve(radius), alarm, Mm{0.22}, {Mm{0.7}, Mm{0.45}}));
  }
  Item window;
  window.map = then(Affine::scale(enlarged, enlarged), Affine::move({margin, margin}));
  window.clip = Path::rectangle(rect_between({Mm{-1}, Mm{-1}}, {part.width, part.height}));
  window.what = std::move(seen);
  Figure figure;
  figure.size = {part.width * enlarged + margin, part.height * enlarged + margin};
  figure.scene.items.push_back(std::move(window));
  return figure;
}

Figure folded_card(const Making& making) {
  const sheets::Plan& plan = making.plan;
  const Rect cell = plan.grid.trims.front();
  const double scale = std::min(Mm{78} / cell.size.width, Mm{78} / cell.size.height);
  constexpr Mm margin{4};
  const Affine map = then(then(Affine::move(Point{} - cell.at), Affine::scale(scale, scale)),
                          Affine::move({margin, margin}));
  Figure figure;
  figure.size = {cell.size.width * scale + margin * 2, cell.size.height * scale + margin * 2};
  const int fronts = static_cast<int>(making.fronts.size());
  std::optional<Mm> upright, level;
  for (const sheets::Placed& placed : plan.sheets.front().front.placed) {
    if (!overlap(placed.trim, cell)) continue;
    const auto window = overlap(placed.window, cell);
    if (!window) continue;
    figure.placed.push_back({placed.is_back ? fronts + placed.drawing : placed.drawing,
                             then(placed.map, map), bounds(map, *window)});
    if (placed.trim.size.width < cell.size.width - epsilon) upright = cell.centre().x;
    if (placed.trim.size.height < cell.size.height - epsilon) level = cell.centre().y;
  }
  const Rect seen = bounds(map, cell);
  figure.scene.items.push_back(line(Path::rectangle(seen), quiet, Mm{0.25}));
  Path fold;
  if (upright) {
    const Mm x = seen.centre().x;
    fold.move_to({x, seen.top() - Mm{3}}).line_to({x, seen.bottom() + Mm{3}});
  } else if (level) {
    const Mm y = seen.centre().y;
    fold.move_to({seen.left() - Mm{3}, y}).line_to({seen.right() + Mm{3}, y});
  }
  figure.scene.items.push_back(line(fold, white, Mm{1}));
  figure.scene.items.push_back(line(std::move(fold), accent, Mm{0.5}, {Mm{2}, Mm{1.2}}));
  return figure;
}

}  // namespace quoin::guide
