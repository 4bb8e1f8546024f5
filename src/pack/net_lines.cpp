#include "pack/net_lines.h"

#include <algorithm>
#include <cmath>

#include "media/text.h"

namespace quoin::pack {
namespace {

constexpr Mm tick_length{3}, shortest_tick{1.5};

/// Where a tick is looked for, one after the other: well clear of what is seen and near the crease,
/// less clear of it, far away.
struct TickSearch {
  Mm clearance, within;
};
constexpr TickSearch tick_searches[] = {{Mm{0.5}, Mm{12}}, {Mm{0.2}, Mm{12}}, {Mm{0.5}, Mm{150}}};

bool is_inside(const std::vector<Region>& regions, Point p) {
  bool inside = false;
  const auto cross = [&](const Polygon& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point a = ring[i], b = ring[(i + 1) % ring.size()];
      if ((a.y <= p.y) == (b.y <= p.y)) continue;
      const Mm x = a.x + (b.x - a.x) * ((p.y - a.y) / (b.y - a.y));
      if (x > p.x) inside = !inside;
    }
  };
  for (const Region& region : regions) {
    cross(region.outer);
    for (const Polygon& hole : region.holes) cross(hole);
  }
  return inside;
}

/// How far along from `from` (a way of length 1) the sides of the ring are crossed.
void add_meetings(const Polygon& ring, Point from, Vec way, std::vector<Mm>& at) {
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec a = ring[i] - from, b = ring[(i + 1) % ring.size()] - from;
    const auto off = [&](Vec v) { return v.y.value * way.x.value - v.x.value * way.y.value; };
    const auto along = [&](Vec v) { return v.x.value * way.x.value + v.y.value * way.y.value; };
    if ((off(a) <= 0) == (off(b) <= 0)) continue;
    at.push_back(Mm{along(a) + (along(b) - along(a)) * off(a) / (off(a) - off(b))});
  }
}

/// The first stretch of the way from `end` that keeps clear of the regions, as a tick.
std::optional<sheets::MarkLine> tick_from(Point end, Vec way, const std::vector<Region>& kept,
                                          const TickSearch& search) {
  std::vector<Mm> at{Mm{0}, search.within};
  for (const Region& region : kept) {
    add_meetings(region.outer, end, way, at);
    for (const Polygon& hole : region.holes) add_meetings(hole, end, way, at);
  }
  std::erase_if(at, [&](Mm length) { return length < Mm{0} || length > search.within; });
  std::sort(at.begin(), at.end());
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    const Mm from = std::max(at[i], search.clearance);
    if (at[i + 1] - from < shortest_tick) continue;
    if (is_inside(kept, end + way * ((from + at[i + 1]) / 2).value)) continue;
    const Mm to = std::min(from + tick_length, at[i + 1]);
    return sheets::MarkLine{end + way * from.value, end + way * to.value};
  }
  return std::nullopt;
}

Path hatch(Rect box) {
  constexpr Mm apart{2};
  Path path;
  for (Mm x = box.left() - box.size.height; x < box.right(); x = x + apart) {
    path.move_to({x, box.bottom()}).line_to({x + box.size.height, box.top()});
  }
  return path;
}

/// Where a word stands on a glue area: about its middle, along its longer side, on a white patch.
struct WordPlace {
  Rect patch;
  Mm length, type_size;
  Angle turn;
};

WordPlace word_place(const Polygon& glued, const std::string& word) {
  const Rect box = bounds(glued);
  const bool upright = box.size.height > box.size.width;
  const Mm deep = std::min(box.size.width, box.size.height);
  WordPlace place;
  place.type_size = std::clamp(deep * 0.4, Mm{1.5}, Mm{2.6});
  // A letter of the house face takes 0.46 of the type size on the average, a wide word 0.6.
  place.length = place.type_size * (0.62 * static_cast<double>(word.size()) + 0.8);
  place.turn = upright ? Angle::degrees(-90) : Angle{};
  const Mm high = place.type_size * 1.25;
  const Size size = upright ? Size{high, place.length} : Size{place.length, high};
  place.patch = {centroid(glued) - Vec{size.width / 2, size.height / 2}, size};
  return place;
}

bool lies_on(Rect patch, const Polygon& outline) {
  const Polygon corners{patch.at,
                        {patch.right(), patch.top()},
                        {patch.right(), patch.bottom()},
                        {patch.left(), patch.bottom()}};
  return area(common(corners, outline)) > area(corners) - 1e-6;
}

