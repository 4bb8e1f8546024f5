#include <gtest/gtest.h>

#include "sheets/sheets.h"

namespace quoin::sheets {
namespace {

using game::BackPrinting;
using game::FlipEdge;
using game::Pile;
using game::SheetOrder;
using game::SheetWishes;

constexpr PieceFormat poker() { return {{Mm{63.5}, Mm{88.9}}, Mm{3}, Mm{3}, false, "card", {}}; }

std::vector<Copy> cards(int count) {
  std::vector<Copy> all;
  for (int i = 0; i < count; ++i) all.push_back({i, 0, "", "main"});
  return all;
}

Plan plan_of(const std::vector<Copy>& copies, const SheetWishes& wishes = {}) {
  Result<Plan> plan = lay(copies, poker(), wishes);
  if (!plan) throw std::runtime_error(plan.why().front().message);
  return *std::move(plan);
}

SheetWishes nine_to_a_sheet() {
  SheetWishes wishes;
  wishes.grid = game::GridAsked{3, 3};
  return wishes;
}

std::vector<int> fronts(const Form& form) {
  std::vector<int> all;
  for (const Placed& p : form.placed) all.push_back(p.drawing);
  return all;
}

void expect_point(Point p, double x, double y) {
  EXPECT_NEAR(p.x.value, x, 1e-9);
  EXPECT_NEAR(p.y.value, y, 1e-9);
}

constexpr Point top_left{};
constexpr Point top_right{Mm{63.5}, Mm{0}};

TEST(Lay, takes_cards_in_order_row_by_row) {
  const Plan plan = plan_of(cards(11), nine_to_a_sheet());
  ASSERT_EQ(plan.sheets.size(), 2u);
  EXPECT_EQ(fronts(plan.sheets[0].front), (std::vector<int>{0, 1, 2, 3, 4, 5, 6, 7, 8}));
  EXPECT_EQ(fronts(plan.sheets[1].front), (std::vector<int>{9, 10}));
  EXPECT_EQ(plan.sheets[1].copies, (std::vector<int>{9, 10, -1, -1, -1, -1, -1, -1, -1}));
}

TEST(Lay, deals_so_that_cut_piles_stack_in_order) {
  SheetWishes wishes = nine_to_a_sheet();
  wishes.order = SheetOrder::cut_and_stack;
  const Plan plan = plan_of(cards(20), wishes);
  ASSERT_EQ(plan.sheets.size(), 3u);
  std::vector<int> stacked;
  for (int cell = 0; cell < 9; ++cell) {
    for (const Sheet& sheet : plan.sheets) {
      if (sheet.copies[cell] >= 0) stacked.push_back(sheet.copies[cell]);
    }
  }
  std::vector<int> in_order(20);
  for (int i = 0; i < 20; ++i) in_order[i] = i;
  EXPECT_EQ(stacked, in_order);
  EXPECT_EQ(plan.sheets[1].copies[0], 1);
  EXPECT_EQ(plan.sheets[2].copies[6], -1);
}

TEST(Lay, gives_each_suit_sheets_of_its_own) {
  std::vector<Copy> copies;
  for (int i = 0; i < 12; ++i) copies.push_back({i, 0, i % 2 == 0 ? "shell" : "rope", "main"});
  SheetWishes wishes;
  wishes.order = SheetOrder::by_suit;
  const Plan plan = plan_of(copies, wishes);
  ASSERT_EQ(plan.sheets.size(), 2u);
  EXPECT_EQ(fronts(plan.sheets[0].front), (std::vector<int>{0, 2, 4, 6, 8, 10}));
  EXPECT_EQ(fronts(plan.sheets[1].front), (std::vector<int>{1, 3, 5, 7, 9, 11}));
}

TEST(Lay, counts_the_sheets_of_every_suit_when_it_chooses_the_grid) {
  // 16 cards of one suit take sheets of eight, with bleed all round; a suit of 9 among them does
  // not fit one of those.
  std::vector<Copy> copies;
  for (int i = 0; i < 16; ++i) copies.push_back({i, 0, i < 9 ? "shell" : "rope", "main"});
  SheetWishes wishes;
  wishes.order = SheetOrder::by_suit;
  const Plan plan = plan_of(copies, wishes);
  EXPECT_EQ(plan.sheets.size(), 2u);
  EXPECT_EQ(plan.grid.trims.size(), 9u);
}

TEST(Lay, keeps_decks_together_in_the_order_in_which_they_appear) {
  std::vector<Copy> copies;
  for (int i = 0; i < 6; ++i) copies.push_back({i, 0, "", i % 2 == 0 ? "sea" : "land"});
  EXPECT_EQ(fronts(plan_of(copies).sheets[0].front), (std::vector<int>{0, 2, 4, 1, 3, 5}));
}

TEST(Lay, puts_backs_behind_their_fronts_for_the_long_edge) {
  const Plan plan = plan_of(cards(9));
  const Placed& front = plan.sheets[0].front.placed[0];
  const Placed& back = plan.sheets[0].back.placed[0];
  EXPECT_EQ(plan.grid.paper, (Size{Mm{210}, Mm{297}}));
  // The first front lies at the left, its back at the right, both upright.
  expect_point(front.map(top_left), 9.75, 15.15);
  expect_point(back.map(top_left), 210 - 9.75 - 63.5, 15.15);
  expect_point(back.map(top_right), 210 - 9.75, 15.15);
  EXPECT_EQ(back.map.determinant(), 1);
}

TEST(Lay, turns_backs_over_head_for_the_short_edge) {
  SheetWishes wishes;
  wishes.flip = FlipEdge::short_edge;
  const Plan plan = plan_of(cards(9), wishes);
  const Placed& back = plan.sheets[0].back.placed[0];
  // Behind the first front, head down: the back's top left is at the bottom right of its trim.
  expect_point(back.trim.at, 9.75, 297 - 15.15 - 88.9);
  expect_point(back.map(top_left), 9.75 + 63.5, 297 - 15.15);
  EXPECT_EQ(back.map.a, -1);
  EXPECT_EQ(back.map.b, 0);
  EXPECT_EQ(back.map.d, -1);
}

TEST(Lay, turns_backs_the_other_way_than_turned_fronts) {
  SheetWishes wishes;
  wishes.turn = game::Turn::turned;
  wishes.orientation = game::Orientation::portrait;
  const Plan plan = plan_of(cards(8), wishes);
  const Placed& front = plan.sheets[0].front.placed[0];
  const Placed& back = plan.sheets[0].back.placed[0];
  // A front turned clockwise has its head at the right; behind it heads lie at the left.
  EXPECT_NEAR((front.map(top_left).x - front.trim.right()).value, 0, 1e-9);
  EXPECT_NEAR((front.map(top_left).y - front.trim.top()).value, 0, 1e-9);
  EXPECT_NEAR((back.map(top_left).x - back.trim.left()).value, 0, 1e-9);
  EXPECT_NEAR((back.map(top_left).y - back.trim.bottom()).value, 0, 1e-9);
  EXPECT_EQ(back.map.determinant(), 1);
}

TEST(Lay, fills_every_cell_with_the_one_back_so_that_sheets_can_be_exchanged) {
  const Plan plan = plan_of(cards(11), nine_to_a_sheet());
  EXPECT_TRUE(plan.backs_interchangeable);
  EXPECT_EQ(plan.sheets[1].front.placed.size(), 2u);
  EXPECT_EQ(plan.sheets[1].back.placed.size(), 9u);
  EXPECT_EQ(plan.sheets[0].back, plan.sheets[1].back);
  ASSERT_EQ(distinct_backs(plan).size(), 1u);
  EXPECT_EQ(distinct_backs(plan)[0].sheets, (std::vector<int>{0, 1}));
}

TEST(Lay, tells_sheets_with_other_backs_apart) {
  std::vector<Copy> copies = cards(18);
  for (int i = 9; i < 18; ++i) copies[i].back = 1;
  copies[17].back = 0;
  const Plan plan = plan_of(copies);
  EXPECT_FALSE(plan.backs_interchangeable);
  EXPECT_EQ(distinct_backs(plan).size(), 2u);
  EXPECT_EQ(plan.sheets[1].back.placed.back().drawing, 0);
}

TEST(Lay, leaves_blank_backs_blank) {
  std::vector<Copy> copies = cards(9);
  copies[4].back = -1;
  const Plan plan = plan_of(copies);
  EXPECT_EQ(plan.sheets[0].back.placed.size(), 8u);
}

TEST(Lay, prints_equal_fronts_once) {
  std::vector<Copy> copies;
  for (int i = 0; i < 27; ++i) copies.push_back({i < 18 ? 4 : 5, 0, "", ""});
  const std::vector<Distinct> forms = distinct_fronts(plan_of(copies));
  ASSERT_EQ(forms.size(), 2u);
  EXPECT_EQ(forms[0].sheets, (std::vector<int>{0, 1}));
  EXPECT_EQ(forms[1].sheet, 2);
}

TEST(Lay, gives_half_the_gutter_to_each_neighbour_and_all_bleed_beside_empty_cells) {
  const Plan plan = plan_of(cards(11), nine_to_a_sheet());
  const Placed& middle = plan.sheets[0].front.placed[4];
  EXPECT_EQ(middle.window, middle.trim);
  const Placed& second = plan.sheets[1].front.placed[1];
  EXPECT_NEAR((second.window.right() - second.trim.right()).value, 3, 1e-9);
  EXPECT_NEAR((second.window.bottom() - second.trim.bottom()).value, 3, 1e-9);
  EXPECT_NEAR((second.trim.left() - second.window.left()).value, 0, 1e-9);
}

TEST(Lay, lets_the_backs_reach_further_at_the_outside) {
  PieceFormat piece = poker();
  piece.back_bleed = Mm{4};
  const Result<Plan> plan = lay(cards(9), piece, nine_to_a_sheet());
  ASSERT_TRUE(plan.ok());
  const Placed& back = plan->sheets[0].back.placed[0];
  EXPECT_NEAR((back.window.right() - back.trim.right()).value, 4, 1e-9);
  EXPECT_NEAR((back.trim.left() - back.window.left()).value, 0, 1e-9);
}

TEST(Lay, folds_the_back_up_behind_the_front) {
  SheetWishes wishes;
  wishes.backs = BackPrinting::fold;
  const Plan plan = plan_of(cards(4), wishes);
  ASSERT_EQ(plan.grid.fold, Fold::top);
  const Form& form = plan.sheets[0].front;
  ASSERT_EQ(form.placed.size(), 8u);
  EXPECT_TRUE(plan.sheets[0].back.placed.empty());
  const Placed &front = form.placed[0], &back = form.placed[1];
  EXPECT_TRUE(back.is_back);
  EXPECT_EQ(back.trim.bottom(), front.trim.top());
  EXPECT_EQ(back.window.bottom(), back.trim.bottom());
  EXPECT_EQ(front.window.top(), front.trim.top());
  // Head down: the back's top right lies on the front's top left.
  expect_point(back.map(top_right), front.map(top_left).x.value, front.map(top_left).y.value);
  EXPECT_EQ(back.map.a, -1);
}

TEST(Lay, folds_the_back_over_from_the_side) {
  SheetWishes wishes;
  wishes.backs = BackPrinting::fold;
  const Result<Plan> plan =
      lay(cards(6), {{Mm{45}, Mm{150}}, Mm{3}, Mm{3}, false, "card", {}}, wishes);
  ASSERT_TRUE(plan.ok());
  ASSERT_EQ(plan->grid.fold, Fold::side);
  const Placed& front = plan->sheets[0].front.placed[0];
  const Placed& back = plan->sheets[0].front.placed[1];
  // Upright beside it: the back's top left lies on the front's top right.
  const Point hinge = front.map(Point{Mm{45}, Mm{0}});
  expect_point(back.map(top_left), hinge.x.value, hinge.y.value);
  const bool shows_bleed_across = overlap(front.window, back.window).has_value();
  EXPECT_FALSE(shows_bleed_across);
}

TEST(Lay, has_no_back_forms_when_only_fronts_are_printed) {
  SheetWishes wishes;
  wishes.backs = BackPrinting::none;
  const Plan plan = plan_of(cards(9), wishes);
  EXPECT_TRUE(plan.sheets[0].back.placed.empty());
  EXPECT_TRUE(distinct_backs(plan).empty());
  EXPECT_TRUE(backs_order(plan).empty());
  EXPECT_FALSE(plan.backs_interchangeable);
}

TEST(Lay, says_when_there_is_nothing_to_print) {
  const Result<Plan> plan = lay({}, poker(), {});
  ASSERT_FALSE(plan.ok());
  EXPECT_EQ(plan.why().front().id, Id::sheet_nothing_to_print);
  EXPECT_EQ(plan.why().front().message, "there are no cards to lay on sheets");
}

TEST(Lay, tells_what_it_chose) {
  SheetWishes wishes;
  wishes.paper = {Mm{215.9}, Mm{279.4}};
  wishes.paper_name = "Letter";
  wishes.order = SheetOrder::cut_and_stack;
  EXPECT_EQ(
      plan_of(cards(54), wishes).choices,
      (std::vector<std::string>{
          "grid: 8 to a sheet as 4 x 2, upright on landscape Letter, 2.1 mm between them: 7 sheets "
          "for 54 cards",
          "closer: 3 x 3 would take 6 sheets instead of 7, with 1.35 mm of bleed at the top and "
          "bottom, without room for crop marks at the top and bottom: grid = \"3x3\"",
          "order: for cutting the whole stack at once, sheet 1 on top, fronts up; then lay the "
          "piles on one another with the top left one on top, row by row: the cards are in order",
          "backs: by the printer, turned about the long edge",
          "backs: the same on every sheet, so any sheet may go with any"}));
}

TEST(BacksOrder, runs_backwards_for_a_pile_that_comes_out_face_down) {
  SheetWishes wishes;
  wishes.backs = BackPrinting::by_hand;
  EXPECT_EQ(backs_order(plan_of(cards(27), wishes)), (std::vector<int>{2, 1, 0}));
  wishes.pile = Pile::face_up;
  EXPECT_EQ(backs_order(plan_of(cards(27), wishes)), (std::vector<int>{0, 1, 2}));
  wishes.backs = BackPrinting::printer;
  EXPECT_EQ(backs_order(plan_of(cards(27), wishes)), (std::vector<int>{0, 1, 2}));
}

TEST(BacksOrder, brings_each_back_to_its_own_sheet_when_the_pile_is_played_through) {
  // Played with a pile of sheets: the tray draws from the top, prints the side that is not printed
  // yet, and each sheet falls on the output pile.
  for (const Pile pile : {Pile::face_down, Pile::face_up}) {
    SheetWishes wishes;
    wishes.backs = BackPrinting::by_hand;
    wishes.pile = pile;
    const Plan plan = plan_of(cards(45), wishes);
    std::vector<int> lying(plan.sheets.size());  // from the bottom to the top
    for (int i = 0; i < 5; ++i) lying[i] = i;
    if (pile == Pile::face_up) std::reverse(lying.begin(), lying.end());  // turned over as a whole
    std::vector<int> drawn_in(lying.rbegin(), lying.rend());
    EXPECT_EQ(backs_order(plan), drawn_in);
  }
}

TEST(Behind, mirrors_about_the_axis_that_the_sheet_is_turned_about) {
  const Size portrait{Mm{210}, Mm{297}}, landscape{Mm{297}, Mm{210}};
  const Point p{Mm{10}, Mm{20}};
  expect_point(behind(portrait, FlipEdge::long_edge)(p), 200, 20);
  expect_point(behind(portrait, FlipEdge::short_edge)(p), 10, 277);
  expect_point(behind(landscape, FlipEdge::long_edge)(p), 10, 190);
  expect_point(behind(landscape, FlipEdge::short_edge)(p), 287, 20);
}

}  // namespace
}  // namespace quoin::sheets
