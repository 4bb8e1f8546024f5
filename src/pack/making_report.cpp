#include "pack/making_report.h"

#include <cmath>

#include "cut/simulate.h"
#include "making/cut_steps.h"

namespace quoin::pack {
namespace {

using Json = nlohmann::ordered_json;

/// What a sum or a chance is worth: the last digits differ from machine to machine.
double hundredths(Mm length) { return std::round(length.value * 100) / 100; }
double thousandths(double value) { return std::round(value * 1000) / 1000; }
double cents(double sum) { return std::round(sum * 100) / 100; }

Json rect(Rect r) {
  return {hundredths(r.left()), hundredths(r.top()), hundredths(r.right()), hundredths(r.bottom())};
}

Json step_json(const cut::Step& step, const std::string& words) {
  const cut::Cut& first = step.cuts.front();
  const bool by_mark = first.found == cut::Found::by_mark;
  Json json = {{"words", words},
               {"quarter_turns", step.quarter_turns},
               {"found_by", by_mark ? "mark" : "fence"}};
  if (!by_mark) json["setting_mm"] = hundredths(first.setting);
  json["cuts"] = Json::array();
  for (const cut::Cut& cut : step.cuts) {
    json["cuts"].push_back({{"run", cut.run == cut::Run::down ? "down" : "across"},
                            {"at_mm", hundredths(cut.at)},
                            {"through_mm", rect(cut.through)}});
  }
  return json;
}

Json kind_json(const making::Cutting& cutting, const making::SheetKind& kind) {
  Json json = {
      {"words", making::kind_words(kind)},
      {"sheets", Json::array()},
      {"cards", kind.pieces},
      {"at_once", kind.piling.at_once},
      {"stacks", kind.piling.piles},
      {"cuts", kind.cuts.cuts},
      {"settings", kind.cuts.settings},
      {"worst_edge_mm", hundredths(cut::worst_edge(cut::edge_errors(kind.cuts, cutting.tool)) * 2)},
      {"steps", Json::array()}};
  for (const int sheet : kind.sheets) json["sheets"].push_back(sheet + 1);
  const std::vector<std::string> words = making::step_words(cutting, kind);
  for (std::size_t i = 0; i < words.size(); ++i) {
    json["steps"].push_back(step_json(kind.cuts.steps[i], words[i]));
  }
  return json;
}

Json net_json(const making::NetWork& net) {
  return {{"net", net.name},
          {"times", net.boxes},
          {"knife_cuts", net.cuts},
          {"curves", net.curves},
          {"cut_mm", hundredths(net.cut_length)},
          {"creases", net.creases},
          {"crease_mm", hundredths(net.crease_length)},
          {"seams", net.seams},
          {"glued_mm2", std::round(net.glued)}};
}

Json plates(const std::array<double, 4>& ink) {
  return {{"cyan", thousandths(ink[0])},
          {"magenta", thousandths(ink[1])},
          {"yellow", thousandths(ink[2])},
          {"black", thousandths(ink[3])}};
}

Json chances_json(const press::Chances& chances) {
  return {{"white_edge", thousandths(chances.white_edge)},
          {"lopsided_border", thousandths(chances.lopsided)},
          {"clipped", thousandths(chances.clipped)}};
}

Json needed_json(const making::SideTolerance& side) {
  return {{"bleed_mm", hundredths(side.needed.bleed)},
          {"border_mm", hundredths(side.needed.border)},
          {"safe_mm", hundredths(side.needed.safe)}};
}

Json run_json(const making::RunCosts& run) {
  Json json = {{"decks", run.decks},
               {"sheets", run.stuff.sheets},
               {"spare_sheets", run.stuff.spare_sheets},
               {"board_sheets", run.stuff.board_sheets},
               {"rules_sheets", run.stuff.rules_sheets},
               {"mat_sheets", run.stuff.mat_sheets},
               {"ink_cover", plates(run.stuff.cover)},
               {"ink_a4_sides", plates(run.stuff.ink)},
               {"glue_ml", thousandths(run.stuff.glue)},
               {"sleeves", run.stuff.sleeves},
               {"lines", Json::array()},
               {"not_priced", run.not_priced},
               {"sum", cents(run.sum)},
               {"each", cents(run.each())},
               {"seconds",
                {{"print", std::round(run.work.print)},
                 {"cut", std::round(run.work.cut)},
                 {"round", std::round(run.work.round)},
                 {"box", std::round(run.work.box)},
                 {"rules", std::round(run.work.rules)},
                 {"mat", std::round(run.work.mat)}}}};
  for (const making::CostLine& line : run.lines) {
    json["lines"].push_back(
        {{"what", line.what}, {"amount", thousandths(line.amount)}, {"sum", cents(line.sum)}});
  }
  return json;
}

}  // namespace

Json cutting_json(const making::Cutting& cutting) {
  Json json = {
      {"tool", cut::to_string(cutting.tool.kind)},
      {"fence", cutting.has_fence},
      {"sheet_mm", thousandths(cutting.sheet.value)},
      {"kinds", Json::array()},
      {"corners",
       {{"punches", cutting.corners.punches}, {"radius_mm", hundredths(cutting.corners.radius)}}},
      {"nets", Json::array()}};
  for (const making::SheetKind& kind : cutting.kinds) {
    json["kinds"].push_back(kind_json(cutting, kind));
  }
  for (const making::NetWork& net : cutting.nets) json["nets"].push_back(net_json(net));
  return json;
}

Json tolerance_json(const making::Tolerances& tolerances,
                    const std::vector<making::FaceFacts>& faces) {
  Json json = {{"register_within_mm", hundredths(tolerances.registration.shift * 2)},
               {"register_assumed", tolerances.registration.is_assumed},
               {"cut_within_mm", hundredths(tolerances.cut_within)},
               {"feed_within_mm", hundredths(tolerances.feed * 2)},
               {"rough_corners", thousandths(tolerances.rough_corners)},
               {"spoilt", thousandths(tolerances.spoilt)},
               {"spoilt_at_most", tolerances.spoilt_at_most},
               {"spares_of_each", tolerances.spares},
               {"fronts_need", needed_json(tolerances.front)},
               {"backs_need", needed_json(tolerances.back)},
               {"faces", Json::array()}};
  for (std::size_t i = 0; i < faces.size() && i < tolerances.faces.size(); ++i) {
    const pieces::FaceMeasure& measure = faces[i].measure;
    Json face = {{"piece", faces[i].piece}};
    if (measure.border) face["border_mm"] = hundredths(measure.border->width);
    if (measure.kept < pieces::FaceMeasure::far) face["kept_mm"] = hundredths(measure.kept);
    face.update(chances_json(tolerances.faces[i].chances));
    json["faces"].push_back(std::move(face));
  }
  return json;
}

Json costs_json(const game::Game& game, const making::Costs& costs) {
  Json json = {{"currency", game.making.prices.currency},
               {"example_prices", game.making.prices.is_example},
               {"runs", Json::array()},
               {"quotations", Json::array()}};
  for (const making::RunCosts& run : costs.runs) json["runs"].push_back(run_json(run));
  for (const making::QuotedCosts& quoted : costs.quoted) {
    json["quotations"].push_back({{"name", quoted.quotation.name},
                                  {"decks", quoted.quotation.decks},
                                  {"price", quoted.quotation.price},
                                  {"each", cents(quoted.each)},
                                  {"note", quoted.quotation.note}});
  }
  return json;
}

}  // namespace quoin::pack
