#include "pieces/mat/mat.h"

#include <fmt/format.h>

#include <cmath>

#include "pieces/mat/check_mat.h"
#include "pieces/mat/place_element.h"

namespace quoin::pieces {
namespace {

double minutes_of_arc(double minutes) { return minutes / 60 * std::numbers::pi / 180; }

Mm seen_under(Mm distance, double minutes) {
  return distance * (2 * std::tan(minutes_of_arc(minutes) / 2));
}

/// Gathers the places of elements and of groups in them.
class PlaceCollector {
 public:
  PlaceCollector(const Sitting& sitting, std::vector<CardPlace>& places)
      : sitting_(sitting), places_(places) {}

  void collect(const std::vector<game::Element>& elements, const ElementPlace& within,
               const Affine& outer) {
    for (const game::Element& element : elements) {
      const bool is_place = element.kind == "place";
      if ((!is_place && element.children.empty()) || !is_drawn(element, sitting_)) continue;
      const Properties properties(sitting_, element.properties, element.id);
      const std::optional<Rect> box = box_of(properties, element, within);
      if (!box) continue;
      const Angle turn = Angle::degrees(properties.number("rotation").value_or(0));
      const Affine map = then(Affine::turn_about(box->centre(), turn), outer);
      if (is_place)
        add(element, properties, then(Affine::move(box->at - Point{}), map));
      else
        collect(element.children, {*box, within.bleed}, map);
    }
  }

 private:
  void add(const game::Element& element, const Properties& properties, const Affine& map) {
    const ElementPlaces read = read_places(properties);
    int number = 0;
    for (const PlaceSpot& spot : lay_places(read.pattern).spots) {
      places_.push_back({element.id, element.origin, ++number, then(place_map(spot), map),
                         read.pattern.each, read.card, read.pattern.arrange == PlaceArrange::fan,
                         properties.flag("turned").value_or(false)});
    }
  }

  const Sitting& sitting_;
  std::vector<CardPlace>& places_;
};

/// How many places an element and those in it have at the most, from their counts alone.
std::size_t count_places(const std::vector<game::Element>& elements, const Sitting& sitting) {
  std::size_t count = 0;
  for (const game::Element& element : elements) {
    count += count_places(element.children, sitting);
    if (element.kind != "place") continue;
    const Properties properties(sitting, element.properties, element.id);
    count += static_cast<std::size_t>(read_places(properties).pattern.count);
  }
  return count;
}

Diagnostic too_many(std::size_t count, const game::Layout& layout) {
  Diagnostic problem(Id::mat_too_many_places, layout.origin,
                     fmt::format("the mat has {} places; it can have {}", count, most_places));
  return problem.on("mat").hint("take some away, or make the counts of rows and grids smaller");
}

}  // namespace

MatPlan mat_plan(const game::Game& game) {
  const game::MatWishes& mat = *game.mat;
  return {mat.size, mat.bleed.value_or(game.card.bleed), mat.hem};
}

CapitalHeights capital_heights(Mm distance) {
  return {seen_under(distance, 16), seen_under(distance, 20)};
}

double finest_ppi(Mm distance) { return mm_per_inch / seen_under(distance, 1).value; }

std::vector<CardPlace> places_of(const Studio& studio) {
  std::vector<CardPlace> places;
  const game::Game& game = studio.game();
  const game::Layout* layout = game::mat_layout(game);
  if (layout == nullptr) return places;
  Diagnostics said_when_drawn;
  const game::Card nobody;
  const Sitting sitting{studio, nobody, "mat", said_when_drawn};
  if (count_places(layout->elements, sitting) > most_places) return places;
  const MatPlan plan = mat_plan(game);
  PlaceCollector(sitting, places).collect(layout->elements, {Rect{{}, plan.size}, plan.ink()}, {});
  return places;
}

Scene mat_scene(const Studio& studio, Diagnostics& found) {
  Scene scene;
  const game::Layout* layout = game::mat_layout(studio.game());
  if (layout == nullptr) return scene;
  const game::Card nobody;
  const Sitting sitting{studio, nobody, "mat", found};
  const MatPlan plan = mat_plan(studio.game());
  draw_elements(layout->elements, sitting, Rect{{}, plan.size}, plan.ink(), scene.items);
  return scene;
}

Checked<std::optional<Mat>> make_mat(const Studio& studio, Typesetter& typesetter) {
  Checked<std::optional<Mat>> made;
  const game::Game& game = studio.game();
  const game::Layout* layout = game::mat_layout(game);
  if (layout == nullptr) return made;
  const game::Card nobody;
  Diagnostics said_when_drawn;
  const Sitting counting{studio, nobody, "mat", said_when_drawn};
  if (const std::size_t count = count_places(layout->elements, counting); count > most_places) {
    made.found.push_back(too_many(count, *layout));
    return made;
  }
  Mat mat{mat_plan(game), mat_scene(studio, made.found), places_of(studio), {}};
  typeset(mat.scene, typesetter);
  const MatInspection inspection{game, mat, made.found};
  check_places(inspection);
  mat.ink = check_mat_print(inspection, studio.shelf());
  made.value = std::move(mat);
  return made;
}

}  // namespace quoin::pieces