/// The slit beside its own line, on the panel that it is of.
Path beside(const fold::Net& net, const fold::Slit& slit, Mm by) {
  const Vec along = slit.to - slit.from;
  const Mm size = length(along);
  Vec square = Vec{-along.y, along.x} * (by / size);
  const Vec in = centroid(net.panels.at(static_cast<std::size_t>(slit.panel)).outline) - slit.from;
  if (in.x.value * square.x.value + in.y.value * square.y.value < 0) square = square * -1.0;
  return between(slit.from + square, slit.to + square);
}

}  // namespace

Item line_item(Path path, LineLook look) {
  ShapeItem shape;
  shape.path = std::move(path);
  shape.stroke.paint = look.ink;
  shape.stroke.width = look.width;
  shape.stroke.dash = std::move(look.dash);
  shape.stroke.join = LineJoin::mitre;
  Item item;
  item.layer = look.layer;
  item.what = std::move(shape);
  return item;
}

Path between(Point from, Point to) {
  Path path;
  path.move_to(from).line_to(to);
  return path;
}

Item words_item(const std::string& text, Point middle, Size room, const WordsLook& look) {
  TextItem words;
  words.block.style.family = house_family;
  words.block.style.type_size = look.type_size;
  words.block.style.smallest_size = std::min(look.type_size, Mm{1.5});
  words.block.style.fill = look.ink;
  words.block.style.align = look.align;
  words.block.style.vertical = VerticalAlign::middle;
  words.block.runs = {TextRun{text, false, false, nullptr}};
  // Deeper than the letters, so that they are not shrunk for the empty parts of their lines.
  words.block.box = {room.width, std::max(room.height, look.type_size * 1.6)};
  words.at = {-words.block.box.width / 2, -words.block.box.height / 2};
  Item item;
  item.layer = look.layer;
  item.map = then(Affine::turn(look.turn), Affine::move(middle - Point{}));
  item.what = std::move(words);
  return item;
}

std::vector<Item> cut_edges(const fold::Net& net) {
  const std::vector<Region> outline = fold::cut_outline(net);
  std::vector<Item> lines;
  const auto add = [&](Colour ink, Mm out) {
    Path path = to_path(grown(outline, out));
    for (const fold::Slit& slit : net.slits) path.append(beside(net, slit, out));
    lines.push_back(line_item(std::move(path), {Layer::cut, ink, edge_width, {}}));
  };
  add({1, 1, 1, 1}, edge_width * 1.5);
  add({0, 0, 0, 1}, edge_width / 2);
  return lines;
}

std::vector<sheets::MarkLine> crease_ticks(const fold::Net& net) {
  std::vector<Polygon> seen;
  for (const fold::Panel& panel : net.panels) {
    if (panel.seen == fold::Seen::outside) seen.push_back(panel.outline);
  }
  std::vector<std::vector<Region>> kept;
  for (const TickSearch& search : tick_searches)
    kept.push_back(grown(united(seen), search.clearance));
  std::vector<sheets::MarkLine> ticks;
  const auto add = [&](Point end, Vec way) {
    for (std::size_t i = 0; i < kept.size(); ++i) {
      if (const auto tick = tick_from(end, way, kept[i], tick_searches[i])) {
        ticks.push_back(*tick);
        return;
      }
    }
  };
  for (const fold::Hinge& hinge : net.hinges) {
    const Vec way = (hinge.to - hinge.from) * (1 / length(hinge.to - hinge.from).value);
    add(hinge.from, way * -1.0);
    add(hinge.to, way);
  }
  return ticks;
}

std::vector<Item> glue_mark(const Polygon& glued, const std::vector<std::string>& words) {
  Item lines = line_item(hatch(bounds(glued)), {Layer::glue, {0.72, 0.72, 0.72, 1}, Mm{0.12}, {}});
  lines.clip = Path::polygon(glued);
  std::vector<Item> items{std::move(lines)};
  for (const std::string& word : words) {
    const WordPlace place = word_place(glued, word);
    if (!lies_on(place.patch, glued)) continue;
    ShapeItem ground;
    ground.path = Path::rectangle(place.patch);
    ground.fill = Colour{1, 1, 1, 1};
    Item under;
    under.layer = Layer::glue;
    under.what = std::move(ground);
    items.push_back(std::move(under));
    const WordsLook look{Layer::glue, place.type_size, grey_ink, place.turn, TextAlign::centre};
    items.push_back(words_item(word, place.patch.centre(), {place.length, place.type_size}, look));
    break;
  }
  return items;
}

}  // namespace quoin::pack
