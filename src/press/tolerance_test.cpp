#include "press/tolerance.h"

#include <gmock/gmock.h>

#include <boost/math/distributions/binomial.hpp>
#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <random>

namespace quoin::press {
namespace {

ErrorBudget budget(double cut, double shift, double turn_degrees = 0) {
  const Mm c{cut}, s{shift};
  return {c, c, c, c, s, s, Angle::degrees(turn_degrees)};
}
Margins card(double bleed, double safe, double border) {
  return {{Mm{63.5}, Mm{88.9}}, Mm{bleed}, Mm{safe}, Mm{border}};
}

/// Four independent cuts and a print that does not move: 1 - Phi(b/c)^4, by Boost.Math.
TEST(Chances, of_a_print_that_does_not_move_are_the_normal_tail) {
  const boost::math::normal normal;
  for (const double bleed : {0.3, 0.6, 1.0}) {
    const double stays = boost::math::cdf(normal, bleed / 0.4);
    const Chances found = chances(card(bleed, bleed, 0), budget(0.4, 0));
    EXPECT_NEAR(found.white_edge, 1 - std::pow(stays, 4), 1e-9);
    EXPECT_NEAR(found.clipped, 1 - std::pow(stays, 4), 1e-9);
    EXPECT_EQ(found.lopsided, 0);
  }
}

/// Exact cuts and a moving print: both sides of a way exclude each other, P(|s| > b).
TEST(Chances, of_exact_cuts_are_those_of_the_print_alone) {
  const boost::math::normal normal;
  const double inside = 1 - 2 * boost::math::cdf(boost::math::complement(normal, 1.0 / 0.5));
  const Chances found = chances(card(1, 3, 0), budget(0, 0.5));
  EXPECT_NEAR(found.white_edge, 1 - inside * inside, 1e-9);
}

TEST(Chances, agree_with_ten_thousand_cards_cut_in_simulation) {
  for (const double cut : {0.15, 0.3}) {
    for (const double shift : {0.0, 0.4, 0.8}) {
      const Margins margins = card(0.9, 0.8, 2.5);
      const Chances closed = chances(margins, budget(cut, shift));
      const Chances tried = simulated_chances(margins, budget(cut, shift), {200'000, 11});
      // Three standard errors of a share of 200,000 are 0.0034 at most.
      EXPECT_NEAR(closed.white_edge, tried.white_edge, 0.0034);
      EXPECT_NEAR(closed.clipped, tried.clipped, 0.0034);
      EXPECT_NEAR(closed.lopsided, tried.lopsided, 0.0034);
    }
  }
}

TEST(Chances, of_a_turned_print_come_near_to_the_simulation) {
  const Margins margins = card(1.2, 1.2, 0);
  const Chances closed = chances(margins, budget(0.3, 0.3, 0.4));
  const Chances tried = simulated_chances(margins, budget(0.3, 0.3, 0.4), {100'000, 3});
  EXPECT_GT(tried.white_edge, chances(margins, budget(0.3, 0.3)).white_edge);
  EXPECT_NEAR(closed.white_edge, tried.white_edge, 0.03);
}

TEST(Chances, are_the_same_for_the_same_seed) {
  const Margins margins = card(0.5, 0.5, 2);
  const Chances a = simulated_chances(margins, budget(0.4, 0.4), {5000, 8});
  const Chances b = simulated_chances(margins, budget(0.4, 0.4), {5000, 8});
  EXPECT_EQ(a.white_edge, b.white_edge);
  EXPECT_EQ(a.lopsided, b.lopsided);
}

TEST(Chances, grow_as_borders_get_narrower) {
  double before = 1;
  for (const double border : {0.5, 1.0, 1.5, 3.0, 6.0}) {
    const double now = chances(card(3, 3, border), budget(0.3, 0.3)).lopsided;
    EXPECT_LT(now, before);
    before = now;
  }
}

TEST(NeededFor, is_the_smallest_width_that_keeps_the_chance) {
  const ErrorBudget errors = budget(0.3, 0.5);
  const Needed needed = needed_for(0.01, card(3, 3, 3), errors);
  EXPECT_LE(chances(card(needed.bleed.value, 3, 3), errors).white_edge, 0.01);
  EXPECT_GT(chances(card(needed.bleed.value - 0.01, 3, 3), errors).white_edge, 0.01);
  EXPECT_LE(chances(card(3, needed.safe.value, 3), errors).clipped, 0.01);
  EXPECT_LE(chances(card(3, 3, needed.border.value), errors).lopsided, 0.01);
  EXPECT_GT(chances(card(3, 3, needed.border.value - 0.01), errors).lopsided, 0.01);
}

TEST(Spares, are_the_fewest_by_the_binomial_of_boost) {
  const PrintRun run{2, 9, 3, 0.1};
  const Spares found = spares(run);
  EXPECT_NEAR(found.expected, 5.4, 1e-12);
  const auto all_good = [&](int extra) {
    const boost::math::binomial good(3 + extra, 0.9);
    return std::pow(boost::math::cdf(boost::math::complement(good, 2)), 18);
  };
  EXPECT_GE(all_good(found.of_each), 0.95);
  EXPECT_LT(all_good(found.of_each - 1), 0.95);
}

TEST(Spares, are_none_when_nothing_is_spoilt_and_have_an_end) {
  EXPECT_EQ(spares({4, 9, 1, 0}).of_each, 0);
  EXPECT_EQ(spares({4, 9, 1, 0.9999}).of_each, 1000);
}

TEST(StrayInPile, is_what_prints_stray_against_the_top_sheet) {
  EXPECT_EQ(stray_in_pile(Mm{0.2}, 1), Mm{});
  std::mt19937_64 random(7);
  std::normal_distribution<double> feed(0, 0.2);
  constexpr int piles = 40'000, sheets = 3;
  double squares = 0;
  for (int pile = 0; pile < piles; ++pile) {
    const double top = feed(random);
    for (int sheet = 1; sheet < sheets; ++sheet) {
      const double off = feed(random) - top;
      squares += off * off;
    }
  }
  EXPECT_NEAR(stray_in_pile(Mm{0.2}, sheets).value, std::sqrt(squares / (piles * sheets)), 0.002);
}

TEST(RoughCorner, is_the_chance_of_boost_that_one_of_eight_strays_is_too_far) {
  const boost::math::normal stray(0, 0.1);
  const double lies = 1 - 2 * boost::math::cdf(boost::math::complement(stray, 0.3));
  EXPECT_NEAR(rough_corner(Mm{0.1}, Mm{0.3}), 1 - std::pow(lies, 8), 1e-12);
  EXPECT_EQ(rough_corner(Mm{}, Mm{0.3}), 0);
  EXPECT_NEAR(rough_corner(Mm{10}, Mm{0}), 1, 1e-12);
}

}  // namespace
}  // namespace quoin::press
