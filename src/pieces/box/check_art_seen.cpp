#include <fmt/format.h>

#include <algorithm>

#include "pieces/box/check_art.h"
#include "pieces/card/check_parts.h"

namespace quoin::pieces {
namespace {

/// mm²; less of an element than this is nothing.
constexpr double least_seen = 0.05;

Polygon ink_on_net(const Item& item, const Affine& to_net) {
  const std::optional<Rect> seen = ink(item);
  if (!seen) return {};
  const Rect box = *seen;
  return {to_net(box.at), to_net(Point{box.right(), box.top()}),
          to_net(Point{box.right(), box.bottom()}), to_net(Point{box.left(), box.bottom()})};
}

double area_on(const Polygon& polygon, const std::vector<Region>& regions) {
  double seen = 0;
  for (const Region& region : regions) {
    seen += area(without(common(polygon, region.outer), region.holes));
  }
  return seen;
}

/// mm² of the element that are printed on its panels; what lies in the bleed is cut off.
double printed_area(const ArtInspection& inspection, const DrawnArt& drawn) {
  const PrintedNet net = printed_net(inspection.box.model, drawn.place.part, drawn.place.side);
  double seen = 0;
  for (const RunStretch& stretch : drawn.place.run.stretches) {
    const Polygon box = ink_on_net(drawn.item, stretch.to_net);
    if (box.size() != 4 || !(area(box) > 0)) continue;
    for (const int panel : stretch.panels) {
      for (const Region& on : common(box, net.panels[static_cast<std::size_t>(panel)].outline)) {
        seen += area_on(on.outer, stretch.ink);
      }
    }
  }
  return seen;
}

bool lies_under_glue(const ArtInspection& inspection, const DrawnArt& drawn) {
  const PrintedNet net = printed_net(inspection.box.model, drawn.place.part, drawn.place.side);
  for (const RunStretch& stretch : drawn.place.run.stretches) {
    const Polygon box = ink_on_net(drawn.item, stretch.to_net);
    if (box.size() != 4 || !(area(box) > 0)) continue;
    for (const Polygon& glue : net.glue) {
      if (area(common(box, glue)) > least_seen) return true;
    }
  }
  return false;
}

void report_nothing(const ArtInspection& inspection, const DrawnArt& drawn) {
  const bool glue = lies_under_glue(inspection, drawn);
  Diagnostic problem(
      Id::box_nothing_printed, drawn.item.origin,
      fmt::format("nothing of \"{}\" is printed: it lies {}", drawn.element->id,
                  glue ? "where glue goes" : "beyond the edges of " + drawn.place.words));
  problem.on(drawn.place.words, drawn.element->id)
      .hint(glue ? "glue holds on bare board only, so give it another panel"
                 : "its place is measured from the panel's top left corner; correct at, size or "
                   "inset");
  inspection.found.push_back(std::move(problem));
}

bool is_hidden(const ArtInspection& inspection, const DrawnArt& drawn) {
  if (drawn.place.side == PrintSide::inside || drawn.item.role == Role::decoration) return false;
  return std::all_of(drawn.place.run.panels.begin(), drawn.place.run.panels.end(), [&](int panel) {
    return fold::panel(inspection.box.model, {drawn.place.part, panel}).seen == fold::Seen::hidden;
  });
}

void report_hidden(const ArtInspection& inspection, const DrawnArt& drawn) {
  Diagnostic problem(
      Id::box_art_hidden, drawn.item.origin,
      fmt::format("\"{}\" is hidden when the box is closed: {} {} inside", drawn.element->id,
                  drawn.place.words, drawn.place.run.panels.size() == 1 ? "lies" : "lie"));
  problem.on(drawn.place.words, drawn.element->id)
      .hint("give it a panel that shows; if it is meant so, say role = \"decoration\"");
  inspection.found.push_back(std::move(problem));
}

}  // namespace

void check_seen(const ArtInspection& inspection) {
  for (const DrawnArt& drawn : inspection.drawn) {
    if (!ink(drawn.item)) continue;
    if (printed_area(inspection, drawn) < least_seen) {
      report_nothing(inspection, drawn);
    } else if (is_hidden(inspection, drawn)) {
      report_hidden(inspection, drawn);
    }
  }
}

}  // namespace quoin::pieces
