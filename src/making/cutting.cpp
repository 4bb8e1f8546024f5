#include "making/cutting.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "cut/simulate.h"
#include "pieces/box/stack.h"
#include "sheets/wording.h"

namespace quoin::making {
namespace {

constexpr Mm usual_card{0.3};

cut::ToolKind kind_of(game::CuttingTool tool) {
  switch (tool) {
    case game::CuttingTool::guillotine:
      return cut::ToolKind::guillotine;
    case game::CuttingTool::knife_and_rule:
      return cut::ToolKind::knife_and_rule;
    case game::CuttingTool::rotary_trimmer:
      break;
  }
  return cut::ToolKind::rotary_trimmer;
}

/// Sheets with pieces in the same places, the fullest first.
std::vector<SheetKind> kinds_of(const sheets::Plan& plan) {
  std::map<std::vector<bool>, SheetKind> kinds;
  for (std::size_t i = 0; i < plan.sheets.size(); ++i) {
    std::vector<bool> taken;
    for (const int copy : plan.sheets[i].copies) taken.push_back(copy >= 0);
    SheetKind& kind = kinds[taken];
    kind.sheets.push_back(static_cast<int>(i));
    kind.pieces = static_cast<int>(std::count(taken.begin(), taken.end(), true));
  }
  std::vector<SheetKind> all;
  for (auto& [taken, kind] : kinds) {
    if (kind.pieces > 0) all.push_back(std::move(kind));
  }
  std::stable_sort(all.begin(), all.end(), [](const SheetKind& a, const SheetKind& b) {
    return a.pieces != b.pieces ? a.pieces > b.pieces : a.sheets.front() < b.sheets.front();
  });
  return all;
}

/// True when every place that `b` fills is filled on `a` too.
bool covers(const sheets::Sheet& a, const sheets::Sheet& b) {
  for (std::size_t i = 0; i < b.copies.size(); ++i) {
    if (b.copies[i] >= 0 && (i >= a.copies.size() || a.copies[i] < 0)) return false;
  }
  return true;
}

/// A sheet that is not full goes under the blade with fuller ones when no stack more comes of it.
std::vector<SheetKind> ridden(std::vector<SheetKind> kinds, const sheets::Plan& plan,
                              const Cutting& cutting) {
  std::vector<SheetKind> kept;
  const auto piles = [&](std::size_t sheets) {
    return cut::piling(static_cast<int>(sheets), cutting.sheet, cutting.tool).piles;
  };
  const auto first_of = [&](const SheetKind& kind) -> const sheets::Sheet& {
    return plan.sheets[static_cast<std::size_t>(kind.sheets.front())];
  };
  for (SheetKind& kind : kinds) {
    const auto host = std::find_if(kept.begin(), kept.end(), [&](const SheetKind& fuller) {
      return piles(fuller.sheets.size() + kind.sheets.size()) == piles(fuller.sheets.size()) &&
             covers(first_of(fuller), first_of(kind));
    });
    if (host == kept.end()) {
      kept.push_back(std::move(kind));
      continue;
    }
    host->sheets.insert(host->sheets.end(), kind.sheets.begin(), kind.sheets.end());
    host->riding_along += static_cast<int>(kind.sheets.size());
  }
  return kept;
}

bool has_fresh_edges(const cut::Grid& grid) {
  const Rect block = cut::block_of(grid);
  return block.left() > epsilon && block.top() > epsilon;
}

Diagnostic no_fresh_edge(const sheets::Plan& plan) {
  const cut::Grid grid = cut_grid(plan.grid, {});
  const Rect block = cut::block_of(grid);
  Diagnostic problem(
      Id::cutting_no_fresh_edge, plan.wishes.origin,
      fmt::format("the outermost cards end {} from the left and {} from the top of the paper, so "
                  "there is nothing to cut off",
                  sheets::millimetres(block.left()), sheets::millimetres(block.top())));
  problem.detail("there is no cut plan, since no edge of the paper is true enough to measure from");
  return problem.hint("use a larger paper, or fewer columns or rows: grid = \"2x3\"");
}

/// More paper at once than is usual for the tool.
void check_pile(const game::CuttingWishes& wishes, const Cutting& cutting, Diagnostics& found) {
  const cut::Tool usual = cut::usual(cutting.tool.kind);
  const int most = cut::piling(1'000'000, cutting.sheet, usual).at_once;
  const int asked = cut::piling(1'000'000, cutting.sheet, cutting.tool).at_once;
  const bool is_used = std::any_of(cutting.kinds.begin(), cutting.kinds.end(),
                                   [&](const SheetKind& k) { return k.piling.at_once > most; });
  if (asked <= most || !is_used) return;
  const std::string_view name = cut::to_string(usual.kind);
  Diagnostic problem(Id::cutting_pile_too_high, wishes.stack_origin,
                     fmt::format("{} are {:.1f} mm high, and a {} goes through {} cleanly",
                                 sheets::counted(asked, "sheet"), cutting.sheet.value * asked, name,
                                 most == 1 ? "one" : sheets::counted(most, "sheet")));
  problem.detail("the lower sheets slip while they are cut");
  found.push_back(problem.hint(fmt::format("write stack-sheets = {}", most)));
}

void check_strips(const game::CuttingWishes& wishes, const Cutting& cutting, Diagnostics& found) {
  if (!cutting.has_fence) return;
  Mm narrowest = cutting.tool.least_held;
  for (const SheetKind& kind : cutting.kinds) {
    for (const cut::Step& step : kind.cuts.steps) {
      for (const cut::Cut& cut : step.cuts) {
        if (cut.found == cut::Found::by_fence) narrowest = std::min(narrowest, cut.setting);
      }
    }
  }
  if (narrowest >= cutting.tool.least_held - epsilon) return;
  Diagnostic problem(
      Id::cutting_narrow_strip, wishes.origin,
      fmt::format("a strip of {:.1f} mm is held against the fence, and a {} holds {:.0f} mm or "
                  "more firmly",
                  narrowest.value, cut::to_string(cutting.tool.kind),
                  cutting.tool.least_held.value));
  found.push_back(problem.hint("cut that strip with knife and rule"));
}

void check_punch(const game::Game& game, Diagnostics& found) {
  const game::CuttingWishes& wishes = game.making.cutting;
  if (!wishes.punch || nearly_equal(*wishes.punch, game.card.corner)) return;
  const std::string corner = sheets::millimetres(game.card.corner);
  if (*wishes.punch <= epsilon) {
    Diagnostic problem(
        Id::cutting_no_punch, wishes.punch_origin,
        fmt::format("the cards have corners of {}, and there is no punch for them", corner));
    found.push_back(problem.hint("write corner = 0 under [card] for square corners"));
    return;
  }
  if (game.card.corner <= epsilon) return;  // nothing is punched
  Diagnostic problem(Id::cutting_punch_differs, wishes.punch_origin,
                     fmt::format("the punch cuts corners of {}, and the cards are drawn with {}",
                                 sheets::millimetres(*wishes.punch), corner));
  found.push_back(
      problem.hint(fmt::format("write corner = {} under [card]", sheets::number(*wishes.punch))));
}

}  // namespace

CutTotals totals(const Cutting& cutting) {
  CutTotals sum;
  for (const SheetKind& kind : cutting.kinds) {
    sum.cuts += kind.cuts.cuts * kind.piling.piles;
    sum.piles += kind.piling.piles;
    // All piles of a kind are cut step by step, so that the fence is set once for each step.
    sum.settings += kind.cuts.settings;
  }
  return sum;
}

bool has_fence(const game::CuttingWishes& wishes) {
  return wishes.has_fence.value_or(wishes.tool != game::CuttingTool::knife_and_rule);
}

cut::Tool tool_of(const game::CuttingWishes& wishes) {
  constexpr Mm reading_a_rule{0.25};
  cut::Tool tool = cut::usual(kind_of(wishes.tool));
  if (wishes.stack) tool.pile = *wishes.stack;
  tool.pile_sheets = wishes.stack_sheets;
  if (wishes.repeatability) tool.setting = *wishes.repeatability / 2;
  if (!has_fence(wishes)) {
    tool.setting = Mm{std::hypot(tool.setting.value, reading_a_rule.value)};
  }
  return tool;
}

Mm sheet_caliper(const game::Stock& stock) {
  const std::optional<pieces::Range> known =
      pieces::caliper_of(stock.caliper, stock.grammage, stock.paper_class, "uncoated-card");
  return known ? known->typical : usual_card;
}

cut::Grid cut_grid(const sheets::Grid& grid, const std::vector<int>& copies) {
  cut::Grid cuts{grid.paper,    grid.columns,  grid.rows, grid.trims.front().size,
                 grid.gutter_x, grid.gutter_y, grid.at};
  for (const int copy : copies) cuts.taken.push_back(copy >= 0);
  return cuts;
}

Checked<Cutting> plan_cutting(const game::Game& game, const sheets::Plan& plan,
                              const pieces::Box* box, int boxes) {
  Checked<Cutting> result;
  const game::CuttingWishes& wishes = game.making.cutting;
  Cutting& cutting = result.value;
  cutting.tool = tool_of(wishes);
  cutting.kind = wishes.tool;
  cutting.has_fence = has_fence(wishes);
  cutting.sheet = sheet_caliper(game.stock);
  if (box) {
    for (const fold::Part& part : box->model.parts) {
      cutting.nets.push_back(work_of(part.net, boxes));
    }
  }
  int pieces = 0;
  for (const sheets::Sheet& sheet : plan.sheets) {
    pieces += static_cast<int>(std::count_if(sheet.copies.begin(), sheet.copies.end(),
                                             [](int copy) { return copy >= 0; }));
  }
  const bool has_punch = !wishes.punch || *wishes.punch > epsilon;
  if (game.card.corner > epsilon && has_punch) {
    cutting.corners = {pieces * 4, wishes.punch.value_or(game.card.corner)};
  }
  check_punch(game, result.found);
  if (plan.grid.trims.empty()) return result;
  if (!has_fresh_edges(cut_grid(plan.grid, {}))) {
    result.found.push_back(no_fresh_edge(plan));
    return result;
  }
  const cut::Prefer prefer = wishes.order == game::CuttingOrder::least_drift
                                 ? cut::Prefer::least_drift
                                 : cut::Prefer::fewest_settings;
  cutting.kinds = ridden(kinds_of(plan), plan, cutting);
  for (SheetKind& kind : cutting.kinds) {
    const sheets::Sheet& first = plan.sheets[static_cast<std::size_t>(kind.sheets.front())];
    kind.cuts = cut::plan_cuts(cut_grid(plan.grid, first.copies), prefer);
    kind.piling = cut::piling(static_cast<int>(kind.sheets.size()), cutting.sheet, cutting.tool);
  }
  check_pile(wishes, cutting, result.found);
  check_strips(wishes, cutting, result.found);
  return result;
}

}  // namespace quoin::making
