#include "pieces/box/box_view.h"

#include <algorithm>
#include <cmath>

#include "fold/convex.h"
#include "fold/surface.h"
#include "pieces/box/deck_block.h"
#include "pieces/box/light.h"

namespace quoin::pieces {
namespace {

using fold::Side;
using fold::Surface;

/// A drawing that lies on faces, with the ink of each of its items, so that a face takes only what
/// lies on it.
struct Print {
  const Scene* scene = nullptr;
  std::vector<std::optional<Rect>> inks;
  /// From the drawing's frame to that of the face.
  Affine to_face;
};

Print print_of(const Scene& scene, const Affine& to_face) {
  Print print{&scene, {}, to_face};
  for (const Item& item : scene.items) print.inks.push_back(ink(item));
  return print;
}

/// A face to be painted.
struct Pane {
  Surface surface;
  Colour plain;
  const Print* print = nullptr;
  std::vector<std::vector<fold::Vec3>> lines;  ///< fine lines drawn on it
};

/// The map of a surface in the picture.
Affine seen_map(const fold::View& view, const fold::NetMap& map) {
  const Point at = fold::seen(view, map.origin);
  const Point x = fold::seen(view, map.x), y = fold::seen(view, map.y);
  return {x.x.value, x.y.value, y.x.value, y.y.value, at.x, at.y};
}

/// The items of a print that reach into a part of the picture.
std::vector<Item> print_on(const Print& print, const Affine& map, Rect part) {
  std::vector<Item> items;
  const Affine all = then(print.to_face, map);
  const std::optional<Affine> back = inverse(all);
  if (!back) return items;
  const Rect wanted = bounds(*back, part);
  for (std::size_t i = 0; i < print.inks.size(); ++i) {
    if (!print.inks[i] || !overlap(*print.inks[i], wanted)) continue;
    items.push_back(print.scene->items[i]);
  }
  if (items.empty()) return items;
  Item group;
  group.map = all;
  group.what = GroupItem{std::move(items)};
  std::vector<Item> one;
  one.push_back(std::move(group));
  return one;
}

/// Everything of one picture while it is painted.
struct Painting {
  const Stage& stage;
  std::vector<Pane> panes;
  std::vector<fold::Shown> shown;
  Mm under;  ///< how far neighbours reach under each other

  [[nodiscard]] Path path(const fold::Shown& one, Mm by) const {
    Path path;
    for (const Polygon& piece : one.pieces) path.append(Path::polygon(fold::grown(piece, by)));
    return path;
  }
};

Rect round(const std::vector<Polygon>& pieces) {
  Rect all = bounds(pieces.front());
  for (const Polygon& piece : pieces) all = covering(all, bounds(piece));
  return all;
}

Item fine_lines(const Painting& painting, const Pane& pane) {
  ShapeItem shape;
  for (const std::vector<fold::Vec3>& line : pane.lines) {
    shape.path.move_to(fold::seen(painting.stage.view, line.front()));
    for (const fold::Vec3 p : line) shape.path.line_to(fold::seen(painting.stage.view, p));
  }
  shape.stroke.paint = thinned(shade_ink, 0.13);
  shape.stroke.width = Mm{0.08};
  Item item;
  item.what = std::move(shape);
  return item;
}

/// The light on a face, over all of it however little is seen.
Shading light_on(const Painting& painting, const Pane& pane) {
  std::vector<Polygon> whole;
  for (const auto& part : pane.surface.parts) whole.push_back(seen(painting.stage.view, part));
  return shading(pane.surface.normal, round(whole));
}

/// One bundle of pieces: the board as the light shows it, and over it what is printed, with the
/// light once more. The board reaches less far than the print: at a rim that it shares with the
/// print, its own colour would shine through as a fine line.
void paint(const Painting& painting, const fold::Shown& one, std::vector<Item>& items) {
  const Pane& pane = painting.panes[static_cast<std::size_t>(one.face)];
  const Shading light = light_on(painting, pane);
  GroupItem over;
  if (pane.print != nullptr) {
    const Affine map = seen_map(painting.stage.view, pane.surface.map);
    over.items = print_on(*pane.print, map, grown(round(one.pieces), painting.under));
  }
  const bool is_plain = over.items.empty();
  if (!pane.lines.empty()) over.items.push_back(fine_lines(painting, pane));
  const Mm board = is_plain ? painting.under : Mm{};
  items.push_back(filled(painting.path(one, board), lit(pane.plain, light)));
  if (over.items.empty()) return;
  Item item;
  item.clip = painting.path(one, painting.under);
  if (!is_plain) over.items.push_back(filled(*item.clip, light));
  item.what = std::move(over);
  items.push_back(std::move(item));
}

/// The prints of all nets: printed side and inside of each, or nothing where there is no art.
struct Prints {
  std::vector<std::optional<Print>> printed, inside;
  std::optional<Print> card;

