#include <gtest/gtest.h>

#include "sheets/sheets.h"

// Grids on A4 and Letter that makers of cards know: common practice, no source. The paper sizes
// are ISO 216 (A4) and 8.5 x 11 in (Letter); the margins are arithmetic on them.

namespace quoin::sheets {
namespace {

using game::GridAsked;
using game::Orientation;
using game::SheetWishes;
using game::Spacing;
using game::Turn;

constexpr Size poker{Mm{63.5}, Mm{88.9}};

PieceFormat card(Size trim) { return {trim, Mm{3}, Mm{3}, false, "card", {}}; }

SheetWishes letter() {
  SheetWishes wishes;
  wishes.paper = {Mm{215.9}, Mm{279.4}};
  wishes.paper_name = "Letter";
  return wishes;
}

Grid grid_for(Size trim, int count, const SheetWishes& wishes) {
  const Result<Grid> grid = best_grid(card(trim), count, wishes);
  if (!grid) throw std::runtime_error(grid.why().front().message);
  return *grid;
}

void expect_lines(const Grid& grid, int columns, int rows) {
  EXPECT_EQ(grid.columns, columns);
  EXPECT_EQ(grid.rows, rows);
  EXPECT_EQ(grid.trims.size(), static_cast<std::size_t>(columns * rows));
}

void expect_at(const Grid& grid, double x, double y) {
  EXPECT_NEAR(grid.at.x.value, x, 1e-9);
  EXPECT_NEAR(grid.at.y.value, y, 1e-9);
}

TEST(BestGrid, lays_nine_poker_cards_on_a4) {
  const Grid grid = grid_for(poker, 54, {});
  expect_lines(grid, 3, 3);
  expect_at(grid, 9.75, 15.15);
  EXPECT_EQ(grid.gutter_x, Mm{0});
  EXPECT_FALSE(grid.turned);
  EXPECT_NEAR(grid.trims.back().right().value, 210 - 9.75, 1e-9);
  EXPECT_NEAR(grid.trims.back().bottom().value, 297 - 15.15, 1e-9);
  EXPECT_EQ(grid.why,
            "9 to a sheet as 3 x 3, upright on portrait A4, edges touching: 6 sheets for 54 cards");
}

TEST(BestGrid, lays_nine_metric_cards_on_a4) {
  const Grid grid = grid_for({Mm{63}, Mm{88}}, 54, {});
  expect_lines(grid, 3, 3);
  expect_at(grid, 10.5, 16.5);
}

TEST(BestGrid, lays_ninety_nine_small_cards_on_eleven_sheets_of_nine) {
  const Grid grid = grid_for({Mm{56}, Mm{87}}, 99, {});
  expect_lines(grid, 3, 3);
  EXPECT_EQ(grid.gutter_x, Mm{6});
  expect_at(grid, 15, 12);
  EXPECT_EQ(grid.why,
            "9 to a sheet as 3 x 3, upright on portrait A4, 6 mm between them for full bleed all "
            "round: 11 sheets for 99 cards");
}

TEST(BestGrid, keeps_crop_marks_on_letter_rather_than_save_one_sheet_in_seven) {
  const Grid grid = grid_for(poker, 54, letter());
  expect_lines(grid, 4, 2);
  EXPECT_GT(grid.paper.width, grid.paper.height);
  EXPECT_FALSE(grid.turned);
  EXPECT_NEAR(grid.gutter_x.value, 2.1, 1e-9);
}

TEST(BestGrid, shortens_the_outer_bleed_on_letter_when_that_saves_a_third) {
  SheetWishes wishes = letter();
  wishes.orientation = Orientation::portrait;
  wishes.turn = Turn::upright;
  const Grid grid = grid_for(poker, 54, wishes);
  expect_lines(grid, 3, 3);
  expect_at(grid, 12.7, 6.35);
}

TEST(BestGrid, takes_the_columns_and_rows_asked_for) {
  SheetWishes wishes = letter();
  wishes.grid = GridAsked{3, 3};
  expect_at(grid_for(poker, 54, wishes), 12.7, 6.35);
  wishes.grid = GridAsked{2, 2};
  expect_lines(grid_for(poker, 54, wishes), 2, 2);
}

TEST(BestGrid, prefers_bleed_all_round_when_it_costs_no_sheet) {
  const Grid grid = grid_for(poker, 16, {});
  expect_lines(grid, 4, 2);
  EXPECT_EQ(grid.gutter_x, Mm{6});
  EXPECT_EQ(grid.gutter_y, Mm{6});
}

TEST(BestGrid, lets_cards_touch_that_have_alike_edges) {
  PieceFormat alike = card(poker);
  alike.edges_alike = true;
  const Result<Grid> grid = best_grid(alike, 16, {});
  ASSERT_TRUE(grid.ok());
  EXPECT_EQ(grid->gutter_x, Mm{0});
  expect_lines(*grid, 3, 3);
}

TEST(BestGrid, keeps_a_fixed_gutter) {
  SheetWishes wishes;
  wishes.spacing = Spacing::fixed;
  wishes.gutter = Mm{10};
  const Grid grid = grid_for(poker, 54, wishes);
  EXPECT_EQ(grid.gutter_x, Mm{10});
  EXPECT_NEAR((grid.trims[1].left() - grid.trims[0].right()).value, 10, 1e-9);
}

TEST(BestGrid, keeps_cards_upright_when_turning_gains_nothing) {
  EXPECT_FALSE(grid_for({Mm{60}, Mm{60}}, 12, {}).turned);
  SheetWishes wishes;
  wishes.orientation = Orientation::portrait;
  const Grid grid = grid_for(poker, 8, wishes);
  EXPECT_FALSE(grid.turned);
  expect_lines(grid, 3, 3);
}

TEST(BestGrid, turns_cards_when_that_saves_a_sheet) {
  SheetWishes wishes;
  wishes.orientation = Orientation::portrait;
  wishes.spacing = Spacing::gutters;
  const Grid grid = grid_for(poker, 8, wishes);
  EXPECT_TRUE(grid.turned);
  expect_lines(grid, 2, 4);
  EXPECT_EQ(grid.trims[0].size, (Size{Mm{88.9}, Mm{63.5}}));
}

TEST(BestGrid, stands_in_the_middle_of_the_sheet_along_the_mirrored_axis_only) {
  SheetWishes wishes;
  wishes.dead_margin = {Mm{3}, Mm{4}, Mm{13}, Mm{8}};
  wishes.orientation = Orientation::portrait;
  const Grid grid = grid_for({Mm{50}, Mm{80}}, 54, wishes);
  const Rect all = covering(grid.trims.front(), grid.trims.back());
  EXPECT_NEAR(all.centre().x.value, 105, 1e-9);
  EXPECT_NEAR(all.centre().y.value, (3 + 297 - 13) / 2.0, 1e-9);
}

TEST(BestGrid, stands_between_the_dead_margins_when_there_are_no_backs_to_meet) {
  SheetWishes wishes;
  wishes.dead_margin = {Mm{3}, Mm{4}, Mm{13}, Mm{8}};
  wishes.backs = game::BackPrinting::none;
  wishes.orientation = Orientation::portrait;
  const Grid grid = grid_for({Mm{50}, Mm{80}}, 54, wishes);
  const Rect all = covering(grid.trims.front(), grid.trims.back());
  EXPECT_NEAR(all.centre().x.value, (8 + 210 - 4) / 2.0, 1e-9);
}

TEST(BestGrid, lets_a_single_piece_fill_the_printable_area) {
  const Grid grid = grid_for({Mm{200}, Mm{287}}, 1, {});
  expect_lines(grid, 1, 1);
  expect_at(grid, 5, 5);
}

TEST(BestGrid, folds_the_way_that_needs_fewest_sheets) {
  SheetWishes wishes;
  wishes.backs = game::BackPrinting::fold;
  const Grid grid = grid_for(poker, 54, wishes);
  EXPECT_EQ(grid.fold, Fold::top);
  expect_lines(grid, 4, 1);
  EXPECT_EQ(grid.trims[0].size, (Size{Mm{63.5}, Mm{177.8}}));
  const Grid side = grid_for({Mm{140}, Mm{40}}, 6, wishes);
  EXPECT_EQ(side.fold, Fold::top);
  const Grid tall = grid_for({Mm{45}, Mm{150}}, 6, wishes);
  EXPECT_EQ(tall.fold, Fold::side);
}

TEST(BestGrid, says_how_large_a_piece_may_be) {
  PieceFormat piece = card({Mm{300}, Mm{400}});
  piece.origin = {FileName("game.toml"), 5, 8, 9};
  const Result<Grid> grid = best_grid(piece, 1, {});
  ASSERT_FALSE(grid.ok());
  const Diagnostic& why = grid.why().front();
  EXPECT_EQ(why.id, Id::sheet_piece_too_large);
  EXPECT_EQ(why.origin, piece.origin);
  EXPECT_EQ(why.message,
            "a card of 300 x 400 mm does not fit: portrait A4 offers 200 x 287 mm inside its dead "
            "margin");
  EXPECT_EQ(why.hints,
            std::vector<std::string>{"choose a larger paper, or a card of at most 200 x 287 mm"});
}

TEST(BestGrid, finds_the_wish_that_keeps_a_piece_from_fitting) {
  SheetWishes wishes;
  wishes.turn = Turn::turned;
  wishes.orientation = Orientation::portrait;
  const Result<Grid> grid = best_grid(card({Mm{199}, Mm{286}}), 1, wishes);
  ASSERT_FALSE(grid.ok());
  EXPECT_EQ(grid.why().front().hints.front(),
            "with turn = \"auto\" and orientation = \"auto\" it fits");
}

TEST(BestGrid, says_that_a_folded_piece_needs_twice_the_room) {
  SheetWishes wishes;
  wishes.backs = game::BackPrinting::fold;
  const Result<Grid> grid = best_grid(card({Mm{150}, Mm{200}}), 1, wishes);
  ASSERT_FALSE(grid.ok());
  EXPECT_EQ(grid.why().front().message,
            "a card of 150 x 200 mm does not fit: unfolded it takes 300 x 200 mm, and landscape A4 "
            "offers 287 x 200 mm inside its dead margin");
  EXPECT_EQ(grid.why().front().hints.front(), "with backs = \"printer\" or \"by-hand\" it fits");
}

TEST(BestGrid, says_which_grid_fits_instead) {
  SheetWishes wishes;
  wishes.grid = GridAsked{4, 4};
  wishes.origin = {FileName("game.toml"), 12, 1, 8};
  const Result<Grid> grid = best_grid(card(poker), 54, wishes);
  ASSERT_FALSE(grid.ok());
  const Diagnostic& why = grid.why().front();
  EXPECT_EQ(why.id, Id::sheet_grid_does_not_fit);
  EXPECT_EQ(why.origin, wishes.origin);
  EXPECT_EQ(
      why.message,
      "a grid of 4 x 4 cards takes 254 x 355.6 mm, and portrait A4 offers 200 x 287 mm inside "
      "its dead margin");
  EXPECT_EQ(why.hints,
            std::vector<std::string>{"grid = \"3x3\" fits; grid = \"auto\" finds the best"});
}

TEST(BestGrid, tells_when_the_wider_dead_margin_counts_on_both_sides) {
  SheetWishes wishes;
  wishes.dead_margin = {Mm{5}, Mm{5}, Mm{5}, Mm{20}};
  wishes.orientation = Orientation::portrait;
  wishes.turn = Turn::upright;
  const Result<Grid> grid = best_grid(card({Mm{180}, Mm{250}}), 1, wishes);
  ASSERT_FALSE(grid.ok());
  EXPECT_EQ(grid.why().front().details,
            std::vector<std::string>{
                "the front alone offers 185 x 287 mm, but backs have to fall behind their fronts, "
                "so the wider of two opposite dead margins counts on both"});
}

TEST(BestGrid, refuses_paper_that_is_all_dead_margin) {
  SheetWishes wishes;
  wishes.dead_margin = Insets::all(Mm{150});
  const Result<Grid> grid = best_grid(card(poker), 1, wishes);
  ASSERT_FALSE(grid.ok());
  EXPECT_EQ(grid.why().front().id, Id::sheet_piece_too_large);
}

}  // namespace
}  // namespace quoin::sheets
