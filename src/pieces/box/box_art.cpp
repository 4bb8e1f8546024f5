#include "pieces/box/box_art.h"

#include <algorithm>
#include <map>

#include "pieces/box/art_place.h"
#include "pieces/box/check_art.h"
#include "pieces/card/element.h"

namespace quoin::pieces {
namespace {

/// Where an element is drawn that does not say: all of the run with its bleed, words within the
/// safe distance.
ElementPlace usual_place(const game::Element& element, const PanelRun& run, Mm bleed, Mm safe) {
  const Rect frame{{}, run.size};
  ElementPlace place{frame, bleed, frame};
  if (element.kind == "text") {
    const Mm half = std::min(run.size.width, run.size.height) / 2;
    place.usual_box = grown(frame, -std::min(safe, half * 0.5));
  } else if (element.kind != "group" && element.kind != "repeat") {
    place.usual_box = grown(frame, bleed);
  }
  return place;
}

/// The item on the net, once for each stretch of its run, clipped to where the run is printed.
void lay_on_net(const DrawnArt& drawn, Scene& scene) {
  for (const RunStretch& stretch : drawn.place.run.stretches) {
    if (stretch.ink.empty()) continue;
    Item laid;
    laid.element = drawn.element->id;
    laid.origin = drawn.item.origin;
    laid.map = stretch.to_net;
    laid.clip = mapped(to_path(stretch.ink), *inverse(stretch.to_net));
    laid.what = GroupItem{{drawn.item}};
    scene.items.push_back(std::move(laid));
  }
}

/// Where each element of a layout stands in its file.
void collect_origins(const std::vector<game::Element>& elements,
                     std::map<std::string, Origin>& origins) {
  for (const game::Element& element : elements) {
    origins.emplace(element.id, element.origin);
    collect_origins(element.children, origins);
  }
}

/// Findings about a place are for the layout to cure, also where the words come from another file.
void point_at_layout(Item& item, const std::map<std::string, Origin>& origins) {
  const auto own = origins.find(item.element);
  if (own != origins.end() && item.origin.file != own->second.file) item.origin = own->second;
  if (auto* group = std::get_if<GroupItem>(&item.what)) {
    for (Item& inner : group->items) point_at_layout(inner, origins);
  }
}

std::vector<DrawnArt> draw_layout(const Studio& studio, const Box& box, Mm bleed,
                                  Diagnostics& found) {
  const game::Game& game = studio.game();
  const game::Layout* layout = game::box_layout(game);
  std::vector<DrawnArt> all;
  if (layout == nullptr) return all;
  const game::Card nobody;
  ArtPlaces places(box, bleed);
  std::map<std::string, Origin> origins;
  collect_origins(layout->elements, origins);
  for (const game::Element& element : layout->elements) {
    std::optional<ArtPlace> place = places.place(element, found);
    if (!place) continue;
    const Sitting sitting{studio, nobody, place->words, found};
    std::optional<Item> item =
        draw_element(element, sitting, usual_place(element, place->run, bleed, game.card.safe));
    if (item) point_at_layout(*item, origins);
    if (item) all.push_back({&element, std::move(*place), std::move(*item)});
  }
  return all;
}

void set_texts(Item& item, Typesetter& typesetter) {
  Scene alone;
  alone.items.push_back(std::move(item));
  typeset(alone, typesetter);
  item = std::move(alone.items.front());
}

}  // namespace

Checked<std::vector<NetArt>> box_art(const Studio& studio, Typesetter& typesetter, const Box& box) {
  const game::Game& game = studio.game();
  const Mm bleed = game.box && game.box->bleed ? *game.box->bleed : game.card.bleed;
  Checked<std::vector<NetArt>> made;
  made.value.assign(box.model.parts.size(), NetArt{{}, {}, bleed});
  std::vector<DrawnArt> drawn = draw_layout(studio, box, bleed, made.found);
  for (DrawnArt& one : drawn) {
    set_texts(one.item, typesetter);
    NetArt& net = made.value[static_cast<std::size_t>(one.place.part)];
    lay_on_net(one, one.place.side == PrintSide::inside ? net.inside : net.printed);
  }
  const ArtInspection inspection{game, box, drawn, made.value, made.found};
  check_seen(inspection);
  check_edges(inspection);
  check_print(inspection, studio.shelf());
  return made;
}

}  // namespace quoin::pieces
