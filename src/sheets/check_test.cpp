#include <gtest/gtest.h>

#include "sheets/sheets.h"

namespace quoin::sheets {
namespace {

using game::BackPrinting;
using game::SheetWishes;

PieceFormat poker() { return {{Mm{63.5}, Mm{88.9}}, Mm{3}, Mm{3}, false, "card", {}}; }

SheetWishes portrait_upright(Size paper) {
  SheetWishes wishes;
  wishes.paper = paper;
  wishes.orientation = game::Orientation::portrait;
  wishes.turn = game::Turn::upright;
  wishes.origin = {FileName("game.toml"), 14, 1, 8};
  return wishes;
}

constexpr Size letter{Mm{215.9}, Mm{279.4}};

Plan plan_of(const PieceFormat& piece, const SheetWishes& wishes, int count = 54) {
  std::vector<Copy> copies;
  for (int i = 0; i < count; ++i) copies.push_back({i, 0, "", ""});
  Result<Plan> plan = lay(copies, piece, wishes);
  if (!plan) throw std::runtime_error(plan.why().front().message);
  return *std::move(plan);
}

/// The one finding with that id; fails when there is none.
Diagnostic only(const Diagnostics& found, Id id) {
  for (const Diagnostic& d : found) {
    if (d.id == id) return d;
  }
  ADD_FAILURE() << "no " << facts(id).name;
  return {id, {}, ""};
}

bool has(const Diagnostics& found, Id id) {
  return std::any_of(found.begin(), found.end(), [&](const Diagnostic& d) { return d.id == id; });
}

TEST(Check, finds_nothing_where_all_is_well) {
  SheetWishes wishes;
  wishes.spacing = game::Spacing::gutters;
  EXPECT_EQ(check(plan_of(poker(), wishes)), Diagnostics{});
}

TEST(Check, warns_of_outer_bleed_in_the_dead_margin) {
  const SheetWishes wishes = portrait_upright(letter);
  const Diagnostics found = check(plan_of(poker(), wishes));
  const Diagnostic d = only(found, Id::sheet_bleed_in_dead_margin);
  EXPECT_EQ(d.severity, Severity::warning);
  EXPECT_EQ(d.origin, wishes.origin);
  EXPECT_EQ(d.message,
            "1.35 mm of the 3 mm bleed can be printed at the top and bottom of the sheet");
  EXPECT_EQ(d.details, std::vector<std::string>{"a cut more than 1.35 mm too far out leaves a "
                                                "white line along the edge of an outermost card"});
  EXPECT_EQ(d.hints, std::vector<std::string>{"use fewer columns or rows, or a larger paper"});
}

TEST(Check, warns_of_missing_crop_marks) {
  const Diagnostic d =
      only(check(plan_of(poker(), portrait_upright(letter))), Id::sheet_no_room_for_marks);
  EXPECT_EQ(d.message,
            "crop marks at the top and bottom have 0 mm beyond the bleed, and need 1.5 mm");
  EXPECT_EQ(d.details,
            std::vector<std::string>{
                "they are left out, so the cuts that end there have nothing to be set by"});
}

TEST(Check, says_when_there_is_no_room_for_the_bar) {
  SheetWishes wishes;
  PieceFormat piece = poker();
  piece.trim = {Mm{190}, Mm{277}};
  const Diagnostics found = check(plan_of(piece, wishes, 1));
  const Diagnostic d = only(found, Id::sheet_no_room_for_slug);
  EXPECT_EQ(d.severity, Severity::note);
  EXPECT_EQ(d.message,
            "the widest strip beside the cards is 2 mm, and the measuring bar with its words needs "
            "4.5 mm");
  EXPECT_EQ(d.hints, std::vector<std::string>{
                         "measure a card on the first sheet: its trim is 190 x 277 mm"});
  EXPECT_FALSE(has(found, Id::sheet_no_room_for_marks));
  EXPECT_FALSE(has(found, Id::sheet_bleed_in_dead_margin));
}

TEST(Check, says_when_the_paper_is_too_small_for_the_bar) {
  SheetWishes wishes;
  wishes.paper = {Mm{58}, Mm{58}};
  PieceFormat piece = poker();
  piece.trim = {Mm{25}, Mm{25}};
  EXPECT_EQ(only(check(plan_of(piece, wishes, 1)), Id::sheet_no_room_for_slug).message,
            "the free row beside the cards is 38 mm long, and the measuring bar needs 50.2 mm");
}

TEST(Check, finds_trims_in_the_dead_margin_of_another_printer) {
  Plan plan = plan_of(poker(), {});
  plan.wishes.dead_margin = Insets::all(Mm{12});
  const Diagnostic d = only(check(plan), Id::sheet_trim_in_dead_margin);
  EXPECT_EQ(d.severity, Severity::error);
  EXPECT_EQ(d.message,
            "the outermost cards reach 2.25 mm into the dead margin at the left and right");
}

TEST(Check, notes_touching_neighbours_unless_their_edges_are_alike) {
  PieceFormat piece = poker();
  const Diagnostic d = only(check(plan_of(piece, {})), Id::sheet_neighbours_touch);
  EXPECT_EQ(d.message, "cards touch with 0 mm between them although their edges differ");
  EXPECT_EQ(d.details,
            std::vector<std::string>{"a cut 0.5 mm off shows 0.5 mm of the neighbouring card"});
  EXPECT_EQ(d.hints, std::vector<std::string>{
                         "spacing = \"gutters\" puts 6 mm between them, for fewer to a sheet"});
  piece.edges_alike = true;
  EXPECT_FALSE(has(check(plan_of(piece, {})), Id::sheet_neighbours_touch));
}

TEST(Check, notes_gutters_narrower_than_two_bleeds) {
  SheetWishes wishes;
  wishes.spacing = game::Spacing::fixed;
  wishes.gutter = Mm{2};
  const Diagnostic d = only(check(plan_of(poker(), wishes)), Id::sheet_narrow_gutter);
  EXPECT_EQ(d.message,
            "a gutter of 2 mm leaves each card 1 mm of its 3 mm bleed towards a neighbour");
}

TEST(Check, notes_back_bleed_that_neighbours_cut_short) {
  SheetWishes wishes;
  wishes.spacing = game::Spacing::fixed;
  wishes.gutter = Mm{6};
  PieceFormat piece = poker();
  piece.back_bleed = Mm{5};
  const Diagnostics found = check(plan_of(piece, wishes));
  EXPECT_EQ(only(found, Id::sheet_back_bleed_cut).message,
            "backs have 3 mm of their 5 mm bleed towards a neighbour");
  EXPECT_EQ(only(found, Id::sheet_back_bleed_cut).hints,
            std::vector<std::string>{"spacing = 10 gives them all of it"});
  EXPECT_FALSE(has(found, Id::sheet_narrow_gutter));
}

TEST(Check, says_whose_bleed_is_short_when_it_is_the_backs_alone) {
  PieceFormat piece = poker();
  piece.back_bleed = Mm{7};
  SheetWishes wishes;
  wishes.grid = game::GridAsked{3, 3};
  EXPECT_EQ(only(check(plan_of(piece, wishes)), Id::sheet_bleed_in_dead_margin).message,
            "4.75 mm of the backs' 7 mm bleed can be printed at the left and right of the sheet");
}

TEST(Check, counts_blank_backs) {
  std::vector<Copy> copies;
  for (int i = 0; i < 9; ++i) copies.push_back({i, i < 2 ? -1 : 0, "", ""});
  for (const BackPrinting backs : {BackPrinting::printer, BackPrinting::fold}) {
    SheetWishes wishes;
    wishes.backs = backs;
    const Result<Plan> plan = lay(copies, poker(), wishes);
    ASSERT_TRUE(plan.ok());
    EXPECT_EQ(only(check(*plan), Id::sheet_blank_backs).message, "2 of 9 cards have no back");
  }
}

TEST(Check, notes_that_only_fronts_are_printed) {
  SheetWishes wishes;
  wishes.backs = BackPrinting::none;
  const Diagnostics found = check(plan_of(poker(), wishes));
  EXPECT_EQ(only(found, Id::sheet_backs_not_printed).message,
            "only the fronts are printed: 6 pages");
  EXPECT_FALSE(has(found, Id::sheet_blank_backs));
}

TEST(Check, notes_that_a_pile_with_different_backs_must_stay_in_order) {
  std::vector<Copy> copies;
  for (int i = 0; i < 27; ++i) copies.push_back({i, i / 9, "", ""});
  SheetWishes wishes;
  wishes.backs = BackPrinting::by_hand;
  const Result<Plan> plan = lay(copies, poker(), wishes);
  ASSERT_TRUE(plan.ok());
  EXPECT_EQ(only(check(*plan), Id::sheet_backs_in_order).message,
            "3 sheets have 3 different sets of backs, so each has to go back into the printer in "
            "its turn");
  EXPECT_FALSE(has(check(plan_of(poker(), wishes)), Id::sheet_backs_in_order));
}

}  // namespace
}  // namespace quoin::sheets
