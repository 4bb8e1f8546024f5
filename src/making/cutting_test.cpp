#include "making/cutting.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <random>

#include "cut/simulate.h"
#include "making/cut_steps.h"

namespace quoin::making {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

sheets::Plan plan_of(const game::Game& game, int cards) {
  std::vector<sheets::Copy> copies;
  for (int i = 0; i < cards; ++i) copies.push_back({i, 0, "", "main"});
  const sheets::PieceFormat format{game.card.size, game.card.bleed, game.card.bleed,
                                   false,          "card",          {}};
  Result<sheets::Plan> plan = sheets::lay(copies, format, game.sheets);
  if (!plan) throw std::runtime_error(plan.why().front().message);
  return *std::move(plan);
}

game::Game nine_to_a_sheet() {
  game::Game game;
  game.sheets.grid = game::GridAsked{3, 3};
  game.stock.caliper = Mm{0.3};
  return game;
}

/// Every sheet of the plan is simulated: its own cards come out whole, nothing else is expected.
void expect_all_cards_whole(const sheets::Plan& plan, const Cutting& cutting) {
  for (const SheetKind& kind : cutting.kinds) {
    const cut::Cuttings left = cut::simulate(kind.cuts);
    ASSERT_THAT(left.faults, IsEmpty());
    for (const int index : kind.sheets) {
      const sheets::Sheet& sheet = plan.sheets[static_cast<std::size_t>(index)];
      for (const sheets::Placed& placed : sheet.front.placed) {
        // A card that is folded is cut out with its back: it is half of the piece.
        const auto is_there = [&](Rect piece) {
          return lies_in(placed.trim, piece) && (plan.grid.fold != sheets::Fold::none ||
                                                 nearly_equal(piece.size, placed.trim.size));
        };
        ASSERT_TRUE(std::any_of(left.pieces.begin(), left.pieces.end(), is_there));
      }
    }
  }
}

TEST(PlanCutting, cuts_a_sheet_that_is_not_full_with_the_others_when_it_takes_no_stack_more) {
  const game::Game game = nine_to_a_sheet();
  // Eleven cards on two sheets: a rotary trimmer goes through both at once.
  const sheets::Plan plan = plan_of(game, 11);
  const Cutting cutting = plan_cutting(game, plan, nullptr, 1).value;
  ASSERT_THAT(cutting.kinds, SizeIs(1));
  EXPECT_THAT(cutting.kinds[0].sheets, ElementsAre(0, 1));
  EXPECT_EQ(cutting.kinds[0].riding_along, 1);
  EXPECT_EQ(cutting.kinds[0].piling.piles, 1);
  // Twenty on three: the third would be a stack of its own, and is cut up with fewer cuts.
  const sheets::Plan three = plan_of(game, 20);
  const Cutting apart = plan_cutting(game, three, nullptr, 1).value;
  ASSERT_THAT(apart.kinds, SizeIs(2));
  EXPECT_EQ(apart.kinds[1].pieces, 2);
  EXPECT_LT(apart.kinds[1].cuts.cuts, apart.kinds[0].cuts.cuts);
  expect_all_cards_whole(three, apart);
}

TEST(PlanCutting, leaves_every_card_of_random_games_whole) {
  std::mt19937 random(4);
  const auto pick = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
  for (int trial = 0; trial < 300; ++trial) {
    game::Game game;
    game.card.size = {Mm{40.0 + pick(500) / 10.0}, Mm{50.0 + pick(700) / 10.0}};
    if (pick(2) == 1) game.sheets.paper = {Mm{215.9}, Mm{279.4}};
    game.sheets.spacing = std::array{game::Spacing::automatic, game::Spacing::shared,
                                     game::Spacing::gutters}[static_cast<std::size_t>(pick(3))];
    game.sheets.backs = pick(4) == 0 ? game::BackPrinting::fold : game::BackPrinting::printer;
    game.making.cutting.tool = static_cast<game::CuttingTool>(pick(3));
    game.making.cutting.order = static_cast<game::CuttingOrder>(pick(2));
    const sheets::Plan plan = plan_of(game, 1 + pick(70));
    const Cutting cutting = plan_cutting(game, plan, nullptr, 1).value;
    std::size_t sheets = 0;
    for (const SheetKind& kind : cutting.kinds) sheets += kind.sheets.size();
    ASSERT_EQ(sheets, plan.sheets.size());
    expect_all_cards_whole(plan, cutting);
  }
}

TEST(PlanCutting, says_when_there_is_nothing_to_cut_off) {
  game::Game game;
  game.sheets.paper = {Mm{127}, Mm{177.8}};
  game.sheets.dead_margin = {};
  game.sheets.spacing = game::Spacing::shared;
  game.card.bleed = {};
  const Checked<Cutting> found = plan_cutting(game, plan_of(game, 4), nullptr, 1);
  EXPECT_THAT(found.value.kinds, IsEmpty());
  ASSERT_THAT(found.found, SizeIs(1));
  EXPECT_EQ(found.found[0].id, Id::cutting_no_fresh_edge);
  EXPECT_EQ(found.found[0].message,
            "the outermost cards end 0 mm from the left and 0 mm from the top of the paper, so "
            "there is nothing to cut off");
}

TEST(PlanCutting, says_when_a_stack_is_higher_than_the_tool_cuts) {
  game::Game game = nine_to_a_sheet();
  game.making.cutting.stack_sheets = 10;
  const Checked<Cutting> found = plan_cutting(game, plan_of(game, 90), nullptr, 1);
  ASSERT_THAT(found.found, SizeIs(1));
  EXPECT_EQ(found.found[0].message,
            "10 sheets are 3.0 mm high, and a rotary trimmer goes through 2 sheets cleanly");
  EXPECT_THAT(found.found[0].hints, ElementsAre("write stack-sheets = 2"));
}

TEST(PlanCutting, says_when_the_punch_is_not_the_cards) {
  game::Game game = nine_to_a_sheet();
  game.card.corner = Mm{3.5};
  game.making.cutting.punch = Mm{5};
  const Checked<Cutting> found = plan_cutting(game, plan_of(game, 9), nullptr, 1);
  ASSERT_THAT(found.found, SizeIs(1));
  EXPECT_EQ(found.found[0].message,
            "the punch cuts corners of 5 mm, and the cards are drawn with 3.5 mm");
  EXPECT_EQ(found.value.corners.punches, 36);
}

TEST(StepWords, tell_a_maker_with_a_trimmer_what_to_do) {
  game::Game game = nine_to_a_sheet();
  game.sheets.spacing = game::Spacing::shared;
  const Cutting cutting = plan_cutting(game, plan_of(game, 9), nullptr, 1).value;
  EXPECT_THAT(
      step_words(cutting, cutting.kinds.front()),
      ElementsAre(
          "Turn the sheet a quarter anticlockwise, the left edge of the print towards you. Line "
          "the blade up with the printed marks and cut off the waste.",
          "Turn the sheet a quarter anticlockwise, the top edge of the print towards you. Line the "
          "blade up with the printed marks and cut off the waste.",
          "Turn the sheet a quarter anticlockwise, the right edge of the print towards you. Line "
          "the blade up with the printed marks and cut off the waste.",
          "Turn the sheet a quarter anticlockwise, so that the fresh edge lies against the fence. "
          "Set 88.9 mm. Cut 3 times, the fresh edge against the fence each time: each cut gives a "
          "strip.",
          "Turn the strips a quarter clockwise, so that the fresh edge lies against the fence. Set "
          "63.5 mm. Cut 6 times, the fresh edge against the fence each time: each cut gives a "
          "card."));
}

TEST(StepWords, measure_with_a_rule_where_there_is_no_fence) {
  game::Game game = nine_to_a_sheet();
  game.making.cutting.tool = game::CuttingTool::knife_and_rule;
  const Cutting cutting = plan_cutting(game, plan_of(game, 9), nullptr, 1).value;
  EXPECT_FALSE(cutting.has_fence);
  EXPECT_THAT(step_words(cutting, cutting.kinds.front()).back(),
              HasSubstr("Measure 63.5 mm from it at both ends and lay the rule along."));
}

TEST(StepPicture, draws_each_step_inside_its_room) {
  const game::Game game = nine_to_a_sheet();
  const Cutting cutting = plan_cutting(game, plan_of(game, 14), nullptr, 1).value;
  for (const SheetKind& kind : cutting.kinds) {
    for (std::size_t step = 0; step < kind.cuts.steps.size(); ++step) {
      const Scene scene = step_picture(cutting, kind, step, usual_step_room);
      const Rect room = grown(Rect{{}, usual_step_room}, Mm{0.5});
      for (const Item& item : scene.items) {
        const auto* shape = std::get_if<ShapeItem>(&item.what);
        if (!shape || item.clip) continue;
        EXPECT_TRUE(lies_in(bounds(shape->path), room)) << "step " << step;
      }
    }
  }
}

/// A tray of 60 x 40 mm with walls of 20 mm, its corners cut out, drawn by hand: 12 straight cuts
/// and 4 creases.
TEST(NetWork, counts_the_strokes_of_the_knife_and_the_scores) {
  fold::Net net;
  net.name = "tray";
  const auto box = [](double x, double y, double w, double h) {
    return Polygon{{Mm{x}, Mm{y}}, {Mm{x + w}, Mm{y}}, {Mm{x + w}, Mm{y + h}}, {Mm{x}, Mm{y + h}}};
  };
  net.panels = {{"floor", box(20, 20, 60, 40), {}, {}},
                {"left", box(0, 20, 20, 40), {}, {}},
                {"right", box(80, 20, 20, 40), {}, {}},
                {"top", box(20, 0, 60, 20), {}, {}},
                {"bottom", box(20, 60, 60, 20), {}, {}}};
  const auto crease = [&](int child, double x0, double y0, double x1, double y1) {
    net.hinges.push_back({0, child, {Mm{x0}, Mm{y0}}, {Mm{x1}, Mm{y1}}, {}});
  };
  crease(1, 20, 20, 20, 60);
  crease(2, 80, 20, 80, 60);
  crease(3, 20, 20, 80, 20);
  crease(4, 20, 60, 80, 60);
  const NetWork work = work_of(net, 3);
  EXPECT_EQ(work.cuts, 12);
  EXPECT_EQ(work.curves, 0);
  EXPECT_NEAR(work.cut_length.value, 4 * 20 * 2 + 2 * 60 + 2 * 40, 0.01);
  EXPECT_EQ(work.creases, 4);
  EXPECT_NEAR(work.crease_length.value, 200, 1e-9);
  EXPECT_EQ(work.boxes, 3);
}

}  // namespace
}  // namespace quoin::making
