#include "desk/rules_view.h"

#include <cmath>

#include "base/packed.h"
#include "desk/views.h"
#include "formats/png/png.h"
#include "pack/rules_files.h"
#include "rules/folding.h"

namespace quoin::desk {
namespace {

/// Pages beyond these are not drawn: the findings say that the text is far too long.
constexpr std::size_t most_pages = 60;

Checked<std::optional<rules::Leaflet>> leaflet_of(const Tools& tools, const game::Game& game) {
  Diagnostics told_elsewhere;  // of symbols and colours, with the cards
  const pieces::Studio studio(game, tools.shelf, told_elsewhere);
  return rules::make_leaflet(studio, tools.typesetter, pack::rules_rooms(game),
                             game::credits(game));
}

std::string_view verdict_word(rules::Option::Verdict verdict) {
  switch (verdict) {
    case rules::Option::Verdict::chosen:
      return "chosen";
    case rules::Option::Verdict::too_few_pages:
      return "too-few-pages";
    case rules::Option::Verdict::larger_than_sheet:
      return "larger-than-sheet";
    default:
      return "more-work";
  }
}

Json extent_view(Size size) { return {{"width", size.width.value}, {"height", size.height.value}}; }

double points_of(Mm size) { return size.value * points_per_inch / mm_per_inch; }

Json options_view(const rules::Leaflet& leaflet) {
  Json options = Json::array();
  for (const rules::Option& one : leaflet.options) {
    options.push_back({{"kind", game::rules_form_word(one.kind)},
                       {"panels", one.panels},
                       {"leaves", one.leaves},
                       {"pages", one.pages},
                       {"needed", one.needed},
                       {"verdict", verdict_word(one.verdict)},
                       {"words", one.words}});
  }
  return options;
}

Json form_view(const Tools& tools, const game::Game& game, const rules::Leaflet& leaflet) {
  const rules::Form& form = leaflet.form;
  const pack::RulesSheets laid = pack::lay_rules(game, leaflet, 1);
  Json steps = Json::array();
  for (const rules::FoldingStep& step : rules::folding_steps(form, tools.typesetter)) {
    steps.push_back(step.words);
  }
  return {{"kind", game::rules_form_word(form.kind)},
          {"panels", form.panels},
          {"leaves", form.leaves},
          {"bothSides", form.sides == rules::Form::Sides::both},
          {"words", rules::form_words(form)},
          {"pages", form.page_count()},
          {"shown", std::min(leaflet.pages.size(), most_pages)},
          {"filled", leaflet.filled},
          {"page", extent_view(form.page)},
          {"folded", extent_view(form.folded)},
          {"thickness", form.thickness.value},
          {"type", points_of(leaflet.type)},
          {"sheets", laid.count()},
          {"sheet", laid.sheets.empty() ? Json(nullptr) : extent_view(laid.sheets.front().paper)},
          {"why", leaflet.choices},
          {"options", options_view(leaflet)},
          {"steps", steps}};
}

Json asked_view(const std::optional<game::RulesWishes>& wishes) {
  Json asked = {{"form", nullptr}, {"panels", nullptr}, {"type", nullptr}};
  if (!wishes) return asked;
  if (wishes->form != game::RulesForm::automatic)
    asked["form"] = game::rules_form_word(wishes->form);
  if (wishes->panels) asked["panels"] = *wishes->panels;
  if (wishes->type) asked["type"] = points_of(*wishes->type);
  return asked;
}

Bytes png_of(const Tools& tools, Size size, int width, const std::function<void(Canvas&)>& draw) {
  const double ppi = width * mm_per_inch / size.width.value;
  ImageCanvas image(tools.shelf, size, ppi, ImageCanvas::Background::paper);
  draw(image.canvas());
  return write_png(image.raster(), ppi);
}

}  // namespace

Bytes rules_info(const Tools& tools, const Snapshot& shown) {
  const std::optional<game::RulesWishes>& wishes = shown.game.rules;
  Json view{{"revision", shown.revision},
            {"file", wishes ? wishes->file.str() : std::string(game::usual_rules_file)},
            {"text", nullptr},
            {"asked", asked_view(wishes)},
            {"form", nullptr},
            {"counts", Json::array()},
            {"symbols", Json::array()},
            {"findings", Json::array()}};
  for (const game::Symbol& symbol : shown.game.symbols) view["symbols"].push_back(symbol.name);
  if (!wishes) return written(view);
  view["text"] = *wishes->text;
  const Checked<std::optional<rules::Leaflet>> made = leaflet_of(tools, shown.game);
  view["findings"] = findings_view(in_order(made.found), *shown.sight.world);
  if (!made.value) return written(view);
  view["form"] = form_view(tools, shown.game, *made.value);
  for (const rules::CountUse& count : made.value->counts) {
    view["counts"].push_back({{"written", count.written}, {"cards", count.cards}});
  }
  return written(view);
}

Bytes draw_rules_pages(const Tools& tools, const Snapshot& shown, int width) {
  const auto made = leaflet_of(tools, shown.game);
  PackedWriter pictures;
  const std::size_t count = made.value ? std::min(made.value->pages.size(), most_pages) : 0;
  pictures.number(count);
  for (std::size_t i = 0; i < count; ++i) {
    pictures.string(png_of(tools, made.value->form.page, width,
                           [&](Canvas& canvas) { draw(made.value->pages[i], canvas); }));
  }
  return pictures.take();
}

Bytes draw_rules_steps(const Tools& tools, const Snapshot& shown, int width) {
  const auto made = leaflet_of(tools, shown.game);
  PackedWriter pictures;
  std::vector<rules::FoldingStep> steps;
  if (made.value) steps = rules::folding_steps(made.value->form, tools.typesetter);
  Size room;  // the same for all, so that what is folded is seen to be smaller
  for (const rules::FoldingStep& step : steps) {
    room.width = std::max(room.width, step.picture.bounds.size.width);
    room.height = std::max(room.height, step.picture.bounds.size.height);
  }
  pictures.number(steps.size());
  for (const rules::FoldingStep& step : steps) {
    const Rect& seen = step.picture.bounds;
    const Vec to{(room.width - seen.size.width) / 2, room.height - seen.size.height};
    pictures.string(png_of(tools, room, width, [&](Canvas& canvas) {
      canvas.transform(Affine::move(Point{} - seen.at + to));
      draw(step.picture.scene, canvas);
    }));
  }
  return pictures.take();
}

Bytes draw_rules_sheets(const Tools& tools, const Snapshot& shown, int width) {
  const auto made = leaflet_of(tools, shown.game);
  PackedWriter pictures;
  if (!made.value) {
    pictures.number(0);
    return pictures.take();
  }
  const rules::Leaflet& leaflet = *made.value;
  Document home = pack::home_rules(shown.game, leaflet, pack::lay_rules(shown.game, leaflet, 1));
  const std::size_t sides = leaflet.form.sides == rules::Form::Sides::both ? 2 : 1;
  const std::size_t count = std::min(home.pages.size(), sides);
  pictures.number(count);
  for (std::size_t i = 0; i < count; ++i) {
    Page& page = home.pages[i];
    typeset(page.own, tools.typesetter);
    pictures.string(png_of(tools, page.media, width, [&](Canvas& canvas) {
      for (const Placement& placed : page.placements) {
        canvas.save();
        canvas.clip(Path::rectangle(placed.window));
        canvas.transform(placed.map);
        draw(leaflet.pages[static_cast<std::size_t>(placed.symbol)], canvas);
        canvas.restore();
      }
      draw(page.own, canvas);
    }));
  }
  return pictures.take();
}

std::optional<Bytes> picture_in(const Bytes& pictures, std::size_t index) {
  PackedReader reader(pictures);
  const std::size_t count = reader.number();
  if (index >= count) return std::nullopt;
  for (std::size_t i = 0; i < index; ++i) (void)reader.string();
  return Bytes(reader.string());
}

}  // namespace quoin::desk
