#include "desk/mat_view.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "desk/looks.h"
#include "formats/png/png.h"
#include "game/starter_mat.h"
#include "job/edit/add_files.h"
#include "pack/mat_files.h"

namespace quoin::desk {
namespace {

double hundredth(double value) { return std::round(value * 100) / 100 + 0.0; }

const game::Element* element_named(const std::vector<game::Element>& all, const std::string& id) {
  for (const game::Element& one : all) {
    if (one.id == id) return &one;
    if (const game::Element* below = element_named(one.children, id)) return below;
  }
  return nullptr;
}

bool is_pile(const game::Element* element) {
  const game::Node* arrange = element ? game::find(element->properties, "arrange") : nullptr;
  return arrange != nullptr && arrange->text() != nullptr && *arrange->text() == "pile";
}

/// The suit of each place of an element, as its `suits` say.
std::string suit_of_place(const game::Element* element, const pieces::CardPlace& place) {
  const game::Node* suits = element ? game::find(element->properties, "suits") : nullptr;
  if (suits == nullptr) return {};
  if (suits->text()) return place.number == 1 ? *suits->text() : std::string();
  const auto at = static_cast<std::size_t>(place.number) - 1;
  if (suits->list() == nullptr || at >= suits->list()->size()) return {};
  const std::string* text = suits->list()->at(at).text();
  return text == nullptr ? std::string() : *text;
}

Json place_info(const game::Layout& layout, const pieces::CardPlace& place) {
  const game::Element* element = element_named(layout.elements, place.element);
  const Point middle = place.map(Point{});
  const double turn = std::atan2(place.map.b, place.map.a) * 180 / std::numbers::pi;
  return {{"element", place.element},
          {"number", place.number},
          {"suit", suit_of_place(element, place)},
          {"x", hundredth(middle.x.value)},
          {"y", hundredth(middle.y.value)},
          {"turn", hundredth(turn)},
          {"width", hundredth(place.each.width.value)},
          {"height", hundredth(place.each.height.value)},
          {"turned", place.turned},
          {"pile", is_pile(element)}};
}

Json tiling_info(const game::Game& game) {
  const game::MatWishes& mat = *game.mat;
  const auto tiling = sheets::lay_tiles(mat.size, mat.overlap, game.sheets, mat.origin);
  if (!tiling) return nullptr;
  Json sheets = Json::array();
  for (const sheets::Tile& tile : tiling->tiles) {
    const Rect shown = overlap(tile.shown, Rect{{}, tiling->whole}).value_or(tile.shown);
    sheets.push_back({{"name", tile.name},
                      {"x", hundredth(shown.left().value)},
                      {"y", hundredth(shown.top().value)},
                      {"width", hundredth(shown.size.width.value)},
                      {"height", hundredth(shown.size.height.value)}});
  }
  return {{"words", sheets::tiling_words(*tiling, game.sheets.paper_name)},
          {"overlap", tiling->overlap.value},
          {"sheets", std::move(sheets)}};
}

constexpr const char* mat_file = "layouts/mat.toml";

}  // namespace

std::string mat_stamp(const Snapshot& shown) {
  if (game::mat_layout(shown.game) == nullptr) return {};
  Diagnostics said_by_the_checks;
  const pieces::Studio studio(shown.game, *shown.materials->shelf, said_by_the_checks);
  Looks looks;
  const std::string scene = looks.of(pieces::mat_scene(studio, said_by_the_checks));
  const pieces::MatPlan plan = pieces::mat_plan(shown.game);
  return fmt::format("{}{:.0f}{:.0f}{:.0f}", scene.substr(0, 20), plan.size.width.value * 10,
                     plan.size.height.value * 10, plan.ink().value * 10) +
         shown.materials->fonts_name.substr(0, 8);
}

Json mat_view(const Snapshot& shown) {
  const game::Game& game = shown.game;
  const game::Layout* layout = game::mat_layout(game);
  if (layout == nullptr) return {{"mat", nullptr}};
  Diagnostics said_by_the_checks;
  const pieces::Studio studio(game, *shown.materials->shelf, said_by_the_checks);
  const pieces::Mat mat{pieces::mat_plan(game), {}, pieces::places_of(studio), {}};
  Json places = Json::array();
  for (const pieces::CardPlace& place : mat.places) places.push_back(place_info(*layout, place));
  const auto tiling = sheets::lay_tiles(game.mat->size, game.mat->overlap, game.sheets, {});
  return {{"mat",
           {{"file", layout->file.str()},
            {"words", pack::mat_lines(game, mat, tiling ? &*tiling : nullptr)},
            {"width", mat.plan.size.width.value},
            {"height", mat.plan.size.height.value},
            {"bleed", mat.plan.ink().value},
            {"hem", mat.plan.hem.value},
            {"safe", game.mat->safe.value},
            {"places", std::move(places)},
            {"tiling", tiling_info(game)},
            {"stamp", mat_stamp(shown)}}}};
}

Bytes draw_mat_picture(const Tools& tools, const Snapshot& shown, int width) {
  Diagnostics said_by_the_checks;
  const pieces::Studio studio(shown.game, tools.shelf, said_by_the_checks);
  Scene scene = pieces::mat_scene(studio, said_by_the_checks);
  typeset(scene, tools.typesetter);
  const pieces::MatPlan plan = pieces::mat_plan(shown.game);
  const Rect all = grown(Rect{{}, plan.size}, plan.ink());
  const double ppi = width * mm_per_inch / all.size.width.value;
  ImageCanvas image(tools.shelf, all.size, ppi, ImageCanvas::Background::paper);
  image.canvas().transform(Affine::move(Point{} - all.at));
  draw(scene, image.canvas());
  return write_png(image.raster(), ppi);
}

Session::Answered begin_mat(Session& session, Diagnostics& found) {
  const std::shared_ptr<const Snapshot> shown = session.now();
  if (!shown->sight.world->read(mat_file, largest_file).ok()) {
    const auto added = job::add_files(
        session.folder(), {{mat_file, game::starter_mat_layout(shown->game)}}, mat_file);
    if (!added) {
      found = added.why();
      return {{Changed::State::refused, {}, found, {}}, shown};
    }
  }
  const auto value = [](const char* key, const char* text) {
    return Json{{"kind", "value"}, {"file", "game.toml"}, {"path", {"mat", key}}, {"value", text}};
  };
  const Json edit{{"base", shown->revision},
                  {"label", "a mat"},
                  {"changes", {value("size", "A2"), value("layout", mat_file)}}};
  return session.edit(shown->revision, edit);
}

}  // namespace quoin::desk
