#include "pieces/card/check_backs.h"

#include <gtest/gtest.h>

#include "pieces/card/inspect_fixture.h"

namespace quoin::pieces {
namespace {

class Backs : public ::testing::Test, protected DrawnFace {
 protected:
  std::string said() {
    typeset(scene, typesetter);
    const Face back{"back of main", scene, format, row};
    return whole(check_back(back, look_at(back, shelf)));
  }
};

TEST_F(Backs, tells_a_back_that_shows_which_way_up) {
  panel("sea", bleed_box, colour("#204060"));
  panel("sun", box(20, 10, 8, 8), colour("#ffdd44"));
  EXPECT_EQ(said(),
            "warning back.shows-which-way-up cards.csv:7:1 on back of main/\n"
            "turned upside down, the back differs from itself by 76.3; up to 5.0 goes unseen\n"
            "most at 21 mm from the left and 11 mm from the top; 1.7 on average (CIEDE2000, "
            "squares of 2 mm)\n"
            "players can tell which cards were turned round\n"
            "hint: draw the back so that it looks the same upside down, or silence this with "
            "[checks] off when the cards always lie one way\n");
}

TEST_F(Backs, lets_a_back_that_is_its_own_half_turn_pass) {
  panel("sea", bleed_box, colour("#204060"));
  for (const double degrees : {0.0, 180.0}) {
    panel("sun", box(20.3, 10.7, 8, 8), colour("#ffdd44")).map =
        Affine::turn_about(trim_box.centre(), Angle::degrees(degrees));
    Path line;
    line.move_to({Mm{5.1}, Mm{30.3}}).line_to({Mm{28.3}, Mm{44.4}});
    Stroke stroke;
    stroke.paint = white;
    stroke.width = Mm{0.37};
    add("line", ShapeItem{line, NoPaint{}, stroke}).map =
        Affine::turn_about(trim_box.centre(), Angle::degrees(degrees));
  }
  EXPECT_EQ(said(), "");
}

TEST_F(Backs, lets_a_card_size_of_odd_fractions_pass) {
  format.size = {Mm{57.15}, Mm{87.3}};
  trim_box = {{}, format.size};
  for (const double degrees : {0.0, 180.0}) {
    panel("dot", box(20.3, 10.7, 8, 8), black).map =
        Affine::turn_about(trim_box.centre(), Angle::degrees(degrees));
  }
  EXPECT_EQ(said(), "");
}

TEST_F(Backs, does_not_look_at_the_bleed) {
  panel("sea", bleed_box, colour("#204060"));
  panel("note", box(10, -3, 20, 2.5), white);
  EXPECT_EQ(said(), "");
}

TEST_F(Backs, measure_nothing_on_a_blank_back) {
  const FaceLook blank = look();
  EXPECT_EQ(half_turn(blank).worst, 0);
  EXPECT_EQ(half_turn(blank).mean, 0);
}

DeckBack card(std::string deck, std::string id, std::string drawing, int copies,
              std::uint32_t line) {
  return {std::move(deck), std::move(id), std::move(drawing), copies,
          Origin{FileName("cards.csv"), line, 1, 0}};
}

TEST(DeckBacks, tells_a_deck_with_different_backs) {
  EXPECT_EQ(
      whole(check_deck_backs({card("main", "A", "plain", 2, 2), card("main", "B", "plain", 3, 3),
                              card("main", "C", "red", 1, 4), card("main", "D", "red", 1, 5),
                              card("main", "E", "", 2, 6), card("tide", "F", "red", 2, 7)})),
      "warning back.differs-within-deck cards.csv:4:1 on back of main/\n"
      "deck main has 3 different backs; 5 of its 9 cards have the usual one\n"
      "C and 1 more have another back\n"
      "E has a blank back\n"
      "hint: give all its cards one back, or make them decks of their own\n");
}

TEST(DeckBacks, lets_decks_with_one_back_each_pass) {
  EXPECT_TRUE(check_deck_backs({card("main", "A", "plain", 2, 2), card("tide", "B", "red", 1, 3),
                                card("main", "C", "plain", 1, 4)})
                  .empty());
}

TEST(DeckBacks, does_not_count_cards_without_copies) {
  EXPECT_TRUE(
      check_deck_backs({card("main", "A", "plain", 2, 2), card("main", "B", "red", 0, 3)}).empty());
}

}  // namespace
}  // namespace quoin::pieces
