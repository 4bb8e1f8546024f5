#include "pieces/card/suit_change.h"

#include <gtest/gtest.h>

#include <cstdint>

#include "pieces/card/check_suits.h"
#include "pieces/card/inspect_fixture.h"

namespace quoin::pieces {
namespace {

constexpr double usual_limit = 10;

TEST(SafeChange, leaves_lightness_to_do_it_where_that_is_little) {
  const Colour moss = colour("#7a7a2a");
  const auto changed = safe_change(colour("#b0652a"), {moss}, usual_limit);
  ASSERT_TRUE(changed);
  EXPECT_GE(least_difference(*changed, moss), usual_limit);
  const Lab before = to_lab(colour("#b0652a")), after = to_lab(*changed);
  EXPECT_GT(std::abs(after.l - before.l), 3);
  EXPECT_LT(std::hypot(after.a - before.a, after.b - before.b), 1.5);  // what rounding to hex makes
}

TEST(SafeChange, is_nothing_when_no_colour_is_far_enough) {
  EXPECT_FALSE(safe_change(colour("#808080"), {black, white}, 99));
}

/// Suits that share a table, of any colours; the same for each run.
std::vector<SuitLook> random_suits(std::uint32_t& state) {
  const auto next = [&] { return (state = state * 1664525U + 1013904223U) >> 8; };
  std::vector<SuitLook> suits;
  const std::uint32_t count = 2 + next() % 4;
  for (std::uint32_t i = 0; i < count; ++i) {
    const Colour any{next() % 256 / 255.0, next() % 256 / 255.0, next() % 256 / 255.0, 1};
    suits.push_back({std::string(1, char('A' + i)), Origin{FileName("game.toml"), 10 + i, 1, 0},
                     any, "", SuitLook::Source::declared});
  }
  return suits;
}

TEST(SuitsAlike, a_change_that_is_advised_makes_its_suit_unlike_all_others) {
  std::uint32_t state = 2026;
  const game::Limits limits;
  int advised = 0;
  for (int set = 0; set < 30; ++set) {
    const std::vector<SuitLook> suits = random_suits(state);
    for (const Diagnostic& finding : check_suits(suits, {}, limits)) {
      const std::string hint = finding.hints.at(0);
      if (!hint.starts_with("make ") || hint.starts_with("make one")) continue;
      ++advised;
      std::vector<SuitLook> taken = suits;
      const auto which = std::size_t(hint.at(5) - 'A');
      EXPECT_NE(hint.find("instead of " + to_string(suits.at(which).colour)), std::string::npos);
      taken.at(which).colour = *parse_colour(hint.substr(7, 7));
      for (const Diagnostic& left : check_suits(taken, {}, limits)) {
        const std::string of = "colours of " + taken[which].name + " ",
                          and_of = " and " + taken[which].name + " differ";
        EXPECT_EQ(left.message.find(of), std::string::npos) << hint << "\n" << left.message;
        EXPECT_EQ(left.message.find(and_of), std::string::npos) << hint << "\n" << left.message;
      }
    }
  }
  EXPECT_GE(advised, 10);
}

}  // namespace
}  // namespace quoin::pieces
