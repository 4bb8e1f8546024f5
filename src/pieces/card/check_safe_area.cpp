#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "pieces/card/check_parts.h"

namespace quoin::pieces {
namespace {

/// How far a place lies outside a rectangle with round corners; negative inside. The usual
/// distance to a rounded box: outside its inner box, less the radius.
Mm outside(Point place, Rect box, Mm radius) {
  const double limit = std::min(box.size.width, box.size.height).value / 2;
  const double r = std::clamp(radius.value, 0.0, std::max(0.0, limit));
  const double across = std::abs((place.x - box.centre().x).value) - box.size.width.value / 2 + r;
  const double down = std::abs((place.y - box.centre().y).value) - box.size.height.value / 2 + r;
  const double beyond = std::hypot(std::max(across, 0.0), std::max(down, 0.0));
  return Mm{beyond + std::min(std::max(across, down), 0.0) - r};
}

struct Zones {
  Rect trim, safe;
  Mm corner, safe_corner;
};

Zones zones_of(const Inspection& inspection) {
  const game::CardFormat& format = inspection.face.format;
  const Rect trim{{}, inspection.look.trim};
  return {trim, grown(trim, -format.safe), format.corner,
          std::max(format.corner - format.safe, Mm{0})};
}

/// How ink lies towards the edge: how far out of the safe area, and how near the cut at its
/// nearest (negative: past it).
struct Excess {
  Mm past_safe{-1e9};
  Mm to_cut{1e9};
  [[nodiscard]] bool any() const { return past_safe > epsilon; }
};

Excess excess_of(const std::vector<Quad>& quads, const Zones& zones) {
  Excess found;
  for (const Quad& quad : quads) {
    for (const Point corner : quad) {
      found.past_safe = std::max(found.past_safe, outside(corner, zones.safe, zones.safe_corner));
      found.to_cut = std::min(found.to_cut, -outside(corner, zones.trim, zones.corner));
    }
  }
  return found;
}

Rect round_all(const std::vector<Quad>& quads) {
  Rect box{quads.front().front(), {}};
  for (const Quad& quad : quads) {
    for (const Point corner : quad) box = covering(box, Rect{corner, {}});
  }
  return box;
}

/// "2.0 mm right and 0.5 mm up", or that it cannot be cured by moving.
std::string move_words(Rect ink, Rect safe) {
  std::vector<std::string> moves;
  const auto add = [&](Mm before, Mm after, const char* forth, const char* back) {
    // Rounded up, so that the printed number is enough.
    const Mm forward{std::ceil(std::max(before, Mm{0}).value * 10 - 1e-6) / 10};
    const Mm backward{std::ceil(std::max(after, Mm{0}).value * 10 - 1e-6) / 10};
    if (forward > Mm{0}) moves.push_back(fmt::format("{} {}", in_mm(forward), forth));
    if (backward > Mm{0}) moves.push_back(fmt::format("{} {}", in_mm(backward), back));
  };
  add(safe.left() - ink.left(), ink.right() - safe.right(), "right", "left");
  add(safe.top() - ink.top(), ink.bottom() - safe.bottom(), "down", "up");
  const bool is_too_large = ink.size.width > safe.size.width || ink.size.height > safe.size.height;
  if (is_too_large) return "make it smaller";
  return moves.empty() ? "move it away from the corner" : "move it " + listed(moves);
}

void check_text(const Inspection& inspection, const Leaf& leaf, const Zones& zones) {
  const std::vector<Quad> quads = line_quads(leaf);
  if (quads.empty()) return;
  const Excess excess = excess_of(quads, zones);
  if (!excess.any()) return;
  const Mm safe = inspection.face.format.safe;
  const bool is_cut = excess.to_cut < -epsilon;
  const std::string message =
      is_cut ? fmt::format("the text runs {} past the cut; {} inside it is safe",
                           in_mm(-excess.to_cut), in_mm(safe))
             : fmt::format("the text comes within {} of the cut; {} is safe", in_mm(excess.to_cut),
                           in_mm(safe));
  inspection.report(Id::card_outside_safe, leaf, message)
      .detail(is_cut ? "the blade will go through the letters"
                     : "where the cut wanders inwards, letters are lost")
      .hint(move_words(round_all(quads), zones.safe) + ", or say role = \"decoration\"");
}

/// How near a line's ink comes to the cut, over the sides on which it ends between the safe area
/// and the outer edge of the bleed. A line that runs on to that edge is meant to be cut.
Mm nearest_to_cut(Rect ink, const Zones& zones, Mm bleed) {
  const Mm runs_out = -(bleed - Mm{0.3});
  const Mm safe = zones.safe.left() - zones.trim.left();
  Mm nearest{1e9};
  for (const Mm inside : {ink.left(), ink.top(), zones.trim.right() - ink.right(),
                          zones.trim.bottom() - ink.bottom()}) {
    if (inside < safe - epsilon && inside > std::min(runs_out, Mm{0})) {
      nearest = std::min(nearest, inside);
    }
  }
  return nearest;
}

bool draws_a_line(const Leaf& leaf) {
  const ShapeItem* shape = leaf.shape();
  return shape != nullptr && shape->stroke.width > Mm{0} &&
         !std::holds_alternative<NoPaint>(shape->stroke.paint);
}

void check_line(const Inspection& inspection, const Leaf& leaf, const Zones& zones) {
  const std::optional<Rect> ink = visible_ink(leaf);
  if (!ink || !overlap(*ink, zones.trim)) return;
  const Mm nearest = nearest_to_cut(*ink, zones, inspection.look.bleed);
  const Mm safe = inspection.face.format.safe;
  if (nearest > safe) return;
  const bool is_cut = nearest < -epsilon;
  inspection
      .report(Id::card_outside_safe, leaf,
              is_cut ? fmt::format("the line ends {} past the cut; {} inside it is safe",
                                   in_mm(-nearest), in_mm(safe))
                     : fmt::format("the line comes within {} of the cut; {} is safe",
                                   in_mm(nearest), in_mm(safe)))
      .detail("a cut that wanders by a millimetre makes a frame look lopsided")
      .hint("draw it further in, let it run out past the bleed, or say role = \"decoration\"");
}

/// A picture of this share of the card's width or height is a panel, a band or a border: where it
/// ends was chosen with the edge in view.
constexpr double share_of_a_panel = 0.75;
/// One that ends this near the trim is meant to reach it: `art.short-of-bleed` speaks of those.
constexpr Mm meant_for_the_edge{0.3};

/// How near the trim's sides a picture comes that is meant to be whole; nothing for one that is
/// not: that runs off the card, or is a panel.
std::optional<Mm> whole_picture_to_cut(Rect ink, Rect trim) {
  const Mm nearest = std::min(std::min(ink.left() - trim.left(), ink.top() - trim.top()),
                              std::min(trim.right() - ink.right(), trim.bottom() - ink.bottom()));
  const bool is_panel = ink.size.width > trim.size.width * share_of_a_panel ||
                        ink.size.height > trim.size.height * share_of_a_panel;
  if (is_panel || nearest < meant_for_the_edge) return std::nullopt;
  return nearest;
}

/// The pictures of one element that come too near the cut: a row of pips is one.
struct NearPictures {
  const Leaf* leaf = nullptr;  ///< the first
  std::string element;
  Origin origin;
  Rect ink;  ///< round them all
  Mm to_cut;
};

std::vector<NearPictures> pictures_near_the_cut(const Inspection& inspection, const Zones& zones) {
  std::vector<NearPictures> found;
  for (const Leaf& leaf : inspection.leaves) {
    if (leaf.role == Role::decoration || leaf.picture() == nullptr) continue;
    const std::optional<Rect> ink = visible_ink(leaf);
    if (!ink) continue;
    const std::optional<Mm> to_cut = whole_picture_to_cut(*ink, zones.trim);
    if (!to_cut || *to_cut > inspection.face.format.safe - epsilon) continue;
    const std::string element = leaf.element();
    const Origin origin = leaf.origin(inspection.face.row);
    const auto same = std::find_if(found.begin(), found.end(), [&](const NearPictures& near) {
      return near.element == element && near.origin == origin;
    });
    if (same == found.end()) {
      found.push_back({&leaf, element, origin, *ink, *to_cut});
    } else {
      same->ink = covering(same->ink, *ink);
      same->to_cut = std::min(same->to_cut, *to_cut);
    }
  }
  return found;
}

void check_pictures(const Inspection& inspection, const Zones& zones) {
  for (const NearPictures& near : pictures_near_the_cut(inspection, zones)) {
    inspection
        .report(Id::card_outside_safe, *near.leaf,
                fmt::format("the picture comes within {} of the cut; {} is safe",
                            in_mm(near.to_cut), in_mm(inspection.face.format.safe)))
        .detail("where the cut wanders inwards, a strip of the picture is lost")
        .hint(move_words(near.ink, zones.safe) +
              ", let it run out past the bleed, or say role = \"decoration\"");
  }
}

}  // namespace

void check_safe_area(const Inspection& inspection) {
  const Zones zones = zones_of(inspection);
  if (zones.safe.size.width <= Mm{0} || zones.safe.size.height <= Mm{0}) return;
  for (const Leaf& leaf : inspection.leaves) {
    if (leaf.role == Role::decoration) continue;
    if (leaf.text() != nullptr) check_text(inspection, leaf, zones);
    if (draws_a_line(leaf)) check_line(inspection, leaf, zones);
  }
  check_pictures(inspection, zones);
}

}  // namespace quoin::pieces
