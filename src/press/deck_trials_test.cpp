#include <gmock/gmock.h>

#include <boost/math/distributions/binomial.hpp>
#include <cmath>

#include "press/tolerance.h"

namespace quoin::press {
namespace {

DeckCard card_cut_within(double cut, double shift) {
  const Margins margins{{Mm{63.5}, Mm{88.9}}, Mm{0.6}, Mm{1}, Mm{2}};
  const Mm c{cut}, s{shift};
  return {margins, margins, {c, c, c, c, {}, {}, {}}, {c, c, c, c, s, s, {}}};
}

TEST(SimulatedDeck, agrees_with_the_closed_form_where_backs_cannot_be_spoilt) {
  DeckCard card = card_cut_within(0.3, 0.4);
  card.back.bleed = card.back.safe = Mm{50};
  card.back.border = {};
  const DeckTrials tried = simulated_deck(std::vector<DeckCard>(60, card), {10'000, 5});
  const Chances front = chances(card.front, card.errors);
  // Both cannot happen on one side at once; clipped is beyond 3 deviations and rare.
  const double spoilt = 1 - (1 - front.white_edge) * (1 - front.clipped);
  EXPECT_NEAR(tried.spoilt, 60 * spoilt, 60 * 3 * std::sqrt(spoilt / 600'000));
  EXPECT_NEAR(tried.lopsided, 60 * front.lopsided, 60 * 3 * std::sqrt(0.25 / 600'000));
}

TEST(SimulatedDeck, agrees_with_the_closed_form_for_backs_alone) {
  DeckCard card = card_cut_within(0.2, 0.5);
  card.front.bleed = card.front.safe = Mm{50};
  card.front.border = {};
  card.back.safe = Mm{50};
  const DeckTrials tried = simulated_deck(std::vector<DeckCard>(60, card), {10'000, 6});
  const Chances back = chances(card.back, card.back_errors);
  EXPECT_NEAR(tried.spoilt, 60 * back.white_edge, 60 * 3 * std::sqrt(0.25 / 600'000));
  EXPECT_NEAR(tried.lopsided, 60 * back.lopsided, 60 * 3 * std::sqrt(0.25 / 600'000));
}

/// Cards stray on their own, so the spoilt ones of a deck are binomial (Boost.Math).
TEST(SimulatedDeck, spreads_as_the_binomial_does) {
  DeckCard card = card_cut_within(0.35, 0);
  card.back.bleed = card.back.safe = Mm{50};
  card.front.safe = Mm{50};
  const DeckTrials tried = simulated_deck(std::vector<DeckCard>(60, card), {10'000, 7});
  const double spoilt = chances(card.front, card.errors).white_edge;
  const boost::math::binomial deck(60, spoilt);
  const double expected = boost::math::quantile(deck, 0.95);
  EXPECT_NEAR(tried.spoilt_at_most, expected, 1);
}

TEST(SimulatedDeck, is_the_same_for_the_same_seed_and_knows_an_empty_deck) {
  const std::vector<DeckCard> deck(20, card_cut_within(0.3, 0.4));
  EXPECT_EQ(simulated_deck(deck, {500, 3}).spoilt, simulated_deck(deck, {500, 3}).spoilt);
  EXPECT_EQ(simulated_deck({}, {500, 3}).spoilt, 0);
  EXPECT_EQ(simulated_deck(deck, {0, 3}).spoilt_at_most, 0);
}

}  // namespace
}  // namespace quoin::press
