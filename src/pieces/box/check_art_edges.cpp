#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "pieces/box/check_art.h"
#include "pieces/box/run_edges.h"
#include "pieces/card/check_parts.h"

namespace quoin::pieces {
namespace {

/// So little over a fold is not seen.
constexpr Mm unseen_over_a_fold{0.1};

/// Words, or an emblem: what must not be broken.
struct KeptWhole {
  enum class Kind { words, emblem } kind = Kind::words;
  std::string element;
  Origin origin;
  std::vector<Quad> quads;  ///< in the run's frame
};

Quad corners_of(Rect box, const Affine& map) {
  return {map(box.at), map(Point{box.right(), box.top()}), map(Point{box.right(), box.bottom()}),
          map(Point{box.left(), box.bottom()})};
}

void collect_emblems(const Item& item, const Affine& outer, std::vector<KeptWhole>& all) {
  if (item.role == Role::emblem) {
    if (const std::optional<Rect> seen = ink(item)) {
      all.push_back(
          {KeptWhole::Kind::emblem, item.element, item.origin, {corners_of(*seen, outer)}});
    }
    return;
  }
  const auto* group = std::get_if<GroupItem>(&item.what);
  if (group == nullptr) return;
  for (const Item& inner : group->items) collect_emblems(inner, then(item.map, outer), all);
}

std::vector<KeptWhole> kept_whole(const DrawnArt& drawn) {
  std::vector<KeptWhole> all;
  collect_emblems(drawn.item, Affine{}, all);
  const Scene alone{{drawn.item}};
  for (const Leaf& leaf : leaves_of(alone)) {
    if (leaf.text() == nullptr || leaf.role == Role::decoration) continue;
    std::vector<Quad> quads = line_quads(leaf);
    if (quads.empty()) continue;
    all.push_back({KeptWhole::Kind::words, leaf.element(), leaf.origin(drawn.element->origin),
                   std::move(quads)});
  }
  return all;
}

/// The part of a thing that lies on one panel.
struct OnPanel {
  const PanelNear* panel = nullptr;
  double area = 0;
  Rect box;
};

std::vector<OnPanel> spread_over(const std::vector<Quad>& quads,
                                 const std::vector<PanelNear>& panels) {
  std::vector<OnPanel> parts;
  for (const PanelNear& panel : panels) {
    OnPanel part{&panel, 0, {}};
    for (const Quad& quad : quads) {
      const Overlay on = overlay(quad, panel.outline);
      if (!(on.area > 0)) continue;
      part.box = part.area > 0 ? covering(part.box, on.box) : on.box;
      part.area += on.area;
    }
    if (part.area > 0) parts.push_back(part);
  }
  std::stable_sort(parts.begin(), parts.end(),
                   [](const OnPanel& a, const OnPanel& b) { return a.area > b.area; });
  return parts;
}

/// Which way the thing has to go to leave `other` for `main`, and how far.
struct WayOff {
  Mm far;
  const char* way = "";
};

WayOff way_off(const Polygon& main, const OnPanel& other) {
  const Rect from = bounds(main), to = bounds(other.panel->outline);
  if (to.left() >= from.right() - epsilon) return {other.box.size.width, "left"};
  if (to.right() <= from.left() + epsilon) return {other.box.size.width, "right"};
  if (to.top() >= from.bottom() - epsilon) return {other.box.size.height, "up"};
  return {other.box.size.height, "down"};
}

class EdgeCheck {
 public:
  EdgeCheck(const ArtInspection& inspection, const DrawnArt& drawn)
      : inspection_(inspection),
        drawn_(drawn),
        net_(printed_net(inspection.box.model, drawn.place.part, drawn.place.side)),
        panels_(panels_near(net_, drawn.place.run)),
        cuts_(cut_edges(net_, drawn.place.run)) {}

  void check(const KeptWhole& thing) {
    const bool broken = check_folds(thing);
    if (!broken && thing.kind == KeptWhole::Kind::words) check_cuts(thing);
  }

 private:
  [[nodiscard]] const std::string& name(const PanelNear& panel) const {
    return net_.panels[static_cast<std::size_t>(panel.panel)].name;
  }

  Diagnostic& report(Id id, const KeptWhole& thing, std::string message) {
    inspection_.found.emplace_back(id, thing.origin, std::move(message));
    return inspection_.found.back().on(drawn_.place.words, thing.element);
  }

  bool check_folds(const KeptWhole& thing) {
    const std::vector<OnPanel> parts = spread_over(thing.quads, panels_);
    bool broken = false;
    for (std::size_t i = 1; i < parts.size(); ++i) {
      const WayOff off = way_off(parts[0].panel->outline, parts[i]);
      if (off.far <= unseen_over_a_fold) continue;
      report_fold(thing, *parts[0].panel, *parts[i].panel, off);
      broken = true;
    }
    return broken;
  }

  void report_fold(const KeptWhole& thing, const PanelNear& main, const PanelNear& other,
                   const WayOff& off) {
    const bool words = thing.kind == KeptWhole::Kind::words;
    const Mm move{std::ceil(off.far.value * 10 - 1e-6) / 10};
    report(words ? Id::box_text_across_crease : Id::box_emblem_across_crease, thing,
           fmt::format("{} from {} onto {}: {} of {} beyond the fold",
                       words ? "the words run" : "the emblem runs", name(main), name(other),
                       in_mm(move), words ? "them are" : "it is"))
        .detail(other.of_run
                    ? fmt::format("the corner of the box breaks {}, and the ink cracks on the fold",
                                  words ? "them" : "it")
                    : "what lies beyond the fold is not printed")
        .hint(fmt::format("make it smaller, or move it {} {}", in_mm(move), off.way));
  }

  void check_cuts(const KeptWhole& thing) {
    ToCut worst{Mm{}, Mm{1e9}};
    for (const Quad& quad : thing.quads) {
      const ToCut found = to_cut(quad, cuts_, panels_);
      worst.past = std::max(worst.past, found.past);
      worst.distance = std::min(worst.distance, found.distance);
    }
    const Mm safe = inspection_.game.card.safe;
    const bool is_cut = worst.past > epsilon;
    if (!is_cut && worst.distance >= safe - epsilon) return;
    report(Id::box_text_near_cut, thing,
           is_cut ? fmt::format("the words run {} past the edge of the board; {} inside it is safe",
                                in_mm(worst.past), in_mm(safe))
                  : fmt::format("the words come within {} of a cut; {} is safe",
                                in_mm(worst.distance), in_mm(safe)))
        .detail(is_cut ? "the cut goes through the letters"
                       : "where the cut wanders inwards, letters are lost")
        .hint("move the text further in, or say role = \"decoration\"");
  }

  const ArtInspection& inspection_;
  const DrawnArt& drawn_;
  PrintedNet net_;
  std::vector<PanelNear> panels_;
  std::vector<EdgePiece> cuts_;
};

}  // namespace

void check_edges(const ArtInspection& inspection) {
  for (const DrawnArt& drawn : inspection.drawn) {
    EdgeCheck edges(inspection, drawn);
    for (const KeptWhole& thing : kept_whole(drawn)) edges.check(thing);
  }
}

}  // namespace quoin::pieces
