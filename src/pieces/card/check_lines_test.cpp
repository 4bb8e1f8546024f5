#include <gtest/gtest.h>

#include "pieces/card/inspect_fixture.h"

namespace quoin::pieces {
namespace {

class ThinLines : public ::testing::Test, protected DrawnFace {
 protected:
  std::string said() { return whole(only(Id::card_thin_line, check())); }
};

TEST_F(ThinLines, tells_a_dark_hairline) {
  frame("rule", box(10, 10, 30, 30), Mm{0.05}, black);
  EXPECT_EQ(said(),
            "warning card.thin-line face.toml:1:1 on W-07/rule\n"
            "the line is 0.05 mm wide; 0.088 mm is the thinnest that prints whole\n"
            "it breaks up into dots or vanishes\n"
            "hint: make it 0.09 mm or wider\n");
}

TEST_F(ThinLines, asks_more_of_a_light_line_on_dark) {
  panel("night", bleed_box, colour("#102030"));
  frame("rule", box(10, 10, 30, 30), Mm{0.12}, white);
  EXPECT_EQ(said(),
            "warning card.thin-line face.toml:2:1 on W-07/rule\n"
            "the light line on a darker ground is 0.12 mm wide; 0.18 mm is the thinnest that stays "
            "open\n"
            "ink closes it in places\n"
            "hint: make it 0.18 mm or wider\n");
}

TEST_F(ThinLines, lets_the_same_line_in_dark_ink_pass) {
  frame("rule", box(10, 10, 30, 30), Mm{0.12}, black);
  EXPECT_EQ(said(), "");
}

TEST_F(ThinLines, looks_under_the_line_and_not_at_what_it_encloses) {
  panel("window", box(12, 12, 26, 26), colour("#102030"));
  frame("rule", box(10, 10, 30, 30), Mm{0.12}, colour("#808080"));
  EXPECT_EQ(said(), "");
}

TEST_F(ThinLines, counts_a_filled_strip_as_a_line) {
  panel("rule", box(10, 10, 30, 0.06), black);
  EXPECT_EQ(only(Id::card_thin_line, check()).at(0).message,
            "the line is 0.06 mm wide; 0.088 mm is the thinnest that prints whole");
}

TEST_F(ThinLines, counts_the_thinner_way_of_an_uneven_scale) {
  frame("rule", box(10, 10, 30, 30), Mm{0.1}, black);
  Item inner = take_last();
  group("squeezed", {inner}).map = Affine::scale(1, 0.5);
  const Diagnostics found = only(Id::card_thin_line, check());
  EXPECT_EQ(found.at(0).message,
            "the line is 0.05 mm wide; 0.088 mm is the thinnest that prints whole");
  EXPECT_EQ(found.at(0).hints.at(0), "make it 0.18 mm or wider");
}

TEST_F(ThinLines, follows_curves_over_the_ground) {
  panel("night", box(-3, -3, 69.5, 50), colour("#102030"));
  Path arc;
  arc.move_to({Mm{5}, Mm{60}}).curve_to({Mm{5}, Mm{-10}}, {Mm{58}, Mm{-10}}, {Mm{58}, Mm{60}});
  Stroke stroke;
  stroke.paint = white;
  stroke.width = Mm{0.12};
  add("arc", ShapeItem{arc, NoPaint{}, stroke});
  EXPECT_EQ(only(Id::card_thin_line, check()).size(), 1U);
}

}  // namespace
}  // namespace quoin::pieces
