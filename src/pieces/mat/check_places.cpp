#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "pieces/card/check_parts.h"
#include "pieces/mat/check_mat.h"

namespace quoin::pieces {
namespace {

/// A sliver of this many square millimetres is no overlap: lines that touch.
constexpr double least_overlap = 0.5;

Polygon outline_on_mat(const CardPlace& place) {
  const Mm across = place.each.width / 2, down = place.each.height / 2;
  return {place.map(Point{-across, -down}), place.map(Point{across, -down}),
          place.map(Point{across, down}), place.map(Point{-across, down})};
}

std::string size_words(Size size) {
  return fmt::format("{} x {} mm", plain(size.width.value, 1), plain(size.height.value, 1));
}

/// "draw", or "place 3 of tide-row".
std::string name_of(const CardPlace& place, const std::map<std::string, int>& counts) {
  return counts.at(place.element) == 1 ? place.element
                                       : fmt::format("place {} of {}", place.number, place.element);
}

Diagnostic& report_place(const MatInspection& inspection, Id id, const CardPlace& place,
                         std::string message) {
  inspection.found.emplace_back(id, place.origin, std::move(message));
  return inspection.found.back().on("mat", place.element);
}

/// Rounded up to a tenth, so that the printed number is enough.
Mm enough(Mm length) { return Mm{std::ceil(length.value * 10 - 1e-6) / 10}; }

void check_size(const MatInspection& inspection) {
  std::string last;
  for (const CardPlace& place : inspection.mat.places) {
    if (place.element == last) continue;
    last = place.element;
    if (fits(place.card.width, place.each.width) && fits(place.card.height, place.each.height)) {
      continue;
    }
    report_place(inspection, Id::mat_place_too_small, place,
                 fmt::format("{} has places of {}; a card is {}", place.element,
                             size_words(place.each), size_words(place.card)))
        .detail("a card covers the line round its place")
        .hint("leave each out, and write clearance = 1.5");
  }
}

/// How two places lie over each other, the worst of two elements.
struct PlacesOver {
  const CardPlace* a = nullptr;
  const CardPlace* b = nullptr;
  Size over;
};

void report_over(const MatInspection& inspection, const PlacesOver& worst,
                 const std::map<std::string, int>& counts) {
  const bool one_element = worst.a->element == worst.b->element;
  const Mm move = enough(std::min(worst.over.width, worst.over.height));
  report_place(inspection, Id::mat_places_overlap, *worst.b,
               fmt::format("{} and {} lie over each other by {}", name_of(*worst.a, counts),
                           name_of(*worst.b, counts), size_words(worst.over)))
      .detail("a card on the one covers a part of the other")
      .hint(one_element
                ? fmt::format("make its gap larger by {}", in_mm(move))
                : fmt::format("move one of them {} {}", in_mm(move),
                              worst.over.width < worst.over.height ? "to the side" : "up or down"));
}

void check_overlap(const MatInspection& inspection, const std::map<std::string, int>& counts) {
  const std::vector<CardPlace>& places = inspection.mat.places;
  std::vector<Polygon> outlines;
  std::vector<Rect> boxes;
  for (const CardPlace& place : places) {
    outlines.push_back(outline_on_mat(place));
    boxes.push_back(bounds(outlines.back()));
  }
  std::map<std::pair<std::string, std::string>, PlacesOver> worst;
  for (std::size_t i = 0; i < places.size(); ++i) {
    for (std::size_t j = i + 1; j < places.size(); ++j) {
      const bool one_fan = places[i].fanned && places[i].element == places[j].element;
      if (one_fan || !overlap(boxes[i], boxes[j])) continue;
      const std::vector<Region> both = common(outlines[i], outlines[j]);
      if (both.empty() || area(both) < least_overlap) continue;
      const Size over = bounds(both.front().outer).size;
      PlacesOver& known = worst[{places[i].element, places[j].element}];
      if (known.a == nullptr ||
          over.width * over.height.value > known.over.width * known.over.height.value) {
        known = {&places[i], &places[j], over};
      }
    }
  }
  for (const auto& [elements, over] : worst) report_over(inspection, over, counts);
}

/// "10.0 mm right and 4.0 mm down": what brings the box into the room.
std::string way_in(Rect box, Rect room) {
  if (box.size.width > room.size.width + epsilon || box.size.height > room.size.height + epsilon) {
    return "make it smaller: it has more cards than the mat has room for";
  }
  std::vector<std::string> moves;
  const auto add = [&](Mm by, const char* way) {
    if (by > epsilon) moves.push_back(fmt::format("{} {}", in_mm(enough(by)), way));
  };
  add(room.left() - box.left(), "right");
  add(box.right() - room.right(), "left");
  add(room.top() - box.top(), "down");
  add(box.bottom() - room.bottom(), "up");
  return "move it " + listed(moves);
}

void check_edges_of_mat(const MatInspection& inspection) {
  const Rect mat{{}, inspection.mat.plan.size};
  const Mm safe = inspection.game.mat->safe;
  const Rect room = grown(mat, -safe);
  if (room.size.width <= Mm{} || room.size.height <= Mm{}) return;
  const std::string edge = inspection.mat.plan.hem > Mm{} ? "the hem" : "the edge";
  std::map<std::string, std::pair<const CardPlace*, Rect>> elements;
  std::vector<std::string> order;
  for (const CardPlace& place : inspection.mat.places) {
    const Rect box = bounds(outline_on_mat(place));
    const auto [at, is_new] = elements.try_emplace(place.element, &place, box);
    if (is_new)
      order.push_back(place.element);
    else
      at->second.second = covering(at->second.second, box);
  }
  for (const std::string& element : order) {
    const auto& [place, box] = elements.at(element);
    if (lies_in(box, room)) continue;
    const Mm nearest = std::min(std::min(box.left() - mat.left(), box.top() - mat.top()),
                                std::min(mat.right() - box.right(), mat.bottom() - box.bottom()));
    const bool is_off = nearest < Mm{};
    report_place(inspection, Id::mat_place_near_edge, *place,
                 is_off ? fmt::format("{} reaches {} past {} of the mat; {} inside it is safe",
                                      element, in_mm(-nearest), edge, in_mm(safe))
                        : fmt::format("{} comes within {} of {} of the mat; {} is safe", element,
                                      in_mm(nearest), edge, in_mm(safe)))
        .detail(is_off ? "a card there hangs over the edge"
                       : "where the cut wanders, the line round the place is lost")
        .hint(way_in(box, room));
  }
}

}  // namespace

void check_places(const MatInspection& inspection) {
  std::map<std::string, int> counts;
  for (const CardPlace& place : inspection.mat.places) ++counts[place.element];
  check_size(inspection);
  check_overlap(inspection, counts);
  check_edges_of_mat(inspection);
}

}  // namespace quoin::pieces
