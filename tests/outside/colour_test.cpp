#include "media/colour.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "tables.h"

namespace quoin {
namespace {

using outside::number;
using outside::rows_of;
using outside::TableRow;

Colour from_bytes(double red, double green, double blue) {
  return {red / 255, green / 255, blue / 255, 1};
}

Lab lab(const TableRow& row, std::size_t first) {
  return {number(row.at(first)), number(row.at(first + 1)), number(row.at(first + 2))};
}

// Sharma, Wu, Dalal, "The CIEDE2000 Color-Difference Formula: Implementation Notes,
// Supplementary Test Data, and Mathematical Observations", Color Research and Application 30(1),
// 2005, table 1: 34 pairs, printed to four decimals.
TEST(ColourDifference, agrees_with_all_published_pairs_of_ciede2000) {
  const auto rows = rows_of("ciede2000.csv");
  ASSERT_EQ(rows.size(), 34U);
  for (const TableRow& row : rows) {
    const Lab a = lab(row, 1), b = lab(row, 4);
    EXPECT_NEAR(ciede2000(a, b), number(row.at(7)), 1e-4) << "pair " << row.at(0);
    EXPECT_NEAR(ciede2000(b, a), number(row.at(7)), 1e-4) << "turned pair " << row.at(0);
    EXPECT_NEAR(ciede2000(a, a), 0, 1e-12) << "pair " << row.at(0);
  }
}

// Ten rows computed apart from this program from the primaries of IEC 61966-2-1 under D65 as
// (0.95047, 1, 1.08883), to three decimals.
TEST(Lab, agrees_with_the_table_of_srgb_colours) {
  int compared = 0;
  for (const TableRow& row : rows_of("srgb_lab.csv")) {
    if (row.at(0).starts_with("pair")) continue;
    const Lab found = to_lab(from_bytes(number(row.at(1)), number(row.at(2)), number(row.at(3))));
    EXPECT_NEAR(found.l, number(row.at(4)), 6e-4) << row.at(0);
    EXPECT_NEAR(found.a, number(row.at(5)), 6e-4) << row.at(0);
    EXPECT_NEAR(found.b, number(row.at(6)), 6e-4) << row.at(0);
    ++compared;
  }
  EXPECT_EQ(compared, 10);
}

// 24 published pairs of Lab and 8-bit sRGB. Their greys lie 0.02 to 0.05 off the neutral axis,
// since their white point was rounded elsewhere; a step of one in 255 is 0.2 or more in Lab, so
// 0.07 still tells each colour from its neighbours.
TEST(Lab, agrees_with_the_published_pairs_within_a_third_of_a_step) {
  int compared = 0;
  for (const TableRow& row : rows_of("srgb_lab.csv")) {
    if (!row.at(0).starts_with("pair")) continue;
    const Lab found = to_lab(from_bytes(number(row.at(1)), number(row.at(2)), number(row.at(3))));
    const Lab asked = lab(row, 4);
    EXPECT_NEAR(found.l, asked.l, 0.01) << row.at(0);
    EXPECT_LT(std::hypot(found.a - asked.a, found.b - asked.b), 0.07) << row.at(0);
    ++compared;
  }
  EXPECT_EQ(compared, 24);
}

Vision vision_named(const std::string& name) {
  for (const Vision vision : {Vision::protan, Vision::deutan, Vision::tritan}) {
    if (to_string(vision) == name) return vision;
  }
  throw std::runtime_error("no such vision: " + name);
}

// Machado, Oliveira, Fernandes, "A Physiologically-based Model for Simulation of Color Vision
// Deficiency", IEEE TVCG 15(6), 2009, supplementary table. The copy here was compared, all 297
// numbers, with the table of an independent colour library (MIT licence).
TEST(ColourVision, agrees_with_the_published_matrices) {
  const auto rows = rows_of("cvd_machado2009.csv");
  ASSERT_EQ(rows.size(), 33U);
  for (const TableRow& row : rows) {
    const auto matrix = machado_matrix(vision_named(row.at(0)), number(row.at(1)));
    for (std::size_t i = 0; i < 9; ++i) {
      EXPECT_NEAR(matrix[i], number(row.at(2 + i)), 1e-9) << row.at(0) << " " << row.at(1);
    }
  }
}

struct Seen {
  Vision vision;
  const char* colour;
  const char* seen;
};

// Worked by hand from the matrices above: to linear light, matrix, clip, back, round.
TEST(ColourVision, agrees_with_the_worked_colours) {
  for (const Seen& row :
       {Seen{Vision::protan, "#ff0000", "#6d5f00"}, Seen{Vision::protan, "#00ff00", "#ffe500"},
        Seen{Vision::protan, "#0000ff", "#0059ff"}, Seen{Vision::deutan, "#ff0000", "#a39000"},
        Seen{Vision::deutan, "#00ff00", "#efd63a"}, Seen{Vision::deutan, "#0000ff", "#003dfb"}}) {
    EXPECT_EQ(to_string(seen_with(row.vision, *parse_colour(row.colour))), row.seen);
  }
}

// Each row of the matrices sums to 1, so that a grey stays what it is.
TEST(ColourVision, leaves_greys_unchanged) {
  for (const Vision vision : {Vision::protan, Vision::deutan, Vision::tritan}) {
    for (int grey = 0; grey <= 255; grey += 5) {
      const Colour colour = from_bytes(grey, grey, grey);
      EXPECT_EQ(to_string(seen_with(vision, colour)), to_string(colour));
    }
  }
}

double row_of_matrix(const TableRow& row, std::size_t first, const std::array<double, 3>& light) {
  return number(row.at(first)) * light[0] + number(row.at(first + 1)) * light[1] +
         number(row.at(first + 2)) * light[2];
}

double to_linear(double part) {
  return part <= 0.04045 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4);
}

/// What the single-plane model of Viénot, Brettel, Mollon 1999 makes of a colour.
Colour seen_by_the_other_model(const TableRow& row, Colour colour) {
  const std::array<double, 3> light{to_linear(colour.red), to_linear(colour.green),
                                    to_linear(colour.blue)};
  const auto part = [&](std::size_t first) {
    const double value = std::clamp(row_of_matrix(row, first, light), 0.0, 1.0);
    return value <= 0.0031308 ? 12.92 * value : 1.055 * std::pow(value, 1 / 2.4) - 0.055;
  };
  return {part(3), part(6), part(9), 1};
}

// Viénot, Brettel, Mollon, "Digital video colourmaps for checking the legibility of displays by
// dichromats", Color Research and Application 24(4), 1999: another model made from other data.
// The two need not agree in numbers, but must call the same pairs alike: red and green of one
// lightness fall together for protan and deutan, blue and yellow stay apart.
TEST(ColourVision, calls_the_same_pairs_alike_as_an_older_model) {
  const Colour rust = *parse_colour("#b0652a"), moss = *parse_colour("#7a7a2a");
  const Colour blue = *parse_colour("#2a55b0"), straw = *parse_colour("#d8b84a");
  int compared = 0;
  for (const TableRow& row : rows_of("cvd_vienot_brettel.csv")) {
    if (row.at(0) != "vienot1999") continue;
    const Vision vision = vision_named(row.at(1));
    const auto difference = [&](Colour a, Colour b) {
      return ciede2000(to_lab(seen_with(vision, a)), to_lab(seen_with(vision, b)));
    };
    const auto other = [&](Colour a, Colour b) {
      return ciede2000(to_lab(seen_by_the_other_model(row, a)),
                       to_lab(seen_by_the_other_model(row, b)));
    };
    EXPECT_LT(difference(rust, moss), 10) << row.at(1);
    EXPECT_LT(other(rust, moss), 10) << row.at(1);
    EXPECT_GT(difference(blue, straw), 40) << row.at(1);
    EXPECT_GT(other(blue, straw), 40) << row.at(1);
    ++compared;
  }
  EXPECT_EQ(compared, 2);
  EXPECT_GT(ciede2000(to_lab(rust), to_lab(moss)), 20);  // normal vision tells them apart
}

// W3C, Web Content Accessibility Guidelines 2.2, definitions of relative luminance and contrast
// ratio; ratios rounded to four decimals, computed apart from this program.
TEST(Contrast, agrees_with_the_table_of_wcag_pairs) {
  const auto rows = rows_of("wcag_pairs.csv");
  ASSERT_EQ(rows.size(), 15U);
  for (const TableRow& row : rows) {
    const Colour a = *parse_colour(row.at(0)), b = *parse_colour(row.at(1));
    const double ratio = contrast_ratio(a, b);
    EXPECT_NEAR(ratio, number(row.at(2)), 6e-5) << row.at(0) << row.at(1);
    EXPECT_DOUBLE_EQ(ratio, contrast_ratio(b, a));
    EXPECT_EQ(ratio >= 4.5, row.at(3) == "True") << row.at(0) << row.at(1);
    EXPECT_EQ(ratio >= 3.0, row.at(4) == "True") << row.at(0) << row.at(1);
    EXPECT_EQ(ratio >= 7.0, row.at(5) == "True") << row.at(0) << row.at(1);
  }
}

}  // namespace
}  // namespace quoin
