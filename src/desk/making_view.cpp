#include "desk/making_view.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/hash.h"
#include "making/back_register.h"
#include "making/costs.h"
#include "making/cut_steps.h"
#include "making/hand_work.h"
#include "making/likely_cuts.h"
#include "pieces/card/face.h"

namespace quoin::desk {
namespace {

/// The cloud of a face is the same each time that it is looked at.
constexpr std::uint64_t cloud_seed = 1;

template <typename T>
Json or_null(const std::optional<T>& value) {
  return value ? Json(*value) : Json(nullptr);
}
Json or_null(const std::optional<Mm>& length) {
  return length ? Json(length->value) : Json(nullptr);
}

std::string_view tool_word(game::CuttingTool tool) {
  switch (tool) {
    case game::CuttingTool::guillotine:
      return "guillotine";
    case game::CuttingTool::knife_and_rule:
      return "knife and rule";
    case game::CuttingTool::rotary_trimmer:
      break;
  }
  return "rotary trimmer";
}

Json wishes_view(const game::CuttingWishes& wishes) {
  const bool is_drifting = wishes.order == game::CuttingOrder::least_drift;
  return {{"tool", tool_word(wishes.tool)},
          {"stack", or_null(wishes.stack)},
          {"stack-sheets", or_null(wishes.stack_sheets)},
          {"repeatability", or_null(wishes.repeatability)},
          {"fence", or_null(wishes.has_fence)},
          {"order", is_drifting ? "least-drift" : "fewest-settings"},
          {"corner-punch", or_null(wishes.punch)},
          {"corner-stray", or_null(wishes.punch_within)},
          {"target", wishes.target},
          {"evenness", wishes.evenness}};
}

Json steps_view(const making::Cutting& cutting, const making::SheetKind& kind) {
  const std::vector<std::string> words = making::step_words(cutting, kind);
  Json steps = Json::array();
  for (std::size_t i = 0; i < words.size(); ++i) {
    const cut::Step& step = kind.cuts.steps[i];
    const cut::Cut& first = step.cuts.front();
    const bool is_set = first.found == cut::Found::by_fence;
    steps.push_back(
        {{"words", words[i]},
         {"setting", is_set ? Json(fmt::format("{:.1f}", first.setting.value)) : Json(nullptr)},
         {"cuts", step.cuts.size()},
         {"turn", step.quarter_turns}});
  }
  return steps;
}

Json kinds_view(const making::Cutting& cutting) {
  Json kinds = Json::array();
  for (const making::SheetKind& kind : cutting.kinds) {
    kinds.push_back({{"words", making::kind_words(kind)},
                     {"sheets", kind.sheets},
                     {"pieces", kind.pieces},
                     {"atOnce", kind.piling.at_once},
                     {"stacks", kind.piling.piles},
                     {"steps", steps_view(cutting, kind)}});
  }
  return kinds;
}

Json hand_view(const making::Cutting& cutting) {
  Json steps = Json::array();
  for (const making::HandStep& step : making::hand_steps(cutting)) {
    steps.push_back({{"kind", making::to_string(step.kind)},
                     {"title", step.title},
                     {"words", step.words},
                     {"count", step.count},
                     {"net", step.net < 0 ? Json(nullptr) : Json(step.net)}});
  }
  return steps;
}

Json cautions_view(const making::Cutting& cutting) {
  std::vector<std::string> cautions = making::blade_cautions();
  if (!cutting.nets.empty()) {
    for (std::string& one : making::glue_cautions()) cautions.push_back(std::move(one));
  }
  return cautions;
}

Json cutting_view(const job::Making& made) {
  const making::Cutting& cutting = made.cutting;
  const making::CutTotals totals = making::totals(cutting);
  Json kinds = kinds_view(cutting), hand = hand_view(cutting);
  const std::string stamp = sha256(kinds.dump() + hand.dump()).substr(0, 20);
  const bool is_timed = !made.costs.runs.empty();
  return {{"stamp", stamp},
          {"tool", tool_word(cutting.kind)},
          {"fence", cutting.has_fence},
          {"cuts", totals.cuts},
          {"stacks", totals.piles},
          {"settings", totals.settings},
          {"time", is_timed ? making::work_words(made.costs.runs.front().work) : ""},
          {"spares", cutting.kinds.empty() ? "" : making::spares_words(made.tolerances)},
          {"kinds", std::move(kinds)},
          {"hand", std::move(hand)},
          {"cautions", cautions_view(cutting)}};
}

Json costs_view(const making::CostTable& table) {
  Json groups = Json::array();
  for (const making::CostTable::Group& group : table.groups) {
    Json rows = Json::array();
    for (const making::CostTable::Row& row : group.rows) {
      rows.push_back({{"what", row.what}, {"values", row.values}, {"sum", row.is_sum}});
    }
    groups.push_back({{"title", group.title}, {"rows", std::move(rows)}});
  }
  return {{"decks", table.decks},
          {"groups", std::move(groups)},
          {"quotations", table.quotations},
          {"notes", table.notes}};
}

Json register_view(const job::Outcome& outcome) {
  if (!outcome.plan) return nullptr;
  const auto backs = making::back_register(outcome.game, *outcome.plan, outcome.printer);
  if (!backs) return nullptr;
  Json bands = Json::array();
  for (const making::BackBand& band : backs->bands) {
    bands.push_back({{"trim",
                      {{"x", band.trim.at.x.value},
                       {"y", band.trim.at.y.value},
                       {"width", band.trim.size.width.value},
                       {"height", band.trim.size.height.value}}},
                     {"reachX", band.reach_x.value},
                     {"reachY", band.reach_y.value}});
  }
  return {{"known", making::to_string(backs->known)},
          {"printer", backs->printer},
          {"corrected", backs->is_corrected},
          {"words", making::register_words(*backs)},
          {"bands", std::move(bands)}};
}

}  // namespace

Json making_view(const Snapshot& shown) {
  Json view{{"revision", shown.revision},
            {"wishes", wishes_view(shown.game.making.cutting)},
            {"cutting", nullptr},
            {"costs", nullptr},
            {"register", nullptr}};
  if (!shown.checkup) return view;
  const job::Outcome& outcome = shown.checkup->outcome;
  view["register"] = register_view(outcome);
  if (!outcome.making) return view;
  view["cutting"] = cutting_view(*outcome.making);
  if (!outcome.making->costs.runs.empty()) {
    view["costs"] = costs_view(making::cost_table(outcome.game, outcome.making->costs));
  }
  return view;
}

std::optional<Json> likely_cuts_view(const Snapshot& shown, const Face& face, NoCuts& why) {
  const job::Outcome* outcome = shown.checkup ? &shown.checkup->outcome : nullptr;
  if (outcome == nullptr || !outcome->making || outcome->making->cutting.kinds.empty()) {
    why = {"there is no plan for cutting these sheets", "see what the checks found"};
    return std::nullopt;
  }
  const job::Making& made = *outcome->making;
  const auto found = std::ranges::find_if(made.faces, [&](const making::FaceFacts& one) {
    return one.piece == face.piece && one.is_back == face.is_back;
  });
  if (found == made.faces.end()) {
    why = {fmt::format("{} lies on no sheet", face.piece), "give it a copy in the list"};
    return std::nullopt;
  }
  const auto index = static_cast<std::size_t>(found - made.faces.begin());
  const making::FaceTolerance& tolerance = made.tolerances.faces[index];
  const making::SideTolerance& side = face.is_back ? made.tolerances.back : made.tolerances.front;
  Json cuts = Json::array(), remedies = Json::array();
  for (const making::FallenCut& cut :
       making::fallen_cuts(tolerance, side.worst, making::usual_fallen_cuts, cloud_seed)) {
    Json corners = Json::array();
    for (const Point corner : cut) {
      corners.push_back(corner.x.value);
      corners.push_back(corner.y.value);
    }
    cuts.push_back(std::move(corners));
  }
  const game::Game& game = outcome->game;
  const Mm bleed = face.is_back ? pieces::back_bleed(game) : game.card.bleed;
  const double target = game.making.cutting.target;
  for (const making::Remedy& one : making::remedies(*found, tolerance, side, target)) {
    remedies.push_back(
        {{"what", one.what}, {"has", one.has}, {"needs", one.needs}, {"enough", one.is_enough}});
  }
  return Json{{"key", face.key},
              {"cuts", std::move(cuts)},
              {"bleed", bleed.value},
              {"chances", making::chance_words(*found, tolerance)},
              {"rare", making::in_words(target)},
              {"remedies", std::move(remedies)}};
}

}  // namespace quoin::desk
