#include <gtest/gtest.h>

#include "pieces/card/inspect_fixture.h"

namespace quoin::pieces {
namespace {

std::uint32_t light_left_dark_right(int x, int) { return x < 80 ? 0xfff4f0e8U : 0xff203040U; }

class LowContrast : public ::testing::Test, protected DrawnFace {
 protected:
  std::string said() { return whole(only(Id::card_low_contrast, check())); }
};

TEST_F(LowContrast, tells_pale_text_on_paper_and_proposes_a_colour) {
  text("rule", "Take a shell", box(10, 40, 40, 6), 9, colour("#b0b0b0"));
  EXPECT_EQ(said(),
            "warning card.low-contrast face.toml:1:1 on W-07/rule\n"
            "the text stands out by 2.1 to 1; 4.5 to 1 reads well\n"
            "#b0b0b0 on #ffffff where it is weakest\n"
            "hint: colour = \"#727272\" would do, or a plain panel beneath the text\n");
  // #767676 is the lightest grey that reaches 4.5 on white (WCAG 2.2): the proposal is near it.
}

TEST_F(LowContrast, lets_the_lightest_readable_grey_pass_and_the_next_not) {
  text("rule", "Take a shell", box(10, 40, 40, 6), 9, colour("#767676"));
  EXPECT_EQ(said(), "");
  scene.items.clear();
  text("rule", "Take a shell", box(10, 40, 40, 6), 9, colour("#777777"));
  EXPECT_EQ(only(Id::card_low_contrast, check()).at(0).message,
            "the text stands out by 4.4 to 1; 4.5 to 1 reads well");
}

TEST_F(LowContrast, measures_against_what_is_really_behind) {
  panel("night", bleed_box, colour("#203040"));
  text("rule", "Take a shell", box(10, 40, 40, 6), 9, white);
  EXPECT_EQ(said(), "");
  panel("fog", box(8, 38, 44, 10), colour("#f4f0e8"));
  std::swap(scene.items[1], scene.items[2]);
  EXPECT_EQ(only(Id::card_low_contrast, check()).at(0).message,
            "the text stands out by 1.1 to 1; 4.5 to 1 reads well");
}

TEST_F(LowContrast, does_not_take_what_lies_above_for_the_ground) {
  text("rule", "Take a shell", box(10, 40, 40, 6), 9, black);
  panel("patch", box(8, 38, 44, 10), black);
  EXPECT_EQ(said(), "");
}

TEST_F(LowContrast, takes_the_worst_tenth_of_a_picture) {
  picture("art", picture_file("art.png", 278, 380, light_left_dark_right), bleed_box);
  text("rule", "Take a shell and a rope", box(5, 40, 50, 6), 9, colour("#203040"));
  EXPECT_EQ(said(),
            "warning card.low-contrast face.toml:2:1 on W-07/rule\n"
            "the text stands out by 1.0 to 1; 4.5 to 1 reads well\n"
            "#203040 on #203040 where it is weakest\n"
            "hint: lay a plain panel beneath the text, or give it an outline\n");
}

TEST_F(LowContrast, asks_less_of_large_type) {
  text("title", "Wrack", box(10, 40, 45, 12), 20, colour("#949494"));
  EXPECT_EQ(said(), "");
  scene.items.clear();
  text("title", "Wrack", box(10, 40, 45, 12), 20, colour("#959595"));
  EXPECT_EQ(only(Id::card_low_contrast, check()).at(0).message,
            "the text stands out by 2.9 to 1; 3.0 to 1 reads well in large type");
}

TEST_F(LowContrast, counts_bold_type_of_14_points_as_large) {
  Item& item = text("title", "Wrack", box(10, 40, 45, 12), 14, colour("#909090"));
  EXPECT_EQ(only(Id::card_low_contrast, check()).size(), 1U);
  auto& title = std::get<TextItem>(item.what);
  title.block.style.weight = 700;
  title.set = SetText();
  EXPECT_EQ(said(), "");
}

TEST_F(LowContrast, counts_a_line_round_the_letters_as_their_ground) {
  panel("fog", bleed_box, colour("#f4f0e8"));
  Item& item = text("rule", "Take a shell", box(10, 40, 40, 6), 9, white);
  auto& words = std::get<TextItem>(item.what);
  Stroke line;
  line.paint = colour("#203040");
  line.width = Mm{0.4};
  words.block.style.strokes = {line};
  EXPECT_EQ(said(), "");
  words.block.style.strokes[0].width = Mm{0.1};  // 0.05 mm on each side is no ground
  words.set = SetText();
  EXPECT_EQ(only(Id::card_low_contrast, check()).size(), 1U);
}

TEST_F(LowContrast, counts_the_outline_of_the_element_too) {
  panel("fog", bleed_box, colour("#f4f0e8"));
  text("rule", "Take a shell", box(10, 40, 40, 6), 9, white).outline =
      Outline{colour("#203040"), Mm{0.3}};
  EXPECT_EQ(said(), "");
}

TEST_F(LowContrast, mixes_faint_text_with_its_ground) {
  text("rule", "Take a shell", box(10, 40, 40, 6), 9, black).opacity = 0.3;
  EXPECT_EQ(said(),
            "warning card.low-contrast face.toml:1:1 on W-07/rule\n"
            "the text stands out by 2.1 to 1; 4.5 to 1 reads well\n"
            "#b3b3b3 on #ffffff where it is weakest\n"
            "hint: lay a plain panel beneath the text, or give it an outline\n");
}

TEST_F(LowContrast, takes_the_weakest_colour_of_a_gradient) {
  Item& item = text("title", "Wrack", box(10, 40, 45, 12), 16);
  LinearGradient fade{{}, {Mm{45}, Mm{0}}, {{black, 0}, {colour("#dddddd"), 1}}};
  std::get<TextItem>(item.what).block.style.fill = fade;
  EXPECT_EQ(only(Id::card_low_contrast, check()).size(), 1U);
}

TEST_F(LowContrast, sees_the_ground_through_a_faint_group) {
  panel("night", bleed_box, colour("#203040"));
  panel("fog", box(8, 38, 44, 10), white);
  Item fog = take_last();
  text("rule", "Take a shell", box(10, 40, 40, 6), 9, black);
  Item rule = take_last();
  group("label", {fog, rule}).opacity = 0.9;
  EXPECT_EQ(said(), "");
  scene.items.back().opacity = 0.25;
  EXPECT_EQ(only(Id::card_low_contrast, check()).size(), 1U);
}

TEST_F(LowContrast, lets_decoration_pass) {
  text("pattern", "wave wave", box(10, 40, 40, 6), 9, colour("#eeeeee")).role = Role::decoration;
  EXPECT_EQ(said(), "");
}

}  // namespace
}  // namespace quoin::pieces
