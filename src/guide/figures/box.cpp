#include <algorithm>

#include "fold/surface.h"
#include "guide/figures/figures.h"
#include "pack/box_files.h"
#include "pack/net_lines.h"
#include "pieces/box/box_view.h"
#include "pieces/box/light.h"

namespace quoin::guide {
namespace {

constexpr Colour board_wash{0.965, 0.955, 0.93, 1}, net_edge{0.45, 0.48, 0.52, 1};

/// What a page places, drawn into the picture itself: these drawings are no symbols of the guide.
Item placed_item(const Placement& placement, const std::vector<Symbol>& symbols) {
  Item drawing;
  drawing.map = placement.map;
  drawing.what = GroupItem{symbols[static_cast<std::size_t>(placement.symbol)].make().items};
  Item window;
  window.clip = Path::rectangle(placement.window);
  GroupItem one;
  one.items.push_back(std::move(drawing));
  window.what = std::move(one);
  return window;
}

Figure scaled(std::vector<Item> items, Rect frame, Size room) {
  const double scale = std::min(room.width / frame.size.width, room.height / frame.size.height);
  Item all;
  all.map = then(Affine::move(Point{} - frame.at), Affine::scale(scale, scale));
  all.what = GroupItem{std::move(items)};
  Figure figure;
  figure.size = {frame.size.width * scale, frame.size.height * scale};
  figure.scene.items.push_back(std::move(all));
  return figure;
}

Rect panels_round(const fold::Net& net) {
  Rect all = bounds(net.panels.front().outline);
  for (const fold::Panel& panel : net.panels) all = covering(all, bounds(panel.outline));
  return all;
}

Path outline_of(const fold::Net& net) { return to_path(fold::cut_outline(net)); }

bool moves_in_step(const fold::Hinge& hinge, std::size_t step) {
  if (hinge.turns.empty()) return false;
  const double last = hinge.turns.back().progress, from = static_cast<double>(step);
  return last > from && last <= from + 1;
}

/// Plain board with a tint over the panels that a step moves, and the glue areas: art would hide
/// what is told (and make a file of 18 MB of one of 3).
pack::BoxArt step_art(const pieces::Box& box, std::size_t step) {
  constexpr Colour tint{0.30, 0.66, 0.73, 1}, tint_inside{0.42, 0.75, 0.80, 1};
  pack::BoxArt art(box.model.parts.size());
  for (std::size_t part = 0; part < art.size(); ++part) {
    const fold::Net& net = box.model.parts[part].net;
    // The inside is seen turned over: (x, y) of the net lies at (-x, y).
    constexpr Affine turned_over{-1, 0, 0, 1, {}, {}};
    // All over, so that each face is one print and no seam of its pieces shows.
    const Path all = Path::rectangle(grown(panels_round(net), Mm{1}));
    art[part].printed.items.push_back(shape(all, pieces::board_outside));
    art[part].inside.items.push_back(shape(mapped(all, turned_over), pieces::board_inside));
    for (const fold::Hinge& hinge : net.hinges) {
      if (!moves_in_step(hinge, step)) continue;
      const Path outline = Path::polygon(net.panels[static_cast<std::size_t>(hinge.child)].outline);
      art[part].printed.items.push_back(shape(outline, tint));
      art[part].inside.items.push_back(shape(mapped(outline, turned_over), tint_inside));
    }
    for (const fold::Glue& glue : net.glue) {
      Item lines = hatched(bounds(glue.area), accent);
      lines.clip = Path::polygon(glue.area);
      art[part].printed.items.push_back(std::move(lines));
    }
  }
  return art;
}

/// Seen from as far round to the other side.
fold::View mirrored(const fold::View& view) {
  return {{view.right.x, -view.right.y, -view.right.z},
          {-view.down.x, view.down.y, view.down.z},
          {-view.away.x, view.away.y, view.away.z}};
}

/// How much is seen in a picture of the panels that a step moves, in mm².
double seen_of_moving(const pieces::Stage& stage, std::size_t step) {
  std::vector<fold::Facet> facets;
  std::vector<bool> moves;
  for (const pieces::StagedNet& net : stage.nets) {
    for (const fold::Surface& face : fold::surfaces(net.net, net.places, fold::Creases::open)) {
      const auto turns = [&](const fold::Hinge& hinge) {
        return hinge.child == face.panel && moves_in_step(hinge, step);
      };
      const int number = static_cast<int>(moves.size());
      moves.push_back(face.side != fold::Side::edge &&
                      std::any_of(net.net.hinges.begin(), net.net.hinges.end(), turns));
      for (const auto& part : face.parts) facets.push_back({number, part, face.normal});
    }
  }
  double area_seen = 0;
  for (const fold::Shown& shown : fold::back_to_front(facets, stage.view)) {
    if (!moves[static_cast<std::size_t>(shown.face)]) continue;
    for (const Polygon& piece : shown.pieces) area_seen += area(piece);
  }
  return area_seen;
}

/// The step from the side from which more of what moves is seen; from the usual one unless the
/// other shows more than twice as much.
pieces::Stage best_stage(const pieces::Box& box, std::size_t step) {
  pieces::Stage usual = pieces::step_stage(box, static_cast<int>(step));
  pieces::Stage other = usual;
  other.view = mirrored(usual.view);
  return seen_of_moving(other, step) > 2 * seen_of_moving(usual, step) ? other : usual;
}

Item outlined(Path path, const Paint& fill, Colour colour, Mm width) {
  Item item = shape(std::move(path), fill);
  auto& drawn = std::get<ShapeItem>(item.what);
  drawn.stroke.paint = colour;
  drawn.stroke.width = width;
  return item;
}

}  // namespace

Figure box_sheet(const Making& making) {
  const Document home =
      pack::home_box(making.game, *making.box.box, *making.box.art, *making.box.sheets);
  if (home.pages.empty()) return {};
  const Page& page = home.pages.front();
  const std::vector<Symbol> symbols = pack::box_symbols(*making.box.box, *making.box.art);
  const Rect sheet{{}, page.media};
  std::vector<Item> items;
  for (const Placement& placement : page.placements) {
    items.push_back(placed_item(placement, symbols));
  }
  for (const Item& item : page.own.items) items.push_back(item);
  const double scale = std::max(page.media.width / Mm{80}, page.media.height / Mm{62});
  items.push_back(line(Path::rectangle(sheet), net_edge, Mm{0.2} * scale));
  return scaled(std::move(items), sheet, {Mm{80}, Mm{62}});
}

Figure box_net(const BoxMade& made, std::size_t index, NetShows shows) {
  const fold::Net& net = made.box->model.parts[index].net;
  const Size room{Mm{80}, Mm{62}};
  const Rect frame = grown(panels_round(net), Mm{4});
  const double thick = std::max(frame.size.width / room.width, frame.size.height / room.height);
  const bool cuts = shows == NetShows::cuts;
  std::vector<Item> items;
  items.push_back(outlined(outline_of(net), board_wash, cuts ? alarm : net_edge,
                           Mm{cuts ? 0.55 : 0.25} * thick));
  const bool creases = shows == NetShows::creases;
  for (const fold::Hinge& hinge : net.hinges) {
    Path path;
    path.move_to(hinge.from).line_to(hinge.to);
    items.push_back(creases ? line(std::move(path), accent, Mm{0.7} * thick)
                            : line(std::move(path), net_edge, Mm{0.2} * thick,
                                   {Mm{1.2} * thick, Mm{0.9} * thick}));
  }
  for (const fold::Slit& slit : net.slits) {
    Path path;
    path.move_to(slit.from).line_to(slit.to);
    items.push_back(line(std::move(path), cuts ? alarm : net_edge, Mm{cuts ? 0.7 : 0.25} * thick));
  }
  if (shows == NetShows::glue) {
    for (const fold::Glue& glue : net.glue) {
      items.push_back(outlined(Path::polygon(glue.area), accent_wash, accent, Mm{0.4} * thick));
      Item lines = hatched(bounds(glue.area), accent);
      lines.clip = Path::polygon(glue.area);
      items.push_back(std::move(lines));
    }
  }
  return scaled(std::move(items), frame, room);
}

Figure fold_step(const Making& making, std::size_t step) {
  const BoxMade& made = making.box;
  const pack::BoxArt art = step_art(*made.box, step);
  const pieces::BoxLook look{*made.box, art, made.top_card, making.game.card.corner};
  pieces::BoxPicture picture = pieces::drawn(best_stage(*made.box, step), look);
  return scaled(std::move(picture.scene.items), picture.bounds, {Mm{80}, Mm{58}});
}

Figure finished_box(const Making& making) {
  const BoxMade& made = making.box;
  const pieces::BoxLook look{*made.box, *made.art, made.top_card, making.game.card.corner};
  pieces::BoxPicture picture = pieces::drawn(pieces::open_stage(*made.box), look);
  return scaled(std::move(picture.scene.items), picture.bounds, {Mm{80}, Mm{58}});
}

Figure crease_section(Crease crease) {
  constexpr Mm wide{48}, thick{7}, top{15};
  Figure figure;
  figure.size = {wide, Mm{30}};
  std::vector<Item>& items = figure.scene.items;
  const Mm middle = wide / 2;
  const auto board = [&](Path path) {
    items.push_back(outlined(std::move(path), board_wash, net_edge, Mm{0.3}));
  };
  const auto at = [&](double x, double y) { return Point{middle + Mm{x}, top + Mm{y}}; };
  const double half = (wide / 2).value, deep = thick.value;
  if (crease == Crease::pressed) {
    Path path;
    path.move_to(at(-half, 0)).line_to(at(-4, 0)).curve_to(at(-2.5, 0), at(-2, 2.4), at(0, 2.4));
    path.curve_to(at(2, 2.4), at(2.5, 0), at(4, 0)).line_to(at(half, 0)).line_to(at(half, deep));
    path.line_to(at(4, deep)).curve_to(at(2.5, deep), at(2, deep + 1.8), at(0, deep + 1.8));
    path.curve_to(at(-2, deep + 1.8), at(-2.5, deep), at(-4, deep)).line_to(at(-half, deep));
    board(std::move(path.close()));
    Path tool;
    tool.move_to(at(-3.2, -14))
        .line_to(at(-1.9, 0.3))
        .curve_to(at(-1.5, 2.9), at(1.5, 2.9), at(1.9, 0.3));
    tool.line_to(at(3.2, -14)).close();
    items.push_back(shape(std::move(tool), accent));
  } else if (crease == Crease::half_cut) {
    Path path;
    path.move_to(at(-half, 0)).line_to(at(-0.5, 0)).line_to(at(0, deep / 2)).line_to(at(0.5, 0));
    path.line_to(at(half, 0)).line_to(at(half, deep)).line_to(at(-half, deep)).close();
    board(std::move(path));
    Path blade;
    blade.move_to(at(-5, -14))
        .line_to(at(5, -14))
        .line_to(at(0.6, -0.4))
        .line_to(at(0, deep / 2 - 0.3));
    blade.line_to(at(-0.6, -0.4)).close();
    items.push_back(shape(std::move(blade), alarm));
  } else {
    // Folded away from the groove: it lies outside, the bead inside.
    Path path;
    path.move_to(at(-half, 3))
        .line_to(at(-4, 3))
        .curve_to(at(-2.4, 3), at(-0.6, 1.8), at(0.2, 2.4));
    path.curve_to(at(1.4, 3), at(3, 5), at(3, 7)).line_to(at(3, 14)).line_to(at(-4, 14));
    path.line_to(at(-4, 3 + deep + 2))
        .curve_to(at(-4, 3 + deep), at(-6, 3 + deep), at(-7, 3 + deep));
    path.line_to(at(-half, 3 + deep)).close();
    board(std::move(path));
    Path way;
    way.move_to(at(16, 1)).curve_to(at(17, 6), at(15, 10), at(9.5, 12));
    for (Item& item : arrow(std::move(way), at(7.5, 12.5), {Mm{-0.95}, Mm{0.3}}, accent)) {
      items.push_back(std::move(item));
    }
  }
  return figure;
}

}  // namespace quoin::guide
