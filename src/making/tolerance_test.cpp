#include "making/tolerance.h"

#include <gmock/gmock.h>

#include <cmath>

#include "making/costs.h"

namespace quoin::making {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing::SizeIs;

/// Nine cards on a sheet with gutters of 4 mm, one back, a border on the back.
struct Deck {
  game::Game game;
  std::vector<FaceFacts> faces;
  int cards = 18;

  Deck() {
    game.sheets.grid = game::GridAsked{3, 3};
    game.sheets.spacing = game::Spacing::fixed;
    game.sheets.gutter = Mm{4};
    game.stock.caliper = Mm{0.3};
    game.printer.feed_within = Mm{};
    for (int i = 0; i < cards; ++i) {
      faces.push_back({"W-" + std::to_string(i + 1), false, {FileName("cards.csv")}, {}});
    }
    pieces::FaceMeasure back;
    back.border = pieces::Border{Mm{1.5}, "frame", {FileName("layouts/back.toml"), 7, 0, 0}};
    faces.push_back({"back of main", true, {FileName("cards.csv")}, back});
  }

  [[nodiscard]] sheets::Plan plan() const {
    std::vector<sheets::Copy> copies;
    for (int i = 0; i < cards; ++i) copies.push_back({i, 0, "", "main"});
    const sheets::PieceFormat format{game.card.size, game.card.bleed, game.card.bleed,
                                     false,          "card",          {}};
    return *sheets::lay(copies, format, game.sheets);
  }
  [[nodiscard]] Tolerances reckoned() const {
    const sheets::Plan laid = plan();
    const Cutting cutting = plan_cutting(game, laid, nullptr, 1).value;
    return tolerances(game, laid, cutting, faces, cards, usual_register(game));
  }
};

TEST(Tolerances, follow_from_the_cuts_of_the_plan_and_the_register) {
  const Deck deck;
  const Tolerances all = deck.reckoned();
  // Rows: a mark and two settings, 0.2 mm each: the last edge strays by 0.2·sqrt(4), and with the
  // gutter's own setting. Twice that is "within".
  EXPECT_NEAR(all.cut_within.value, 2 * 0.2 * std::sqrt(4), 1e-9);
  EXPECT_TRUE(all.registration.is_assumed);
  EXPECT_NEAR(all.registration.shift.value, 0.75, 1e-12);
  EXPECT_EQ(all.front.worst.shift_x, Mm{});
  EXPECT_NEAR(all.back.worst.shift_x.value, 0.75, 1e-12);
  // Half a gutter is left of the bleed, and a sliver of 0.2 mm is not seen.
  EXPECT_NEAR(all.faces[0].margins.bleed.value, 2.2, 1e-9);
  EXPECT_LT(all.faces[0].chances.white_edge, 1e-4);
  EXPECT_GT(all.faces.back().chances.lopsided, 0.3);
}

TEST(Tolerances, count_how_sheets_stray_in_a_pile_and_not_when_they_are_cut_singly) {
  Deck deck;
  deck.game.printer.feed_within = Mm{0.6};
  const Tolerances two_at_once = deck.reckoned();
  // Two sheets of 0.3 mm in a trimmer that takes 0.6: 0.3·sqrt(2·1/2) for both.
  EXPECT_NEAR(two_at_once.front.worst.shift_x.value, 0.3, 1e-12);
  EXPECT_NEAR(two_at_once.back.worst.shift_y.value, std::hypot(0.3, 0.75), 1e-12);
  deck.game.making.cutting.stack_sheets = 1;
  const Tolerances singly = deck.reckoned();
  EXPECT_EQ(singly.front.worst.shift_x, Mm{});
  EXPECT_LT(singly.faces[0].chances.white_edge, two_at_once.faces[0].chances.white_edge);
  deck.game.printer.feed_within.reset();
  EXPECT_NEAR(deck.reckoned().feed.value, 0.2, 1e-12);
}

TEST(Tolerances, know_no_white_edge_where_there_is_no_ink) {
  Deck deck;
  deck.game.sheets.gutter = Mm{0.2};
  EXPECT_GT(deck.reckoned().faces[0].at_worst.white_edge, 0.3);
  for (FaceFacts& face : deck.faces) face.measure.is_paper_at_edge = true;
  EXPECT_NEAR(deck.reckoned().faces[0].at_worst.white_edge, 0, 1e-9);
}

TEST(Tolerances, take_what_shows_at_a_fold_for_the_cards_own_other_side) {
  Deck deck;
  deck.game.sheets.backs = game::BackPrinting::fold;
  deck.game.sheets.grid.reset();
  deck.faces.back().measure.border.reset();
  const Tolerances all = deck.reckoned();
  for (const FaceTolerance& face : all.faces) {
    EXPECT_NEAR(face.margins.bleed.value, 2.2, 1e-9);
    EXPECT_LT(face.at_worst.white_edge, 0.01);
  }
  EXPECT_LT(all.spoilt, 0.2);
}

TEST(Tolerances, give_the_spares_that_a_deck_needs) {
  Deck deck;
  deck.game.printer.register_within = Mm{0.4};
  EXPECT_EQ(deck.reckoned().spares, 0);
  deck.game.sheets.gutter = Mm{1};
  const Tolerances all = deck.reckoned();
  EXPECT_GT(all.spoilt, 1);
  EXPECT_GE(all.spoilt_at_most, static_cast<int>(all.spoilt));
  EXPECT_GE(all.spares, 1);
  EXPECT_EQ(all.spare_sheets, all.spares * 2);
}

TEST(CheckTolerances, says_which_border_will_look_crooked_and_how_wide_it_should_be) {
  Deck deck;
  deck.game.printer.register_within = Mm{0.6};
  const Tolerances all = deck.reckoned();
  const Diagnostics found = check_tolerances(deck.game, all, deck.faces);
  ASSERT_THAT(found, SizeIs(1));
  EXPECT_EQ(found[0].id, Id::tolerance_lopsided_border);
  EXPECT_EQ(found[0].place.element, "frame");
  EXPECT_EQ(found[0].message, "a border of 1.5 mm on a spread of 1.0 mm: half will look crooked");
  EXPECT_THAT(found[0].hints, ElementsAre("make the border 3.6 mm or wider, or leave it out"));
  EXPECT_THAT(found[0].details, IsEmpty());
}

TEST(CheckTolerances, says_when_words_are_clipped) {
  Deck deck;
  deck.faces.back().measure.border.reset();
  deck.faces[0].measure.kept = Mm{0.3};
  deck.faces[0].measure.kept_element = "name";
  const Diagnostics found = check_tolerances(deck.game, deck.reckoned(), deck.faces);
  ASSERT_FALSE(found.empty());
  EXPECT_EQ(found[0].id, Id::tolerance_clipped);
  EXPECT_EQ(found[0].place.piece, "W-1");
}

TEST(CheckTolerances, says_when_corners_will_not_meet_their_edges) {
  Deck deck;
  deck.game.card.corner = Mm{3.5};
  deck.faces.back().measure.border.reset();
  deck.game.printer.register_within = Mm{0.4};
  EXPECT_THAT(check_tolerances(deck.game, deck.reckoned(), deck.faces), IsEmpty());
  deck.game.making.cutting.punch_within = Mm{0.4};
  const Diagnostics found = check_tolerances(deck.game, deck.reckoned(), deck.faces);
  ASSERT_THAT(found, SizeIs(1));
  EXPECT_EQ(found[0].id, Id::tolerance_rough_corners);
  EXPECT_EQ(found[0].message, "most will have a corner that does not meet its edges");
  deck.game.making.cutting.punch = Mm{};
  EXPECT_EQ(deck.reckoned().rough_corners, 0);
}

TEST(CheckWeight, says_when_the_paper_is_heavier_than_the_printer_takes) {
  game::Game game;
  EXPECT_THAT(check_weight(game, nullptr), IsEmpty());
  game.stock.grammage = 300;
  game.printer.heaviest = 220;
  press::Profile measured;
  measured.id = "study";
  measured.heaviest = 250;
  const Diagnostics found = check_weight(game, &measured);
  ASSERT_THAT(found, SizeIs(1));
  EXPECT_EQ(found[0].id, Id::sheet_too_heavy);
  EXPECT_EQ(found[0].message, "the cards' paper is 300 g/m², and the printer takes 220 g/m²");
  game.printer.heaviest.reset();
  const Diagnostics by_profile = check_weight(game, &measured);
  ASSERT_THAT(by_profile, SizeIs(1));
  EXPECT_EQ(by_profile[0].message, "the cards' paper is 300 g/m², and study takes 250 g/m²");
  measured.heaviest = 300;
  EXPECT_THAT(check_weight(game, &measured), IsEmpty());
}

TEST(CheckBacksMeet, recommends_folding_when_most_backs_would_look_crooked) {
  Deck deck;
  deck.game.printer.register_within = Mm{6};
  const Diagnostics found = check_backs_meet(deck.game, deck.reckoned(), deck.cards);
  ASSERT_THAT(found, SizeIs(1));
  EXPECT_EQ(found[0].id, Id::tolerance_fold_instead);
  // Simulation of the same errors, that of the closed form's own test, stands beside the figures.
  const Tolerances all = deck.reckoned();
  press::Margins margins = all.faces.back().margins;
  margins.bleed = widest_bleed;
  const auto of_100 = [&](const press::ErrorBudget& errors) {
    const press::Chances seen = press::simulated_chances(margins, errors, {40'000, 3});
    return 100 * (1 - (1 - seen.white_edge) * (1 - seen.lopsided));
  };
  press::ErrorBudget folded = all.back.worst;
  folded.shift_x = folded.shift_y = fold_strays;
  folded.turn = {};
  int now = 0, then = 0;
  ASSERT_EQ(std::sscanf(found[0].message.c_str(),
                        "%d of 100 backs will have a crooked border or a white edge, and %d of 100 "
                        "when they are folded and glued",
                        &now, &then),
            2);
  EXPECT_NEAR(now, of_100(all.back.worst), 2);
  EXPECT_NEAR(then, of_100(folded), 6);  // the closed form takes both ways as independent
  EXPECT_THAT(found[0].details,
              ElementsAre("backs stray by 6.0 mm; that is with 5 mm of bleed, and more bleed is no "
                          "remedy"));
}

TEST(CheckBacksMeet, is_quiet_when_folding_is_done_already_or_changes_little) {
  Deck deck;
  deck.game.printer.register_within = Mm{0.6};
  EXPECT_THAT(check_backs_meet(deck.game, deck.reckoned(), deck.cards), IsEmpty());
  deck.game.printer.register_within = Mm{6};
  deck.faces.back().measure.border->width = Mm{0.4};  // crooked however it is printed
  EXPECT_THAT(check_backs_meet(deck.game, deck.reckoned(), deck.cards), IsEmpty());
  deck.faces.back().measure.border.reset();  // the bleed hides it
  deck.game.printer.register_within = Mm{3};
  EXPECT_THAT(check_backs_meet(deck.game, deck.reckoned(), deck.cards), IsEmpty());
  deck.game.sheets.backs = game::BackPrinting::none;
  deck.game.printer.register_within = Mm{9};
  EXPECT_THAT(check_backs_meet(deck.game, deck.reckoned(), deck.cards), IsEmpty());
}

TEST(RunCosts, count_ink_and_time_of_the_spare_sheets_and_no_more) {
  Deck deck;
  for (FaceFacts& face : deck.faces) face.measure.ink = {1, 0, 0, 0};
  const sheets::Plan plan = deck.plan();
  const Cutting cutting = plan_cutting(deck.game, plan, nullptr, 1).value;
  Tolerances all = deck.reckoned();
  all.spares = all.spare_sheets = 0;
  const RunFacts run{1, plan, cutting, all, 0, deck.cards};
  const RunCosts bare = run_costs(deck.game, run, deck.faces, deck.cards);
  all.spares = 1;
  all.spare_sheets = 1;  // one of a form that is wanted twice
  const RunCosts more = run_costs(deck.game, run, deck.faces, deck.cards);
  EXPECT_NEAR(more.stuff.ink[0], bare.stuff.ink[0] * 1.5, 1e-9);
  EXPECT_NEAR(more.work.print, bare.work.print * 1.5, 1e-9);
}

TEST(InWords, says_a_chance_as_a_person_does) {
  EXPECT_EQ(in_words(0.2), "1 in 5");
  EXPECT_EQ(in_words(0.027), "1 in 37");
  EXPECT_EQ(in_words(0.95), "nearly all");
  EXPECT_EQ(in_words(0.5), "half");
  EXPECT_EQ(in_words(0), "none");
}

/// Each term by hand.
TEST(RunCosts, add_up_paper_ink_and_time) {
  Deck deck;
  for (FaceFacts& face : deck.faces) face.measure.ink = {1, 0, 0, 0.5};
  deck.game.printer.register_within = Mm{0.4};  // so that there are no spares
  deck.game.making.prices.sheet = 0.5;
  deck.game.making.prices.ink = 0.1;
  const sheets::Plan plan = deck.plan();
  const Cutting cutting = plan_cutting(deck.game, plan, nullptr, 1).value;
  const Tolerances all = deck.reckoned();
  const RunFacts facts{1, plan, cutting, all, 0, deck.cards};
  const RunCosts costs = run_costs(deck.game, facts, deck.faces, deck.cards);
  EXPECT_EQ(costs.stuff.sheets, 2);
  double area = 0;
  for (const sheets::Sheet& sheet : plan.sheets) {
    for (const sheets::Form* form : {&sheet.front, &sheet.back}) {
      for (const sheets::Placed& placed : form->placed) {
        area += placed.window.size.width.value * placed.window.size.height.value;
      }
    }
  }
  const double sides = area / (210 * 297);
  EXPECT_NEAR(costs.stuff.ink[0], sides, 1e-9);
  EXPECT_NEAR(costs.stuff.cover[0], sides / 4, 1e-9);
  EXPECT_NEAR(costs.sum, 2 * 0.5 + 1.5 * sides * 0.1, 1e-9);
  // Four printed sides; one stack of two sheets cut by the plan, the fence set four times.
  EXPECT_NEAR(costs.work.print, 4 * 15, 1e-9);
  EXPECT_NEAR(costs.work.cut, 10 * cutting.kinds[0].cuts.cuts + 20 * 4, 1e-9);
  EXPECT_NEAR(costs.work.round, 0, 1e-9);
}

/// Each term by hand.
TEST(RunCosts, count_the_rules_and_the_mat) {
  Deck deck;
  deck.game.making.prices.paper = 0.03;
  deck.game.making.prices.ink = 0.1;
  const sheets::Plan plan = deck.plan();
  const Cutting cutting = plan_cutting(deck.game, plan, nullptr, 1).value;
  const Tolerances all = deck.reckoned();
  const RunCosts bare =
      run_costs(deck.game, {1, plan, cutting, all, 0, deck.cards}, deck.faces, deck.cards);
  const PaperPiece rules{2, 4, 8, 1, 3, 0, {}}, mat{4, 4, 8, 0, 0, 3, {0, 2, 0, 0.5}};
  const RunCosts costs = run_costs(deck.game, {1, plan, cutting, all, 0, deck.cards, rules, mat},
                                   deck.faces, deck.cards);
  EXPECT_EQ(costs.stuff.rules_sheets, 2);
  EXPECT_EQ(costs.stuff.mat_sheets, 4);
  EXPECT_NEAR(costs.stuff.ink[1] - bare.stuff.ink[1], 2, 1e-9);
  EXPECT_EQ(costs.stuff.cover, bare.stuff.cover) << "of the cards alone";
  EXPECT_NEAR(costs.sum - bare.sum, 6 * 0.03 + 2.5 * 0.1, 1e-9);
  const game::Times& times = deck.game.making.times;
  EXPECT_NEAR(costs.work.print - bare.work.print, 8 * times.side, 1e-9);
  EXPECT_NEAR(costs.work.rules, 8 * times.cut + times.knife_cut + 3 * times.crease, 1e-9);
  EXPECT_NEAR(costs.work.mat, 8 * times.cut + 3 * times.glue, 1e-9);
}

TEST(MatWork, trims_each_sheet_where_it_lies_over_others_and_the_whole_all_round) {
  pieces::Mat mat;
  mat.plan.size = {Mm{594}, Mm{420}};
  mat.ink = {0.5, 0, 0, 0};
  sheets::Tiling tiling;
  for (int row = 0; row < 2; ++row) {
    for (int column = 0; column < 3; ++column) {
      sheets::Tile& tile = tiling.tiles.emplace_back();
      tile.row = row;
      tile.column = column;
    }
  }
  const PaperPiece work = mat_work(mat, tiling, 2);
  EXPECT_EQ(work.sheets, 12);
  EXPECT_EQ(work.sides, 12);
  EXPECT_EQ(work.cuts, 2 * (2 * 2 + 3 + 4));
  EXPECT_EQ(work.joints, 2 * 5);
  const Size all = grown(Rect{{}, mat.plan.size}, mat.plan.ink()).size;
  EXPECT_NEAR(work.ink[0], all.width.value * all.height.value / (210 * 297), 1e-9);
}

TEST(RunCosts, print_no_more_than_the_sheets_and_their_spares) {
  Deck deck;
  for (FaceFacts& face : deck.faces) face.measure.ink = {1, 0, 0, 0};
  const sheets::Plan plan = deck.plan();
  const Cutting cutting = plan_cutting(deck.game, plan, nullptr, 1).value;
  Tolerances all = deck.reckoned();
  all.spares = 0;
  all.spare_sheets = 0;
  const RunCosts without =
      run_costs(deck.game, {1, plan, cutting, all, 0, deck.cards}, deck.faces, deck.cards);
  // Two sheets and one more: half as much again, although each form has a spare of its own.
  all.spares = 1;
  all.spare_sheets = 1;
  const RunCosts with =
      run_costs(deck.game, {1, plan, cutting, all, 0, deck.cards}, deck.faces, deck.cards);
  EXPECT_NEAR(with.stuff.ink[0], without.stuff.ink[0] * 1.5, 1e-9);
  EXPECT_NEAR(with.work.print, without.work.print * 1.5, 1e-9);
  EXPECT_NEAR(with.stuff.cover[0], without.stuff.cover[0], 1e-12);
}

TEST(CostTable, has_a_column_for_each_run_and_leaves_out_what_none_needs) {
  Deck deck;
  deck.game.making.prices.currency = "EUR";
  deck.game.making.prices.sheet = 0.5;
  deck.game.making.prices.is_example = true;
  const sheets::Plan plan = deck.plan();
  const Cutting cutting = plan_cutting(deck.game, plan, nullptr, 1).value;
  Tolerances all = deck.reckoned();
  all.spares = all.spare_sheets = 0;
  Costs costs;
  for (const int decks : {1, 5}) {
    costs.runs.push_back(
        run_costs(deck.game, {decks, plan, cutting, all, 0, deck.cards}, deck.faces, deck.cards));
  }
  costs.quoted.push_back({{"copy-shop", 20, 240, "cut"}, 12});
  const CostTable table = cost_table(deck.game, costs);
  EXPECT_THAT(table.decks, ElementsAre(1, 5));
  ASSERT_THAT(table.groups, SizeIs(3));
  EXPECT_EQ(table.groups[0].rows[0].what, "Sheets of cards");
  EXPECT_THAT(table.groups[0].rows[0].values, ElementsAre("2", "2"));
  for (const CostTable::Row& row : table.groups[0].rows) EXPECT_NE(row.what, "Spare sheets");
  EXPECT_THAT(table.groups[2].rows[0].values, ElementsAre("1.00 EUR", "1.00 EUR"));
  EXPECT_THAT(table.groups[2].rows.back().values, ElementsAre("1.00 EUR", "0.20 EUR"));
  EXPECT_THAT(table.quotations,
              ElementsAre("copy-shop: 240.00 EUR for 20 decks, 12.00 EUR a deck; cut"));
  EXPECT_EQ(table.notes[0], "the prices are an example, of no shop");
}

TEST(RunCosts, say_what_has_no_price) {
  Deck deck;
  for (FaceFacts& face : deck.faces) face.measure.ink = {1, 0, 0, 0};
  deck.game.making.prices.sheet = 0.5;
  const sheets::Plan plan = deck.plan();
  const Cutting cutting = plan_cutting(deck.game, plan, nullptr, 1).value;
  const Tolerances all = deck.reckoned();
  const RunCosts costs =
      run_costs(deck.game, {1, plan, cutting, all, 1, deck.cards}, deck.faces, deck.cards);
  EXPECT_THAT(costs.not_priced, ElementsAre("board for the box", "ink"));
}

TEST(MakingLines, speak_of_money_only_when_something_that_is_needed_has_a_price) {
  Deck deck;
  const sheets::Plan plan = deck.plan();
  const Cutting cutting = plan_cutting(deck.game, plan, nullptr, 1).value;
  const Tolerances all = deck.reckoned();
  const auto lines = [&] {
    Costs costs;
    costs.runs.push_back(
        run_costs(deck.game, {1, plan, cutting, all, 0, deck.cards}, deck.faces, deck.cards));
    return making_lines(deck.game, cutting, &all, costs);
  };
  deck.game.making.prices.glue = 0.05;  // without a box nothing is glued
  const std::size_t without = lines().size();
  deck.game.making.prices.sheet = 0.5;
  EXPECT_EQ(lines().size(), without + 1);
  EXPECT_THAT(lines().back(), testing::HasSubstr("one deck "));
}

TEST(TimeWords, are_as_exact_as_the_reckoning) {
  EXPECT_EQ(time_words(40), "40 s");
  EXPECT_EQ(time_words(25 * 60 + 10), "25 min");
  EXPECT_EQ(time_words(100 * 60), "1 h 40 min");
}

}  // namespace
}  // namespace quoin::making
