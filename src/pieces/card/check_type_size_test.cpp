#include <gtest/gtest.h>

#include "pieces/card/inspect_fixture.h"

namespace quoin::pieces {
namespace {

class TypeSize : public ::testing::Test, protected DrawnFace {
 protected:
  std::string said() { return whole(only(Id::card_small_type, check())); }
};

TEST_F(TypeSize, tells_small_dark_type) {
  text("credit", "Drawn by hand", box(10, 70, 40, 5), 5.2);
  EXPECT_EQ(said(),
            "warning card.small-type face.toml:1:1 on W-07/credit\n"
            "the type prints at 5.2 pt; 6.0 pt is the smallest that reads well\n"
            "letters this small fill in, and cards are read at arm's length\n"
            "hint: set type = 6 or more\n");
}

TEST_F(TypeSize, lets_dark_type_of_the_limit_pass) {
  text("credit", "Drawn by hand", box(10, 70, 40, 5), 6);
  EXPECT_EQ(said(), "");
}

TEST_F(TypeSize, asks_more_of_light_type_on_dark) {
  panel("night", bleed_box, colour("#102030"));
  text("credit", "Drawn by hand", box(10, 70, 40, 5), 6.5, white);
  EXPECT_EQ(said(),
            "warning card.small-type face.toml:2:1 on W-07/credit\n"
            "light type on a darker ground prints at 6.5 pt; 7.0 pt is the smallest that stays "
            "open\n"
            "ink creeps into the letters from all sides and closes them\n"
            "hint: set type = 7 or more\n");
}

TEST_F(TypeSize, asks_no_more_of_dark_type_on_a_tint) {
  panel("tint", bleed_box, colour("#e8d8b8"));
  text("credit", "Drawn by hand", box(10, 70, 40, 5), 6.5);
  EXPECT_EQ(said(), "");
}

TEST_F(TypeSize, counts_the_scale_of_groups) {
  text("credit", "Drawn by hand", box(10, 70, 40, 5), 8);
  Item inner = take_last();
  group("foot", {inner}).map = Affine::scale(0.5, 0.5);
  EXPECT_EQ(said(),
            "warning card.small-type face.toml:1:1 on W-07/credit\n"
            "the type prints at 4.0 pt; 6.0 pt is the smallest that reads well\n"
            "letters this small fill in, and cards are read at arm's length\n"
            "hint: set type = 12 or more\n");
}

TEST_F(TypeSize, says_when_it_was_shrunk) {
  Item& item =
      text("rule", std::string(60, 'n') + " " + std::string(30, 'n'), box(10, 30, 40, 30), 9);
  auto& style = std::get<TextItem>(item.what).block.style;
  style.smallest_size = Mm{3 * mm_per_inch / points_per_inch};
  const Diagnostics found = only(Id::card_small_type, check());
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].details.at(1), "it was shrunk from 9.0 pt to fit its box");
  EXPECT_EQ(found[0].hints.at(0), "shorten the text or make its box larger, and set minimum = 6");
}

TEST_F(TypeSize, lets_decoration_pass) {
  text("pattern", "wave wave wave", box(10, 70, 40, 5), 4).role = Role::decoration;
  EXPECT_EQ(said(), "");
}

}  // namespace
}  // namespace quoin::pieces
