#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "pieces/box/check_art.h"
#include "pieces/card/check_parts.h"

namespace quoin::pieces {
namespace {

/// One side of one net, as the checks of a card's face take it.
struct NetFace {
  int part = 0;
  PrintSide side = PrintSide::outside;
  Rect frame;   ///< round the net's cut outline, in the frame of that side
  Scene scene;  ///< moved so that the frame's corner is the origin
};

std::vector<Region> outline_of_side(const Box& box, int part, PrintSide side) {
  std::vector<Polygon> outlines;
  for (const fold::Panel& panel : printed_net(box.model, part, side).panels) {
    outlines.push_back(panel.outline);
  }
  return united(outlines);
}

NetFace net_face(const ArtInspection& inspection, int part, PrintSide side) {
  const NetArt& art = inspection.art[static_cast<std::size_t>(part)];
  NetFace face{part, side, {}, {}};
  const std::vector<Region> outline = outline_of_side(inspection.box, part, side);
  face.frame = bounds(outline.front().outer);
  for (const Region& region : outline) face.frame = covering(face.frame, bounds(region.outer));
  Item moved;
  moved.map = Affine::move(Point{} - face.frame.at);
  moved.what = GroupItem{(side == PrintSide::inside ? art.inside : art.printed).items};
  face.scene.items.push_back(std::move(moved));
  return face;
}

/// A side of a panel that is cut, ready to be walked along.
struct CutSide {
  int panel = 0;
  Point from, to;
  Vec outward;  ///< of length 1 mm
};

/// The sides of the net's outline, each with the panel that it bounds.
std::vector<CutSide> cut_sides(const PrintedNet& net, const std::vector<Region>& outline) {
  std::vector<CutSide> sides;
  for (const Region& region : outline) {
    const Polygon& ring = region.outer;
    const double way = signed_area(ring) > 0 ? 1 : -1;
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Vec along = ring[(i + 1) % ring.size()] - ring[i];
      const double size = length(along).value;
      if (size < 2) continue;  // arcs of notches and corners, and slivers
      const Vec outward{along.y * (way / size), along.x * (-way / size)};
      const Point inside = ring[i] + along * 0.5 - outward * 0.2;
      const Quad spot{inside, inside + Vec{Mm{0.01}, Mm{}}, inside + Vec{Mm{0.01}, Mm{0.01}},
                      inside + Vec{Mm{}, Mm{0.01}}};
      for (std::size_t p = 0; p < net.panels.size(); ++p) {
        if (common(Polygon(spot.begin(), spot.end()), net.panels[p].outline).empty()) continue;
        sides.push_back({static_cast<int>(p), ring[i], ring[(i + 1) % ring.size()], outward});
        break;
      }
    }
  }
  return sides;
}

/// How much of a side has ink just inside the cut, and bare board in the bleed next to it.
struct BareEdge {
  Mm inked, bare;
};

BareEdge look_along_cut(const CutSide& side, const Pixels& pixels, Point corner, Mm bleed,
                        const std::vector<Region>& outline) {
  constexpr Mm step{0.5};
  BareEdge found;
  const Mm whole = length(side.to - side.from);
  const Vec ahead = (side.to - side.from) * (1 / whole.value);
  const double out = bleed.value - 0.4;
  for (Mm t = step * 2; t < whole - step * 2; t += step) {
    const Point place = side.from + ahead * t.value;
    const Point outside = place + side.outward * out;
    const Rect spot{outside, {Mm{0.01}, Mm{0.01}}};
    const Polygon there{spot.at,
                        {spot.right(), spot.top()},
                        {spot.right(), spot.bottom()},
                        {spot.left(), spot.bottom()}};
    // Across a narrow gap lies another panel, which has art of its own.
    const bool is_gap = std::any_of(outline.begin(), outline.end(), [&](const Region& region) {
      return !common(there, region.outer).empty();
    });
    if (is_gap) continue;
    const auto at = [&](Point p) { return pixels.at(Point{} + (p - corner)); };
    if (!is_ink(at(place - side.outward * 0.5))) continue;
    found.inked += step;
    if (is_paper(at(outside))) found.bare += step;
  }
  return found;
}

/// The uppermost element that is printed on the panel and is no text.
const DrawnArt* art_on(const ArtInspection& inspection, const NetFace& face, int panel) {
  const DrawnArt* topmost = nullptr;
  for (const DrawnArt& drawn : inspection.drawn) {
    if (drawn.place.part != face.part || drawn.place.side != face.side) continue;
    if (drawn.element->kind == "text") continue;
    const std::vector<int>& panels = drawn.place.run.panels;
    if (std::find(panels.begin(), panels.end(), panel) != panels.end()) topmost = &drawn;
  }
  return topmost;
}

void report_bare_edge(const ArtInspection& inspection, const DrawnArt& art,
                      const std::string& panel, Mm bare, Mm bleed) {
  Diagnostic problem(
      Id::box_short_of_bleed, art.item.origin,
      fmt::format("{} of the edge of {} have ink up to the cut and none in the {} of bleed",
                  in_mm(bare), panel, in_mm(bleed)));
  problem.on(art.place.words, art.element->id)
      .detail("where the cut wanders outwards, a white edge shows");
  inspection.found.push_back(
      problem.hint("leave out at, size and inset, or write inset = \"bleed\""));
}

void check_cut_edges(const ArtInspection& inspection, const NetFace& face, const FaceLook& look) {
  if (look.bleed < Mm{1}) return;
  const PrintedNet net = printed_net(inspection.box.model, face.part, face.side);
  const std::vector<Region> outline = outline_of_side(inspection.box, face.part, face.side);
  const Pixels pixels(look.picture, look.bleed);
  std::map<int, Mm> bare;
  for (const CutSide& side : cut_sides(net, outline)) {
    const BareEdge edge = look_along_cut(side, pixels, face.frame.at, look.bleed, outline);
    if (edge.inked >= Mm{2} && edge.bare * 10 >= edge.inked * 9) bare[side.panel] += edge.bare;
  }
  for (const auto& [panel, along] : bare) {
    const DrawnArt* art = art_on(inspection, face, panel);
    if (art == nullptr) continue;
    const std::string& name = net.panels[static_cast<std::size_t>(panel)].name;
    report_bare_edge(inspection, *art, name, along, look.bleed);
  }
}

void collect_ids(const game::Element& element, const std::string& words,
                 std::map<std::string, std::string>& places) {
  places.emplace(element.id, words);
  for (const game::Element& child : element.children) collect_ids(child, words, places);
}

void check_as_face(const ArtInspection& inspection, const NetFace& net, PictureShelf& shelf) {
  const game::Game& game = inspection.game;
  game::CardFormat format;
  format.size = net.frame.size;
  format.bleed = inspection.art[static_cast<std::size_t>(net.part)].bleed;
  const Face face{"box", net.scene, format, game::box_layout(game)->origin};
  const FaceLook look = look_at(face, shelf);
  Diagnostics found = look.found;
  const std::vector<Leaf> leaves = leaves_of(net.scene);
  const Inspection inside{face, game.limits, look, leaves, found};
  check_resolution(inside);
  check_setting(inside);
  check_type_size(inside);
  check_lines(inside);
  check_contrast(inside);
  std::map<std::string, std::string> places;
  for (const DrawnArt& drawn : inspection.drawn) {
    collect_ids(*drawn.element, drawn.place.words, places);
  }
  for (Diagnostic& one : found) {
    const auto place = places.find(one.place.element);
    if (place != places.end()) one.place.piece = place->second;
    // A run that the seam cuts is drawn twice and would be told of twice.
    Diagnostics& all = inspection.found;
    if (std::find(all.begin(), all.end(), one) == all.end()) all.push_back(std::move(one));
  }
  check_cut_edges(inspection, net, look);
}

}  // namespace

void check_print(const ArtInspection& inspection, PictureShelf& shelf) {
  for (std::size_t part = 0; part < inspection.art.size(); ++part) {
    const NetArt& art = inspection.art[part];
    for (const PrintSide side : {PrintSide::outside, PrintSide::inside}) {
      if ((side == PrintSide::inside ? art.inside : art.printed).items.empty()) continue;
      check_as_face(inspection, net_face(inspection, static_cast<int>(part), side), shelf);
    }
  }
}

}  // namespace quoin::pieces
