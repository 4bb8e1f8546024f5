#include "cut/plan.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <random>
#include <stdexcept>
#include <tuple>
#include <vector>

#include "cut/simulate.h"

namespace quoin::cut {
namespace {

using testing::IsEmpty;
using testing::SizeIs;

Grid grid_of(int columns, int rows, double gutter_x, double gutter_y) {
  return {{210_mm, 297_mm}, columns,      rows,         {Mm{30}, Mm{44}},
          Mm{gutter_x},     Mm{gutter_y}, {10_mm, 9_mm}};
}

/// The fewest edge-to-edge cuts that get all cards out, by trying every one of them. An axis is a
/// row of stretches, each a card or waste (side or gutter).
class EveryWay {
 public:
  explicit EveryWay(const Grid& grid)
      : grid_(grid),
        x_(stretches(grid.columns, grid.gutter_x)),
        y_(stretches(grid.rows, grid.gutter_y)) {}
  int fewest() { return fewest(0, x_.size(), 0, y_.size()); }

 private:
  /// Which card of the axis a stretch is, -1 for waste.
  static std::vector<int> stretches(int cards, Mm gutter) {
    std::vector<int> card_of{-1};
    for (int i = 0; i < cards; ++i) {
      if (i > 0 && gutter > Mm{}) card_of.push_back(-1);
      card_of.push_back(i);
    }
    card_of.push_back(-1);
    return card_of;
  }
  bool any(std::size_t x0, std::size_t x1, std::size_t y0, std::size_t y1) const {
    for (std::size_t x = x0; x < x1; ++x) {
      for (std::size_t y = y0; y < y1; ++y) {
        if (x_[x] >= 0 && y_[y] >= 0 && is_taken(grid_, x_[x], y_[y])) return true;
      }
    }
    return false;
  }
  int fewest(std::size_t x0, std::size_t x1, std::size_t y0, std::size_t y1) {
    if (!any(x0, x1, y0, y1) || (x1 - x0 == 1 && y1 - y0 == 1)) return 0;
    const auto key = std::tuple{x0, x1, y0, y1};
    if (const auto known = known_.find(key); known != known_.end()) return known->second;
    int best = 1'000'000;
    for (std::size_t x = x0 + 1; x < x1; ++x) {
      best = std::min(best, 1 + fewest(x0, x, y0, y1) + fewest(x, x1, y0, y1));
    }
    for (std::size_t y = y0 + 1; y < y1; ++y) {
      best = std::min(best, 1 + fewest(x0, x1, y0, y) + fewest(x0, x1, y, y1));
    }
    return known_[key] = best;
  }