  [[nodiscard]] const Print* of(int part, Side side) const {
    const auto& all = side == Side::printed ? printed : inside;
    const auto at = static_cast<std::size_t>(part);
    if (side == Side::edge || at >= all.size() || !all[at]) return nullptr;
    return &*all[at];
  }
};

Prints prints_of(const StageLook& look) {
  constexpr Affine turned_over{-1, 0, 0, 1, {}, {}};
  Prints prints;
  const auto of = [](const Scene& scene, const Affine& map) -> std::optional<Print> {
    if (scene.items.empty()) return std::nullopt;
    return print_of(scene, map);
  };
  for (const NetArt& art : look.art) {
    prints.printed.push_back(of(art.printed, {}));
    prints.inside.push_back(of(art.inside, turned_over));
  }
  if (look.top_card != nullptr) prints.card = of(*look.top_card, {});
  return prints;
}

Colour plain_colour(Side side) {
  if (side == Side::edge) return board_edge;
  return side == Side::printed ? board_outside : board_inside;
}

std::vector<Pane> panes_of(const Stage& stage, const StageLook& look, const Prints& prints) {
  std::vector<Pane> panes;
  for (const StagedNet& net : stage.nets) {
    for (Surface& each : fold::surfaces(net.net, net.places, fold::Creases::rounded)) {
      const Side side = each.side;
      panes.push_back({std::move(each), plain_colour(side), prints.of(net.part, side), {}});
    }
  }
  if (!stage.deck) return panes;
  for (BlockFace& face : deck_block(*stage.deck, look.card_corner, look.card)) {
    const bool is_top = face.surface.side == Side::printed;
    panes.push_back({std::move(face.surface), is_top ? white : card_edge,
                     is_top && prints.card ? &*prints.card : nullptr, std::move(face.lines)});
  }
  return panes;
}

std::vector<fold::Facet> facets_of(const std::vector<Pane>& panes) {
  std::vector<fold::Facet> facets;
  for (std::size_t i = 0; i < panes.size(); ++i) {
    for (const std::vector<fold::Vec3>& part : panes[i].surface.parts) {
      facets.push_back({static_cast<int>(i), part, panes[i].surface.normal});
    }
  }
  return facets;
}

Rect round(const std::vector<fold::Shown>& shown) {
  std::optional<Rect> all;
  for (const fold::Shown& one : shown) {
    all = all ? covering(*all, round(one.pieces)) : round(one.pieces);
  }
  return all.value_or(Rect{});
}

/// A line of even width round everything, laid down first.
Item contour(const Painting& painting, Mm width) {
  Path path;
  for (const fold::Shown& one : painting.shown) path.append(painting.path(one, width));
  return filled(std::move(path), thinned(shade_ink, 0.42));
}

}  // namespace

BoxPicture drawn(const Stage& stage, const StageLook& look) {
  const Prints prints = prints_of(look);
  Painting painting{stage, panes_of(stage, look, prints), {}, {}};
  painting.shown = fold::back_to_front(facets_of(painting.panes), stage.view);
  const Rect body = round(painting.shown);
  painting.under = body.size.width * 0.0007;
  BoxPicture picture;
  picture.scene.items = ground_shadow(stage);
  if (look.ground == StageLook::Ground::faint_shadow) {
    for (Item& item : picture.scene.items) item.opacity *= 0.35;
  }
  Rect all = body;
  for (const Item& item : picture.scene.items) all = covering(all, ink(item).value_or(body));
  picture.bounds = grown(all, body.size.width * 0.03);
  picture.scene.items.push_back(contour(painting, painting.under + body.size.width * 0.0009));
  for (const fold::Shown& one : painting.shown) {
    paint(painting, one, picture.scene.items);
  }
  return picture;
}

BoxPicture drawn(const Stage& stage, const BoxLook& look) {
  return drawn(stage, StageLook{look.art, look.top_card, look.card_corner,
                                look.box.deck.card.typical, StageLook::Ground::shadow});
}

}  // namespace quoin::pieces
