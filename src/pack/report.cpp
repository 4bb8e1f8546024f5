#include "pack/report.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "pack/card_files.h"
#include "pack/making_report.h"
#include "pack/mat_files.h"
#include "pieces/box/check_box.h"

namespace quoin::pack {
namespace {

using Json = nlohmann::ordered_json;

Json place(const Diagnostic& found) {
  Json json = Json::object();
  if (!found.origin.file.empty()) json["file"] = found.origin.file.str();
  if (found.origin.line > 0) json["line"] = found.origin.line;
  if (found.origin.column > 0) json["column"] = found.origin.column;
  if (found.origin.length > 0) json["length"] = found.origin.length;
  if (!found.place.piece.empty()) json["piece"] = found.place.piece;
  if (!found.place.element.empty()) json["element"] = found.place.element;
  return json;
}

Json findings(const Diagnostics& found) {
  Json list = Json::array();
  for (const Diagnostic& one : found) {
    list.push_back({{"id", facts(one.id).name},
                    {"severity", to_string(one.severity)},
                    {"place", place(one)},
                    {"message", one.message},
                    {"details", one.details},
                    {"hints", one.hints}});
  }
  return list;
}

Json size(Size s) { return {{"width_mm", s.width.value}, {"height_mm", s.height.value}}; }

Json sheets_json(const sheets::Plan& plan, const making::Tolerances* tolerances) {
  Json json = {{"paper", plan.wishes.paper_name},
               {"size", size(plan.grid.paper)},
               {"columns", plan.grid.columns},
               {"rows", plan.grid.rows},
               {"turned", plan.grid.turned},
               {"gutter_mm", {plan.grid.gutter_x.value, plan.grid.gutter_y.value}},
               {"sheets", plan.sheets.size()},
               {"backs_interchangeable", plan.backs_interchangeable},
               {"why", plan.choices}};
  if (tolerances) json["spare_sheets"] = tolerances->spare_sheets;
  return json;
}

Json range(const pieces::Range& lengths) {
  return {lengths.low.value, lengths.typical.value, lengths.high.value};
}

Json block(const fold::Block& size) {
  return {size.width.value, size.height.value, size.depth.value};
}

Json panels(const pieces::Box& box, fold::PanelRef a, fold::PanelRef b) {
  return {fold::panel(box.model, a).name, fold::panel(box.model, b).name};
}

/// What the deck has to spare: on each axis from the thickest deck to the thinnest.
Json clearance(const pieces::Box& box) {
  const fold::Block &room = box.fit.clear.size, low = pieces::thinnest(box.deck),
                    high = pieces::thickest(box.deck);
  const auto axis = [](Mm inside, Mm most, Mm least) {
    return Json{(inside - most).value, (inside - least).value};
  };
  return {axis(room.width, high.width, low.width), axis(room.height, high.height, low.height),
          axis(room.depth, high.depth, low.depth)};
}

/// What was measured on the folded box: gaps are negative where panels overlap.
Json fit_json(const pieces::Box& box) {
  Json gaps = Json::array(), seams = Json::array(), grips = Json::array();
  Mm largest, overlap;
  for (const fold::Gap& each : box.fit.gaps) {
    gaps.push_back({{"between", panels(box, each.a, each.b)}, {"gap_mm", each.width.value}});
    largest = std::max(largest, each.width);
    overlap = std::max(overlap, -each.width);
  }
  for (const fold::Contact& each : box.fit.seams) {
    seams.push_back({{"between", panels(box, each.flap, each.onto)},
                     {"glued_mm2", each.area},
                     {"of_mm2", each.of}});
  }
  for (const fold::Grip& each : box.fit.grips) {
    grips.push_back(
        {{"between", panels(box, each.flap, each.behind)}, {"depth_mm", each.depth.value}});
  }
  return {{"largest_gap_mm", largest.value},
          {"largest_overlap_mm", overlap.value},
          {"gaps", std::move(gaps)},
          {"seams", std::move(seams)},
          {"grips", std::move(grips)}};
}

Json box_sheets_json(const BoxSheets& laid) {
  Json list = Json::array();
  for (const NetSheet& sheet : laid.sheets) {
    list.push_back(
        {{"size", size(sheet.paper)}, {"nets", sheet.nets.size()}, {"times", sheet.times}});
  }
  return list;
}

/// Sizes are width, height and through the pile; ranges are least, typical and most.
Json box_json(const pieces::Box& box, const BoxSheets* laid) {
  Json json = {{"kind", box.kind->word},
               {"nets", box.model.parts.size()},
               {"deck_height_mm", range(box.deck.height)},
               {"board_mm", range(box.board)},
               {"inside_mm", block(box.fit.clear.size)},
               {"clearance_mm", clearance(box)},
               {"outside_mm", block(box.fit.outside)},
               {"creasing_channel_mm", pieces::crease_width(box.plan.board).value}};
  json.update(fit_json(box));
  if (laid != nullptr) json["sheets"] = box_sheets_json(*laid);
  return json;
}

Json tiling_json(const sheets::Tiling& tiling, const game::Game& game) {
  return {{"paper", game.sheets.paper_name}, {"size", size(tiling.paper)},
          {"columns", tiling.columns},       {"rows", tiling.rows},
          {"sheets", tiling.tiles.size()},   {"overlap_mm", tiling.overlap.value}};
}

Json mat_json(const game::Game& game, const pieces::Mat& mat, const sheets::Tiling* tiling) {
  const ShopMat shop = shop_mat_sizes(game, mat);
  const bool cloth = game.mat->material == game::MatMaterial::cloth;
  Json json = {{"size", size(mat.plan.size)},
               {"material", cloth ? "cloth" : "paper"},
               {"places", mat.places.size()},
               {"bleed_mm", mat.plan.bleed.value},
               {"hem_mm", mat.plan.hem.value},
               {"shop",
                {{"cut", size(shop.cut)},
                 {"drawn_larger", {shop.across, shop.down}},
                 {"between_hems", size(shop.finished)}}}};
  if (tiling != nullptr) json["sheets"] = tiling_json(*tiling, game);
  return json;
}

/// The rules: sizes folded and open, the type in points, and why they are as they are.
Json rules_json(const rules::Leaflet& leaflet, const RulesSheets* laid) {
  const rules::Form& form = leaflet.form;
  Json json = {{"form", game::rules_form_word(form.kind)},
               {"panels", form.panels},
               {"leaves", form.leaves},
               {"pages", form.page_count()},
               {"pages_filled", leaflet.filled},
               {"page", size(form.page)},
               {"folded", size(form.folded)},
               {"thickness_mm", form.thickness.value},
               {"type_pt", leaflet.type.value * points_per_inch / mm_per_inch},
               {"words", leaflet.words},
               {"why", leaflet.choices}};
  if (laid != nullptr) json["sheets"] = laid->count();
  return json;
}

}  // namespace

Bytes report_json(const Report& report) {
  const Counts counts = count(report.found);
  Json json;
  json["quoin"] = QUOIN_VERSION;
  json["game"] = {{"title", report.game.title}, {"language", report.game.language}};
  json["card"] = {{"size", size(report.game.card.size)},
                  {"corner_mm", report.game.card.corner.value},
                  {"bleed_mm", report.game.card.bleed.value},
                  {"safe_mm", report.game.card.safe.value}};
  json["stock"] = stock_words(report.game.stock);
  json["counts"] = {{"rows", report.totals.rows},
                    {"cards", report.totals.cards},
                    {"pieces", report.totals.pieces},
                    {"backs", report.totals.backs},
                    {"sheets", report.totals.sheets}};
  if (report.plan) json["sheets"] = sheets_json(*report.plan, report.tolerances);
  if (report.box) json["box"] = box_json(*report.box, report.box_sheets);
  if (report.mat) json["mat"] = mat_json(report.game, *report.mat, report.mat_tiling);
  if (report.rules) json["rules"] = rules_json(*report.rules, report.rules_sheets);
  if (report.cutting) json["cutting"] = cutting_json(*report.cutting);
  if (report.tolerances && report.faces) {
    json["tolerance"] = tolerance_json(*report.tolerances, *report.faces);
  }
  if (report.costs && !report.costs->runs.empty()) {
    json["costs"] = costs_json(report.game, *report.costs);
  }
  json["errors"] = counts.errors;
  json["warnings"] = counts.warnings;
  json["notes"] = counts.notes;
  json["found"] = findings(report.found);
  json["files"] = Json::array();
  for (const Staging::File& file : report.files) {
    json["files"].push_back({{"path", file.path}, {"bytes", file.bytes}});
  }
  // Texts of the maker's may hold anything; what is not UTF-8 is replaced, never thrown.
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

Bytes findings_json(const Diagnostics& found) { return findings(found).dump(); }

}  // namespace quoin::pack