  const Grid& grid_;
  std::vector<int> x_, y_;
  std::map<std::tuple<std::size_t, std::size_t, std::size_t, std::size_t>, int> known_;
};

std::vector<Grid> all_grids() {
  std::vector<Grid> grids;
  for (int columns = 1; columns <= 6; ++columns) {
    for (int rows = 1; rows <= 6; ++rows) {
      for (const double x : {0.0, 3.0}) {
        for (const double y : {0.0, 2.0}) grids.push_back(grid_of(columns, rows, x, y));
      }
    }
  }
  return grids;
}

TEST(CutPlan, makes_as_few_cuts_as_any_way_of_cutting) {
  for (const Grid& grid : all_grids()) {
    const int fewest = EveryWay(grid).fewest();
    EXPECT_EQ(fewest_cuts(grid), fewest);
    EXPECT_EQ(plan_cuts(grid, Prefer::fewest_settings).cuts, fewest);
    EXPECT_EQ(plan_cuts(grid, Prefer::least_drift).cuts, fewest);
  }
}

/// Sheets with so many cards from the top left, as the last sheet of a deck has them.
std::vector<Grid> partly_filled_grids() {
  std::vector<Grid> grids;
  for (Grid grid : all_grids()) {
    if (grid.columns > 4 || grid.rows > 4) continue;
    for (int cards = 1; cards < grid.columns * grid.rows; ++cards) {
      grid.taken.assign(static_cast<std::size_t>(grid.columns * grid.rows), false);
      std::fill_n(grid.taken.begin(), cards, true);
      grids.push_back(grid);
    }
  }
  return grids;
}

TEST(CutPlan, makes_at_most_one_cut_too_many_on_a_sheet_that_is_partly_filled) {
  int sheets = 0, with_one_more = 0;
  for (const Grid& grid : partly_filled_grids()) {
    const int fewest = EveryWay(grid).fewest();
    const auto cards = std::count(grid.taken.begin(), grid.taken.end(), true);
    for (const Prefer prefer : {Prefer::fewest_settings, Prefer::least_drift}) {
      const Plan plan = plan_cuts(grid, prefer);
      ASSERT_GE(plan.cuts, fewest);
      ASSERT_LE(plan.cuts, fewest + 1) << cards << " of " << grid.columns << " x " << grid.rows;
      with_one_more += plan.cuts - fewest;
      ++sheets;
      const Cuttings left = simulate(plan);
      ASSERT_THAT(left.faults, IsEmpty());
      ASSERT_THAT(left.pieces, SizeIs(cards));
    }
  }
  EXPECT_LT(with_one_more * 20, sheets);
}

TEST(CutPlan, leaves_exactly_the_pieces_and_touches_none) {
  for (const Grid& grid : all_grids()) {
    for (const Prefer prefer : {Prefer::fewest_settings, Prefer::least_drift}) {
      const Cuttings left = simulate(plan_cuts(grid, prefer));
      EXPECT_THAT(left.faults, IsEmpty());
      EXPECT_THAT(left.pieces, SizeIs(grid.columns * grid.rows));
    }
  }
}

TEST(CutPlan, leaves_exactly_the_pieces_of_any_sheet) {
  std::mt19937 random(20261125);
  std::uniform_real_distribution<double> part(0, 1);
  for (int trial = 0; trial < 500; ++trial) {
    Grid grid;
    grid.columns = 1 + static_cast<int>(part(random) * 6);
    grid.rows = 1 + static_cast<int>(part(random) * 6);
    grid.piece = {Mm{15 + 90 * part(random)}, Mm{15 + 90 * part(random)}};
    grid.gutter_x = part(random) < 0.4 ? Mm{} : Mm{0.5 + 9 * part(random)};
    grid.gutter_y = part(random) < 0.4 ? Mm{} : Mm{0.5 + 9 * part(random)};
    grid.at = {Mm{0.5 + 15 * part(random)}, Mm{0.5 + 15 * part(random)}};
    const Rect last = cell(grid, grid.columns - 1, grid.rows - 1);
    const auto past = [&] { return part(random) < 0.1 ? Mm{} : Mm{0.5 + 20 * part(random)}; };
    grid.sheet = {last.right() + past(), last.bottom() + past()};
    const Prefer prefer = trial % 2 == 0 ? Prefer::fewest_settings : Prefer::least_drift;
    const Plan plan = plan_cuts(grid, prefer);
    const Cuttings left = simulate(plan);
    ASSERT_THAT(left.faults, IsEmpty()) << "trial " << trial;
    ASSERT_EQ(plan.cuts, fewest_cuts(grid)) << "trial " << trial;
  }
}

TEST(CutPlan, sets_the_fence_twice_for_touching_cards_and_four_times_with_gutters) {
  EXPECT_EQ(plan_cuts(grid_of(3, 3, 0, 0), Prefer::fewest_settings).settings, 2);
  EXPECT_EQ(plan_cuts(grid_of(3, 3, 3, 3), Prefer::fewest_settings).settings, 4);
  EXPECT_EQ(plan_cuts(grid_of(1, 1, 0, 0), Prefer::fewest_settings).settings, 1);
}

TEST(CutPlan, takes_the_waste_first_by_the_marks_that_are_still_there) {
  const Plan plan = plan_cuts(grid_of(2, 1, 0, 0), Prefer::fewest_settings);
  ASSERT_THAT(plan.steps, SizeIs(4));
  for (std::size_t i = 0; i < 3; ++i) {
    ASSERT_THAT(plan.steps[i].cuts, SizeIs(1));
    EXPECT_EQ(plan.steps[i].cuts[0].found, Found::by_mark);
  }
  for (std::size_t i = 3; i < 4; ++i) {
    for (const Cut& cut : plan.steps[i].cuts) EXPECT_EQ(cut.found, Found::by_fence);
  }
}

TEST(CutPlan, turns_the_sheet_so_that_a_fresh_edge_meets_the_fence) {
  const Plan plan = plan_cuts(grid_of(2, 2, 0, 0), Prefer::fewest_settings);
  int facing = 1;  // the top edge lies away from the maker at first
  for (const Step& step : plan.steps) {
    facing = (facing - step.quarter_turns + 4) % 4;
    const Cut& cut = step.cuts.front();
    EXPECT_EQ(static_cast<Edge>(facing), far_edge(plan.grid, cut));
  }
}

TEST(CutPlan, refuses_a_grid_without_a_fresh_edge) {
  Grid grid = grid_of(2, 2, 0, 0);
  grid.at.x = Mm{};
  EXPECT_THROW((void)plan_cuts(grid, Prefer::fewest_settings), std::logic_error);
  grid = grid_of(0, 2, 0, 0);
  EXPECT_THROW((void)plan_cuts(grid, Prefer::fewest_settings), std::logic_error);
  EXPECT_THROW((void)plan_cuts(grid_of(9, 9, 0, 0), Prefer::fewest_settings), std::logic_error);
}

TEST(Simulate, finds_what_is_wrong_with_a_plan) {
  Plan plan = plan_cuts(grid_of(2, 2, 3, 3), Prefer::fewest_settings);
  Plan short_of_one = plan;
  short_of_one.steps.pop_back();
  EXPECT_FALSE(simulate(short_of_one).faults.empty());
  Plan wrong_setting = plan;
  wrong_setting.steps[3].cuts[0].setting += 1_mm;
  EXPECT_FALSE(simulate(wrong_setting).faults.empty());
  Plan through_a_card = plan;
  through_a_card.steps[0].cuts[0].at += 8_mm;
  EXPECT_FALSE(simulate(through_a_card).faults.empty());
  Plan from_the_mill = plan;
  from_the_mill.steps.erase(from_the_mill.steps.begin(), from_the_mill.steps.begin() + 2);
  EXPECT_FALSE(simulate(from_the_mill).faults.empty());
}

TEST(EdgeErrors, add_up_along_a_chain_and_do_not_when_measured_from_one_edge) {
  Tool tool = usual(ToolKind::rotary_trimmer);
  tool.mark = Mm{0.3};
  tool.setting = Mm{0.4};
  // Four columns of one row: the far edge of the third has a mark and three settings behind it,
  // measured from one edge a mark and one setting. sqrt(0.09 + 3*0.16) and sqrt(0.09 + 0.16).
  const Grid grid = grid_of(4, 1, 0, 0);
  const auto chained = edge_errors(plan_cuts(grid, Prefer::fewest_settings), tool);
  ASSERT_THAT(chained, SizeIs(4));
  EXPECT_NEAR(chained[2].right.value, std::sqrt(0.09 + 3 * 0.16), 1e-12);
  EXPECT_NEAR(chained[0].left.value, 0.3, 1e-12);
  const auto measured = edge_errors(plan_cuts(grid, Prefer::least_drift), tool);
  EXPECT_NEAR(measured[2].right.value, std::sqrt(0.09 + 0.16), 1e-12);
  EXPECT_LT(worst_edge(measured), worst_edge(chained));
}

/// A plan cut by a hand that errs: simulated cuts spread as edge_errors says.
TEST(EdgeErrors, are_what_a_thousand_hands_show) {
  Tool tool = usual(ToolKind::rotary_trimmer);
  const Grid grid = grid_of(3, 1, 0, 0);
  const Plan plan = plan_cuts(grid, Prefer::fewest_settings);
  std::mt19937 random(7);
  std::normal_distribution<double> normal(0, 1);
  double sum = 0;
  constexpr int hands = 20'000;
  for (int i = 0; i < hands; ++i) {
    const double left = tool.mark.value * normal(random);
    const double second = left + tool.setting.value * normal(random);
    const double third = second + tool.setting.value * normal(random);
    sum += third * third;
  }
  const auto errors = edge_errors(plan, tool);
  EXPECT_NEAR(errors[2].left.value, std::sqrt(sum / hands), 0.01);
}

TEST(Piling, cuts_as_many_sheets_at_once_as_the_blade_goes_through) {
  EXPECT_EQ(piling(11, Mm{0.3}, usual(ToolKind::guillotine)).at_once, 11);
  EXPECT_EQ(piling(11, Mm{0.3}, usual(ToolKind::rotary_trimmer)).at_once, 2);
  EXPECT_EQ(piling(11, Mm{0.3}, usual(ToolKind::rotary_trimmer)).piles, 6);
  EXPECT_EQ(piling(11, Mm{0.9}, usual(ToolKind::knife_and_rule)).at_once, 1);
  EXPECT_EQ(piling(0, Mm{0.3}, usual(ToolKind::guillotine)).piles, 0);
}

}  // namespace
}  // namespace quoin::cut
