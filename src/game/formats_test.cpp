#include "game/formats.h"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "game/size_check.h"
#include "game/words.h"

namespace quoin::game {
namespace {

Size size_of(std::string_view text, const std::vector<NamedSize>& known) {
  const std::optional<NamedSize> found = find_size(text, known);
  EXPECT_TRUE(found) << text;
  return found ? found->size : Size{};
}

/// Whole millimetres of a length, as ISO 216 gives them.
double whole(double length) { return std::floor(length + 0.5); }

// ISO 216: A0 has an area of 1 m² and sides as 1 to the root of 2; each next size is the last one
// halved across its longer side, parts of a millimetre dropped.
TEST(PaperSizes, of_the_a_series_are_halves_of_each_other_as_iso_216_says) {
  double width = whole(1000 / std::pow(2, 0.25)), height = whole(1000 * std::pow(2, 0.25));
  for (int i = 0; i <= 10; ++i) {
    EXPECT_EQ(size_of("A" + std::to_string(i), paper_sizes()), (Size{Mm{width}, Mm{height}})) << i;
    height = std::exchange(width, std::floor(height / 2));
  }
}

// ISO 216: B0 is 1000 mm wide, and the series is halved like the A series.
TEST(PaperSizes, of_the_b_series_are_halves_of_each_other_as_iso_216_says) {
  double width = 1000, height = whole(1000 * std::sqrt(2));
  for (int i = 0; i <= 10; ++i) {
    EXPECT_EQ(size_of("B" + std::to_string(i), paper_sizes()), (Size{Mm{width}, Mm{height}})) << i;
    height = std::exchange(width, std::floor(height / 2));
  }
}

// ISO 217 as public tables quote it; the standard itself was not read.
TEST(PaperSizes, of_untrimmed_sheets_are_those_of_iso_217) {
  EXPECT_EQ(size_of("RA3", paper_sizes()), (Size{Mm{305}, Mm{430}}));
  EXPECT_EQ(size_of("SRA3", paper_sizes()), (Size{Mm{320}, Mm{450}}));
  EXPECT_EQ(size_of("SRA4", paper_sizes()), (Size{Mm{225}, Mm{320}}));
}

TEST(PaperSizes, in_inches_are_exact) {
  EXPECT_TRUE(nearly_equal(size_of("letter", paper_sizes()), size_of("8.5x11in", paper_sizes())));
  EXPECT_TRUE(nearly_equal(size_of("Tabloid", paper_sizes()), size_of("11x17in", paper_sizes())));
  EXPECT_TRUE(nearly_equal(size_of("Legal", paper_sizes()), size_of("8.5x14in", paper_sizes())));
  EXPECT_TRUE(nearly_equal(size_of("12x18in", paper_sizes()), {Mm{304.8}, Mm{457.2}}));
  EXPECT_TRUE(nearly_equal(size_of("13x19in", paper_sizes()), {Mm{330.2}, Mm{482.6}}));
}

// ISO/IEC 7810: ID-1 is 85.60 mm by 53.98 mm with corners of 2.88 to 3.48 mm, as public copies
// quote it.
TEST(CardSizes, have_the_bank_card_of_iso_7810) {
  const auto bank = find_size("bank", card_sizes());
  ASSERT_TRUE(bank);
  EXPECT_EQ(bank->size, (Size{Mm{53.98}, Mm{85.6}}));
  EXPECT_TRUE(bank->corner >= Mm{2.88} && bank->corner <= Mm{3.48});
}

TEST(Sizes, have_names_of_their_own_and_stand_upright_with_a_source) {
  for (const auto* sizes : {&card_sizes(), &paper_sizes()}) {
    std::set<std::string> names;
    for (const NamedSize& size : *sizes) {
      EXPECT_TRUE(names.insert(lower_case(size.name)).second) << size.name;
      EXPECT_LE(size.size.width, size.size.height) << size.name;
      EXPECT_FALSE(size.source.empty()) << size.name;
      EXPECT_FALSE(size_problem(size, {})) << size.name;
    }
  }
}

TEST(FindSize, reads_millimetres_centimetres_and_inches) {
  const Size poker{Mm{63.5}, Mm{88.9}};
  for (const char* text : {"63.5x88.9", "63.5 x 88.9 mm", "63.5mm x 88.9mm", "6.35x8.89cm",
                           "2.5x3.5in", "2.5 in × 3.5 in", "2.5\"x3.5\"", "POKER", " poker "}) {
    EXPECT_TRUE(nearly_equal(size_of(text, card_sizes()), poker)) << text;
  }
  EXPECT_TRUE(nearly_equal(size_of("2.5inx88.9mm", card_sizes()), poker));
}

TEST(FindSize, knows_a_named_size_by_its_measures) {
  EXPECT_EQ(find_size("2.5x3.5in", card_sizes())->name, "poker");
  EXPECT_EQ(find_size("60x90", card_sizes())->name, "");
  EXPECT_EQ(find_size("297x210", paper_sizes())->name, "");
}

TEST(FindSize, keeps_which_side_is_the_width) {
  EXPECT_EQ(size_of("297x210", paper_sizes()), (Size{Mm{297}, Mm{210}}));
}

TEST(FindSize, gives_nothing_for_what_is_no_size) {
  for (const char* text : {"", "pok", "63.5", "x", "63.5x", "x88.9", "63.5x88.9x1", "63.5x88.9 pt",
                           "a4x", "-5x-5", "1e3x1e3", "63,5x88,9", "nanxinf", "..x.."}) {
    EXPECT_FALSE(find_size(text, card_sizes())) << text;
  }
}

TEST(SizeProblem, bounds_both_sides) {
  const auto problem = [](double width, double height) {
    return size_problem({"", {Mm{width}, Mm{height}}, Mm{0}, ""}, {}).has_value();
  };
  EXPECT_FALSE(problem(5, 2000));
  EXPECT_TRUE(problem(4.9, 100));
  EXPECT_TRUE(problem(100, 2001));
}

}  // namespace
}  // namespace quoin::game
