#include "making/costs.h"

#include <algorithm>
#include <cmath>

namespace quoin::making {
namespace {

constexpr double a4_area = 210.0 * 297.0;  // mm²
constexpr double glue_film = 0.1;          // mm

double area_of(Size size) { return size.width.value * size.height.value; }

/// Adds the ink of one printed side; true when there is any on it.
bool add_side(const sheets::Form& form, const std::vector<FaceFacts>& faces, std::size_t fronts,
              std::array<double, 4>& ink) {
  for (const sheets::Placed& placed : form.placed) {
    const auto drawing = static_cast<std::size_t>(placed.drawing);
    const std::size_t face = placed.is_back ? fronts + drawing : drawing;
    if (face >= faces.size()) continue;
    for (std::size_t plate = 0; plate < ink.size(); ++plate) {
      ink[plate] += faces[face].measure.ink[plate] * area_of(placed.window.size) / a4_area;
    }
  }
  return !form.placed.empty();
}

int box_seams(const Cutting& cutting) {
  int seams = 0;
  for (const NetWork& net : cutting.nets) seams += net.seams * net.boxes;
  return seams;
}

double glued_area(const Cutting& cutting) {
  double area = 0;
  for (const NetWork& net : cutting.nets) area += net.glued * net.boxes;
  return area;
}

/// How much more is printed because of the spare sheets.
double with_spares(const RunFacts& run) {
  const double sheets = static_cast<double>(std::max<std::size_t>(run.plan.sheets.size(), 1));
  return 1 + run.tolerances.spare_sheets / sheets;
}

/// Sides of all sheets that are printed, spares counted.
double printed_sides(const RunFacts& run) {
  int sides = 0;
  for (const sheets::Sheet& sheet : run.plan.sheets) {
    sides += (sheet.front.placed.empty() ? 0 : 1) + (sheet.back.placed.empty() ? 0 : 1);
  }
  return sides * with_spares(run);
}

/// Cut, folded and joined by hand; printing is counted with the cards.
double paper_work(const game::Times& times, const PaperPiece& piece) {
  return times.cut * piece.cuts + times.knife_cut * piece.slits + times.crease * piece.folds +
         times.glue * piece.joints;
}

Work work_of_run(const game::Game& game, const RunFacts& run) {
  const game::Times& times = game.making.times;
  const CutTotals cuts = totals(run.cutting);
  Work work;
  work.print = times.side * printed_sides(run);
  if (game.sheets.backs == game::BackPrinting::by_hand) work.print += times.refeed;
  work.cut = times.cut * cuts.cuts + times.setting * cuts.settings;
  work.round = times.corner * run.cutting.corners.punches;
  for (const NetWork& net : run.cutting.nets) {
    work.box +=
        net.boxes * (times.knife_cut * (net.cuts + net.curves) + times.crease * net.creases);
  }
  work.box += times.glue * box_seams(run.cutting);
  work.print += times.side * (run.rules.sides + run.mat.sides);
  work.rules = paper_work(times, run.rules);
  work.mat = paper_work(times, run.mat);
  return work;
}

Stuff stuff_of(const game::Game& game, const RunFacts& run, const std::vector<FaceFacts>& faces,
               std::size_t fronts) {
  Stuff stuff;
  stuff.sheets = static_cast<int>(run.plan.sheets.size());
  stuff.spare_sheets = run.tolerances.spare_sheets;
  stuff.board_sheets = run.board_sheets;
  int sides = 0;
  for (const sheets::Sheet& sheet : run.plan.sheets) {
    sides += add_side(sheet.front, faces, fronts, stuff.ink) ? 1 : 0;
    sides += add_side(sheet.back, faces, fronts, stuff.ink) ? 1 : 0;
  }
  const double side = area_of(run.plan.grid.paper) / a4_area * std::max(sides, 1);
  for (std::size_t plate = 0; plate < stuff.ink.size(); ++plate) {
    stuff.cover[plate] = stuff.ink[plate] / side;
    stuff.ink[plate] *= with_spares(run);
    stuff.ink[plate] += run.mat.ink[plate];
  }
  stuff.rules_sheets = run.rules.sheets;
  stuff.mat_sheets = run.mat.sheets;
  stuff.glue = glued_area(run.cutting) * glue_film / 1000;
  if (game.box && game.box->sleeves) stuff.sleeves = run.cards * run.decks;
  return stuff;
}

void add_line(RunCosts& costs, const std::string& what, double amount,
              const std::optional<double>& price) {
  if (amount <= 0) return;
  if (!price) {
    costs.not_priced.push_back(what);
    return;
  }
  costs.lines.push_back({what, amount, amount * *price});
  costs.sum += amount * *price;
}

}  // namespace

PaperPiece mat_work(const pieces::Mat& mat, const sheets::Tiling& tiling, int decks) {
  PaperPiece piece;
  piece.sheets = piece.sides = static_cast<int>(tiling.tiles.size()) * decks;
  for (const sheets::Tile& tile : tiling.tiles) {
    piece.cuts += decks * ((tile.row > 0 ? 1 : 0) + (tile.column > 0 ? 1 : 0));
  }
  piece.cuts += 4 * decks;
  piece.joints = (static_cast<int>(tiling.tiles.size()) - 1) * decks;
  const Size all = grown(Rect{{}, mat.plan.size}, mat.plan.ink()).size;
  for (std::size_t plate = 0; plate < piece.ink.size(); ++plate) {
    piece.ink[plate] = mat.ink[plate] * area_of(all) / a4_area * decks;
  }
  return piece;
}

RunCosts run_costs(const game::Game& game, const RunFacts& run, const std::vector<FaceFacts>& faces,
                   int fronts) {
  RunCosts costs;
  costs.decks = run.decks;
  costs.stuff = stuff_of(game, run, faces, static_cast<std::size_t>(fronts));
  costs.work = work_of_run(game, run);
  const game::Prices& prices = game.making.prices;
  const Stuff& stuff = costs.stuff;
  add_line(costs, "paper", stuff.sheets + stuff.spare_sheets, prices.sheet);
  add_line(costs, "board for the box", stuff.board_sheets, prices.board);
  add_line(costs, "paper for rules and mat", stuff.rules_sheets + stuff.mat_sheets, prices.paper);
  add_line(costs, "ink", stuff.ink[0] + stuff.ink[1] + stuff.ink[2] + stuff.ink[3], prices.ink);
  add_line(costs, "glue", stuff.glue, prices.glue);
  add_line(costs, "sleeves", stuff.sleeves, prices.sleeve);
  return costs;
}

std::vector<QuotedCosts> quoted_costs(const game::Game& game) {
  std::vector<QuotedCosts> quoted;
  for (const game::Quotation& one : game.making.quotations) {
    quoted.push_back({one, one.price / std::max(one.decks, 1)});
  }
  std::stable_sort(quoted.begin(), quoted.end(), [](const QuotedCosts& a, const QuotedCosts& b) {
    return a.quotation.decks < b.quotation.decks;
  });
  return quoted;
}

}  // namespace quoin::making
