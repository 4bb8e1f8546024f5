#include "pieces/box/stack.h"

#include <gtest/gtest.h>

#include "game/paper_classes.h"
#include "pieces/card/inspect_fixture.h"

namespace quoin::pieces {
namespace {

Contents sixty_cards() { return {60, {Mm{63.5}, Mm{88.9}}, {}}; }

TEST(DeckHeight, from_a_caliper_is_cards_times_caliper_give_or_take_a_lot) {
  Contents contents = sixty_cards();
  contents.stock.caliper = Mm{0.30};
  const Deck deck = deck_of(contents, {}).value;
  EXPECT_NEAR(deck.pile.low.value, 17.1, 1e-9);
  EXPECT_NEAR(deck.pile.typical.value, 18.0, 1e-9);
  EXPECT_NEAR(deck.pile.high.value, 18.9, 1e-9);
  EXPECT_NEAR(deck.height.low.value, 17.1, 1e-9);
  EXPECT_NEAR(deck.height.typical.value, 18.36, 1e-9);
  EXPECT_NEAR(deck.height.high.value, 19.4, 1e-9);
}

TEST(DeckHeight, from_a_measured_pile_asks_nothing_else) {
  Contents contents = sixty_cards();
  contents.cards = 30;
  contents.stock.caliper = Mm{9};
  game::BoxWishes wishes;
  wishes.pile = {60, Mm{19.4}};
  const Deck deck = deck_of(contents, wishes).value;
  EXPECT_NEAR(deck.height.typical.value, 9.7, 1e-9);
  EXPECT_NEAR(deck.height.high.value, 9.894, 1e-9);
}

TEST(DeckHeight, from_grammage_spans_the_bulk_of_the_class) {
  // DIN 19303: white-lined chipboard GD2 has 1.30 to 1.45 cm³/g.
  const auto range = caliper_of(std::nullopt, 300, "white-lined-chipboard", "");
  ASSERT_TRUE(range);
  EXPECT_NEAR(range->low.value, 0.390, 1e-9);
  EXPECT_NEAR(range->typical.value, 0.414, 1e-9);
  EXPECT_NEAR(range->high.value, 0.435, 1e-9);
}

TEST(DeckHeight, holds_sleeves_and_leaflet) {
  Contents contents = sixty_cards();
  contents.stock.caliper = Mm{0.30};
  game::BoxWishes wishes;
  wishes.sleeves = {Mm{66}, Mm{91}, Mm{0.12}};
  wishes.leaflet = Mm{0.8};
  const Deck deck = deck_of(contents, wishes).value;
  EXPECT_NEAR(deck.height.typical.value, 18.36 + 7.2 + 0.8, 1e-9);
  EXPECT_EQ(deck.face, (Size{Mm{66}, Mm{91}}));
}

TEST(DeckHeight, of_unknown_paper_is_assumed_and_said_so) {
  Contents contents = sixty_cards();
  contents.stock.origin = {FileName("game.toml"), 0, 0, 0};
  const auto made = deck_of(contents, {});
  EXPECT_NEAR(made.value.pile.typical.value, 18, 1e-9);
  EXPECT_EQ(whole(made.found),
            "warning box.card-thickness-assumed game.toml on /\n"
            "how thick the cards are is not said, so the box is made for 60 cards of 0.30 mm\n"
            "a card of 0.25 or 0.35 mm makes the deck a sixth thinner or thicker\n"
            "hint: write caliper = 0.30 under [stock], or better measure a pile: pile = [60, 19.4] "
            "under [box]\n");
}

TEST(PaperClasses, have_their_usual_bulk_between_least_and_most) {
  for (const game::PaperClass& one : game::paper_classes()) {
    EXPECT_LT(one.least, one.usual) << one.word;
    EXPECT_LT(one.usual, one.most) << one.word;
  }
}

}  // namespace
}  // namespace quoin::pieces
