#include "media/colour.h"

#include <gtest/gtest.h>

namespace quoin {
namespace {

TEST(ParseColour, reads_all_four_hexadecimal_lengths) {
  EXPECT_EQ(parse_colour("#f80"), (Colour{1, 0x88 / 255.0, 0, 1}));
  EXPECT_EQ(parse_colour("#f80c"), (Colour{1, 0x88 / 255.0, 0, 0xcc / 255.0}));
  EXPECT_EQ(parse_colour("#1D2b33"), (Colour{0x1d / 255.0, 0x2b / 255.0, 0x33 / 255.0, 1}));
  EXPECT_EQ(parse_colour("#1d2b3380"),
            (Colour{0x1d / 255.0, 0x2b / 255.0, 0x33 / 255.0, 0x80 / 255.0}));
}

TEST(ParseColour, knows_three_words) {
  EXPECT_EQ(parse_colour("black"), black);
  EXPECT_EQ(parse_colour("white"), white);
  EXPECT_EQ(parse_colour("transparent"), (Colour{0, 0, 0, 0}));
}

TEST(ParseColour, gives_nothing_for_anything_else) {
  for (const char* text : {"", "#", "#1", "#12", "#12345", "#1234567", "#123456789", "#12g", "red",
                           "1d2b33", " #fff", "#fff ", "#+12", "Black"}) {
    EXPECT_EQ(parse_colour(text), std::nullopt) << text;
  }
}

TEST(ColourText, writes_what_parse_reads) {
  for (const char* text : {"#000000", "#1d2b33", "#ffffff", "#1d2b3300", "#0102037f"}) {
    EXPECT_EQ(to_string(*parse_colour(text)), text);
  }
}

TEST(ColourText, keeps_parts_outside_the_space_at_its_edge) {
  EXPECT_EQ(to_string(Colour{-0.2, 1.4, 0.5, 1}), "#00ff80");
}

TEST(Composited, mixes_by_alpha_and_is_opaque) {
  EXPECT_EQ(to_string(composited({0, 0, 0, 0.25}, white)), "#bfbfbf");
  EXPECT_EQ(composited({1, 0, 0, 0}, white), white);
  EXPECT_EQ(composited(black, white), black);
}

TEST(SeenWith, leaves_normal_vision_and_alpha_alone) {
  const Colour colour{0.2, 0.4, 0.6, 0.5};
  EXPECT_EQ(seen_with(Vision::normal, colour), colour);
  EXPECT_EQ(seen_with(Vision::deutan, colour).alpha, 0.5);
}

TEST(MachadoMatrix, lies_half_way_between_two_steps_of_the_table) {
  const auto low = machado_matrix(Vision::tritan, 0.4), high = machado_matrix(Vision::tritan, 0.5);
  const auto between = machado_matrix(Vision::tritan, 0.45);
  for (std::size_t i = 0; i < 9; ++i) EXPECT_NEAR(between[i], (low[i] + high[i]) / 2, 1e-12) << i;
}

TEST(MachadoMatrix, takes_severities_outside_the_table_as_its_ends) {
  EXPECT_EQ(machado_matrix(Vision::protan, -1), machado_matrix(Vision::normal, 0));
  EXPECT_EQ(machado_matrix(Vision::protan, 7), machado_matrix(Vision::protan, 1));
}

}  // namespace
}  // namespace quoin
