#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "pieces/card/check_parts.h"

namespace quoin::pieces {
namespace {

/// Ink may end this far inside the trim and still be meant to reach it: rounding in the maker's
/// drawing, not a border.
constexpr Mm meant_to_reach{0.3};
/// A finding needs an edge that is seen along this much of the side.
constexpr Mm seen_along{1};
/// A step of the raster, of 255, that the eye sees as an edge.
constexpr int visible_step = 16;

/// One side of the card: where its trim edge lies and which way is out.
struct Side {
  const char* name;
  Point start, end;  ///< corners of the trim
  Vec outward;       ///< of length 1 mm
};

std::array<Side, 4> sides_of(Size trim) {
  const Point right_top{trim.width, Mm{0}}, right_bottom{trim.width, trim.height};
  const Point left_bottom{Mm{0}, trim.height};
  return {Side{"top", {}, right_top, {Mm{0}, Mm{-1}}},
          Side{"right", right_top, right_bottom, {Mm{1}, Mm{0}}},
          Side{"bottom", left_bottom, right_bottom, {Mm{0}, Mm{1}}},
          Side{"left", {}, left_bottom, {Mm{-1}, Mm{0}}}};
}

/// How far past the trim the ink reaches on that side; negative when it ends inside.
Mm reach(const Side& side, Rect ink, Size trim) {
  if (side.outward.y < Mm{0}) return -ink.top();
  if (side.outward.y > Mm{0}) return ink.bottom() - trim.height;
  return side.outward.x < Mm{0} ? -ink.left() : ink.right() - trim.width;
}

/// The stretch of the side that the ink lies along, without what the card's corners take away.
struct Stretch {
  Mm from, to;
};
Stretch along(const Side& side, Rect ink, Size trim, Mm corner) {
  const bool is_level = side.outward.x == Mm{0};
  const Mm full = is_level ? trim.width : trim.height;
  const Mm from = is_level ? ink.left() : ink.top(), to = is_level ? ink.right() : ink.bottom();
  const Mm spared = corner + Mm{0.5};
  return {std::max(from, spared), std::min(to, full - spared)};
}

Point place_on(const Side& side, Mm along_side, Mm outwards) {
  const Mm full = length(side.end - side.start);
  return side.start + (side.end - side.start) * (along_side / full) + side.outward * outwards.value;
}

constexpr Mm pixel_step{1 / look_pixels_per_mm};

/// True when the finished face changes at the place where the ink ends: nothing that lies over it
/// or looks like it carries on.
bool edge_is_seen(const Side& side, Stretch stretch, Mm ink_reach, const Pixels& pixels) {
  Mm seen{0};
  for (Mm t = stretch.from; t < stretch.to; t += pixel_step) {
    const std::uint32_t inside = pixels.at(place_on(side, t, ink_reach - Mm{0.5}));
    const std::uint32_t outside = pixels.at(place_on(side, t, ink_reach + Mm{0.5}));
    if (largest_step(inside, outside) >= visible_step) seen += pixel_step;
  }
  return seen >= seen_along;
}

/// Lines at the edge are the safe area's business.
bool is_line_only(const Leaf& leaf) {
  const ShapeItem* shape = leaf.shape();
  return shape != nullptr && std::holds_alternative<NoPaint>(shape->fill);
}

struct ShortSides {
  std::vector<std::string> names;
  Mm least_reach;
};

/// The sides on which a leaf is meant to reach the edge, falls short of the bleed, and shows it.
ShortSides short_sides(const Inspection& inspection, Rect ink, const Pixels& pixels,
                       std::array<bool, 4>& explained) {
  const Size trim = inspection.look.trim;
  const Mm bleed = inspection.look.bleed;
  ShortSides found{{}, bleed};
  const std::array<Side, 4> sides = sides_of(trim);
  for (std::size_t i = 0; i < sides.size(); ++i) {
    const Mm reached = reach(sides[i], ink, trim);
    if (reached < -meant_to_reach || reached > bleed - std::min(meant_to_reach, bleed / 2)) {
      continue;
    }
    const Stretch stretch = along(sides[i], ink, trim, inspection.face.format.corner);
    if (!edge_is_seen(sides[i], stretch, reached, pixels)) continue;
    found.names.emplace_back(sides[i].name);
    found.least_reach = std::min(found.least_reach, reached);
    explained[i] = true;
  }
  return found;
}

std::string remedy(const ShortSides& short_of) {
  if (short_of.names.size() == 4) return "let it run out on all sides: inset = \"bleed\"";
  return fmt::format("draw it on past the {} to the edge of the bleed", listed(short_of.names));
}

void report_short(const Inspection& inspection, const Leaf& leaf, const ShortSides& short_of) {
  const Mm reached = short_of.least_reach;
  const std::string where = reached < Mm{-0.05}
                                ? fmt::format("ends {} inside the trim", in_mm(-reached))
                                : fmt::format("ends {} past the trim", in_mm(reached));
  inspection
      .report(Id::art_short_of_bleed, leaf,
              fmt::format("{} {} at the {}; the bleed asks for {}",
                          leaf.picture() != nullptr ? "the picture" : "the panel", where,
                          listed(short_of.names), in_mm(inspection.look.bleed)))
      .detail("a cut that wanders outwards leaves a pale sliver along that edge")
      .hint(remedy(short_of));
}

struct Share {
  int inked = 0, bare = 0, places = 0;
};

/// Looks along one whole side: how often ink stands just inside the trim, and how often then
/// paper is bare at the outer edge of the bleed.
Share bare_share(const Inspection& inspection, const Side& side, const Pixels& pixels) {
  const Rect trim{{}, inspection.look.trim};
  const Stretch stretch = along(side, trim, trim.size, inspection.face.format.corner);
  const Mm outermost = inspection.look.bleed - pixel_step * 1.5;
  Share share;
  for (Mm t = stretch.from; t < stretch.to; t += pixel_step) {
    ++share.places;
    if (!is_ink(pixels.at(place_on(side, t, Mm{-0.5})))) continue;
    ++share.inked;
    if (is_paper(pixels.at(place_on(side, t, outermost)))) ++share.bare;
  }
  return share;
}

/// The topmost leaf with ink all along just inside the trim's side.
const Leaf* leaf_at(const Inspection& inspection, const Side& side) {
  const Mm middle = length(side.end - side.start) / 2;
  const Point place = place_on(side, middle, Mm{-0.5});
  const Leaf* topmost = nullptr;
  for (const Leaf& leaf : inspection.leaves) {
    if (leaf.text() != nullptr) continue;
    const std::optional<Rect> ink = visible_ink(leaf);
    if (ink && lies_in(Rect{place, {}}, *ink)) topmost = &leaf;
  }
  return topmost;
}

/// Sides along which a picture covers the bleed but is itself white there.
struct BareSides {
  std::vector<std::string> names;
  int bare = 0, places = 0;
  const Leaf* leaf = nullptr;
};

/// Counts the side in when a quarter of it has ink inside, nine tenths of which has bare paper
/// outside: a drawing that merely has white parts is let pass.
void look_along(const Inspection& inspection, const Side& side, const Pixels& pixels,
                BareSides& bare_sides) {
  const Share share = bare_share(inspection, side, pixels);
  if (share.places == 0 || share.inked * 4 < share.places) return;
  if (share.bare * 10 < share.inked * 9) return;
  bare_sides.names.emplace_back(side.name);
  bare_sides.bare += share.bare;
  bare_sides.places += share.places;
  if (bare_sides.leaf == nullptr) bare_sides.leaf = leaf_at(inspection, side);
}

void report_bare(const Inspection& inspection, const BareSides& bare) {
  if (bare.names.empty()) return;
  const Leaf* leaf = bare.leaf;
  const Face& face = inspection.face;
  inspection.found.emplace_back(
      Id::art_short_of_bleed, leaf != nullptr ? leaf->origin(face.row) : face.row,
      fmt::format("the {} of bleed are bare along {} % of the {} edge{}",
                  in_mm(inspection.look.bleed), bare.bare * 100 / bare.places, listed(bare.names),
                  bare.names.size() > 1 ? "s" : ""));
  inspection.found.back()
      .on(face.piece, leaf != nullptr ? leaf->element() : std::string{})
      .detail("a cut that wanders outwards leaves a white edge where the ink should run out")
      .hint("use a picture that is painted out to its own edges, or place it larger");
}

}  // namespace

void check_bleed(const Inspection& inspection) {
  if (inspection.look.bleed < Mm{0.5}) return;  // nothing is asked for
  const Pixels pixels(inspection.look.picture, inspection.look.bleed,
                      inspection.look.pixels_per_mm);
  const Rect trim{{}, inspection.look.trim};
  std::array<bool, 4> explained{};
  for (const Leaf& leaf : inspection.leaves) {
    if (leaf.text() != nullptr || is_line_only(leaf)) continue;
    const std::optional<Rect> ink = visible_ink(leaf);
    if (!ink || !overlap(*ink, trim)) continue;
    const ShortSides short_of = short_sides(inspection, *ink, pixels, explained);
    if (!short_of.names.empty()) report_short(inspection, leaf, short_of);
  }
  const std::array<Side, 4> sides = sides_of(trim.size);
  BareSides bare;
  for (std::size_t i = 0; i < sides.size(); ++i) {
    if (!explained[i]) look_along(inspection, sides[i], pixels, bare);
  }
  report_bare(inspection, bare);
}

}  // namespace quoin::pieces
