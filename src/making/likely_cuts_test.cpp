#include "making/likely_cuts.h"

#include <gmock/gmock.h>

#include <cmath>

#include "making/back_register.h"
#include "making/hand_work.h"

namespace quoin::making {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

FaceTolerance poker_face() {
  FaceTolerance face;
  face.margins.trim = {Mm{63.5}, Mm{88.9}};
  face.margins.bleed = Mm{3.2};
  face.margins.safe = Mm{4};
  face.margins.border = Mm{1.5};
  return face;
}

TEST(FallenCuts, stray_as_far_as_their_deviations_say) {
  press::ErrorBudget errors;
  errors.cut_left = Mm{0.2};
  errors.cut_right = Mm{0.4};
  errors.shift_x = Mm{0.3};
  constexpr int cards = 20'000;
  double left = 0, left_squares = 0, width_squares = 0;
  for (const FallenCut& cut : fallen_cuts(poker_face(), errors, cards, 7)) {
    left += cut[0].x.value;
    left_squares += cut[0].x.value * cut[0].x.value;
    const double width = cut[1].x.value - cut[0].x.value - 63.5;
    width_squares += width * width;
    EXPECT_EQ(cut[0].y, Mm{}) << "nothing strays up and down";
  }
  // Independent errors add up by their squares; the width does not know of the print's shift.
  EXPECT_NEAR(left / cards, 0, 0.01);
  EXPECT_NEAR(std::sqrt(left_squares / cards), std::hypot(0.2, 0.3), 0.01);
  EXPECT_NEAR(std::sqrt(width_squares / cards), std::hypot(0.2, 0.4), 0.01);
}

TEST(FallenCuts, are_the_same_for_the_same_seed) {
  press::ErrorBudget errors;
  errors.cut_left = Mm{0.2};
  const auto one = fallen_cuts(poker_face(), errors, 3, 1);
  EXPECT_EQ(one, fallen_cuts(poker_face(), errors, 3, 1));
  EXPECT_NE(one, fallen_cuts(poker_face(), errors, 3, 2));
}

TEST(ChanceWords, say_each_fault_and_crooked_borders_only_where_there_are_any) {
  FaceFacts facts;
  FaceTolerance face = poker_face();
  face.at_worst = {0.025, 0, 0.2};
  EXPECT_THAT(chance_words(facts, face),
              ElementsAre("1 in 40 shows a white edge", "none is clipped"));
  facts.measure.border = pieces::Border{Mm{1.5}, "frame", {}};
  EXPECT_THAT(chance_words(facts, face), testing::Contains("1 in 5 has a crooked border"));
  face.at_worst.lopsided = 0.5;
  EXPECT_THAT(chance_words(facts, face), testing::Contains("half have a crooked border"));
}

TEST(Remedies, give_what_there_is_beside_what_it_takes) {
  FaceFacts facts;
  facts.measure.border = pieces::Border{Mm{1.5}, "frame", {}};
  FaceTolerance face = poker_face();
  face.at_worst = {0.01, 0.2, 0.3};
  SideTolerance side;
  side.needed = {Mm{1.21}, Mm{5.04}, Mm{3.55}};
  const std::vector<Remedy> all = remedies(facts, face, side, 0.05);
  ASSERT_THAT(all, SizeIs(3));
  EXPECT_EQ(all[0].what, "border");
  EXPECT_EQ(all[0].has, "1.5 mm");
  EXPECT_EQ(all[0].needs, "3.6 mm, or none");
  EXPECT_FALSE(all[0].is_enough);
  EXPECT_EQ(all[1].has, "3.0 mm");
  EXPECT_EQ(all[1].needs, "1.1 mm");
  EXPECT_TRUE(all[1].is_enough);
  EXPECT_EQ(all[2].needs, "5.1 mm");
  EXPECT_FALSE(all[2].is_enough);
}

TEST(HandSteps, count_corners_and_each_net_in_the_order_of_work) {
  Cutting cutting;
  EXPECT_THAT(hand_steps(cutting), IsEmpty());
  cutting.corners = {216, Mm{3.5}};
  NetWork net;
  net.name = "box";
  net.boxes = 2;
  net.cuts = 20;
  net.curves = 3;
  net.creases = 9;
  net.seams = 1;
  cutting.nets.push_back(net);
  const std::vector<HandStep> steps = hand_steps(cutting);
  ASSERT_THAT(steps, SizeIs(4));
  EXPECT_EQ(steps[0].kind, HandStep::Kind::punch);
  EXPECT_THAT(steps[0].words, HasSubstr("216 corners, four of each card, with a punch of 3.5 mm"));
  EXPECT_EQ(steps[1].kind, HandStep::Kind::crease);
  EXPECT_EQ(steps[1].count, 18);
  EXPECT_EQ(steps[2].count, 46);
  EXPECT_EQ(steps[2].net, 0);
  EXPECT_EQ(steps[3].title, "Glue the box");
}

sheets::Plan laid(game::Game& game) {
  const sheets::PieceFormat format{game.card.size, game.card.bleed, game.card.bleed,
                                   false,          "card",          {}};
  return *sheets::lay({{0, 0, "", "main"}, {0, 0, "", "main"}}, format, game.sheets);
}

TEST(BackRegister, is_what_was_measured_and_grows_away_from_the_middle_of_the_sheet) {
  game::Game game;
  game.sheets.grid = game::GridAsked{3, 3};
  sheets::Plan plan = laid(game);
  press::Profile profile;
  profile.id = "study";
  profile.spread = {Mm{0.2}, Mm{0.1}, Angle{0.002}};
  profile.within = Mm{0.05};
  plan.correction.emplace();
  const auto backs = back_register(game, plan, profile);
  ASSERT_TRUE(backs);
  EXPECT_EQ(backs->known, BackRegister::Known::measured);
  EXPECT_TRUE(backs->is_corrected);
  ASSERT_THAT(backs->bands, SizeIs(plan.grid.trims.size()));
  const BackBand& first = backs->bands.front();
  // By hand: the first card's upper edge is the farther from the middle of the sheet.
  const double arm = plan.grid.paper.height.value / 2 - first.trim.top().value;
  EXPECT_NEAR(first.reach_x.value, 2 * std::hypot(0.2, 0.002 * arm) + 0.05, 1e-9);
  const std::size_t middle = 4;
  EXPECT_LT(backs->bands[middle].reach_x, first.reach_x);
  EXPECT_THAT(register_words(*backs).front(), HasSubstr("study"));
}

TEST(BackRegister, is_assumed_without_a_profile_and_says_so) {
  game::Game game;
  const sheets::Plan plan = laid(game);
  const auto backs = back_register(game, plan, std::nullopt);
  ASSERT_TRUE(backs);
  EXPECT_EQ(backs->known, BackRegister::Known::assumed);
  EXPECT_THAT(register_words(*backs).front(), HasSubstr("assumed"));
  game.printer.register_within = Mm{0.8};
  const auto said = back_register(game, plan, std::nullopt);
  EXPECT_EQ(said->known, BackRegister::Known::said);
  EXPECT_NEAR(said->spread.shift_x.value, 0.4, 1e-12);
}

TEST(BackRegister, is_none_where_backs_are_not_printed_behind_their_fronts) {
  game::Game game;
  game.sheets.backs = game::BackPrinting::none;
  EXPECT_FALSE(back_register(game, laid(game), std::nullopt));
}

}  // namespace
}  // namespace quoin::making
