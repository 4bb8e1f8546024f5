#include "press/sheet_layout.h"

#include <gtest/gtest.h>

#include <bit>

namespace quoin::press {
namespace {

const Size a4_sheet{210_mm, 297_mm}, letter_sheet{215.9_mm, 279.4_mm};

std::uint32_t turned_code(std::uint32_t code) {
  std::uint32_t to = 0;
  for (int row = 0; row < 5; ++row) {
    for (int column = 0; column < 5; ++column) {
      const std::uint32_t bit = code >> (24 - ((4 - column) * 5 + row)) & 1U;
      to |= bit << (24 - (row * 5 + column));
    }
  }
  return to;
}

std::uint32_t mirrored_code(std::uint32_t code) {
  std::uint32_t to = 0;
  for (int i = 0; i < 25; ++i) {
    const int from = i / 5 * 5 + 4 - i % 5;
    to |= (code >> (24 - from) & 1U) << (24 - i);
  }
  return to;
}

TEST(CodeBits, differ_in_eight_however_they_lie) {
  const auto& codes = code_bits();
  for (std::size_t i = 0; i < codes.size(); ++i) {
    for (std::size_t k = 0; k < codes.size(); ++k) {
      for (std::uint32_t seen : {codes[k], mirrored_code(codes[k])}) {
        for (int quarter = 0; quarter < 4; ++quarter, seen = turned_code(seen)) {
          if (i == k && seen == codes[i] && quarter == 0) continue;
          EXPECT_GE(std::popcount(codes[i] ^ seen), 8) << i << " and " << k;
        }
      }
    }
  }
}

/// What a mark takes up, as a rectangle on the front's page frame.
struct Taken {
  Rect rect;
  bool is_back;
};

std::vector<Taken> all_taken(const SheetLayout& sheet, game::FlipEdge flip) {
  std::vector<Taken> all;
  const auto add = [&](SheetSide side, Rect rect) {
    const bool back = side == SheetSide::back;
    all.push_back({back ? bounds(turned_over(sheet.paper, flip), rect) : rect, back});
  };
  for (const SheetSide side : {SheetSide::front, SheetSide::back}) {
    for (const Point at : sheet.dots_of(side)) add(side, grown(Rect{at, {}}, dot_size / 2));
    for (const CodeMark& code : sheet.codes_of(side)) {
      add(side, grown(Rect{code.centre, {}}, code_size / 2 + Mm{1.5}));
    }
  }
  for (const Vernier& vernier : sheet.verniers) {
    const Vec half = vernier.across() ? Vec{12_mm, 6_mm} : Vec{6_mm, 12_mm};
    all.push_back({rect_between(vernier.at - half, vernier.at + half), false});
  }
  for (const ScaleBar& bar : sheet.bars) {
    const Vec along = bar.upright ? Vec{3_mm, bar.length} : Vec{bar.length, -3_mm};
    all.push_back({rect_between(bar.from, bar.from + along), false});
  }
  all.push_back({sheet.words, false});
  return all;
}

TEST(SheetLayout, lays_no_mark_on_another_of_either_side_whichever_edge_it_is_turned_about) {
  for (const Size paper : {a4_sheet, turned(a4_sheet), letter_sheet, turned(letter_sheet)}) {
    const SheetLayout sheet = sheet_layout(paper);
    for (const auto flip : {game::FlipEdge::long_edge, game::FlipEdge::short_edge}) {
      const std::vector<Taken> all = all_taken(sheet, flip);
      for (std::size_t i = 0; i < all.size(); ++i) {
        for (std::size_t k = 0; k < i; ++k) {
          EXPECT_FALSE(overlap(all[i].rect, all[k].rect))
              << i << " and " << k << " on " << paper.width.value << " mm";
        }
        for (const Point pin : sheet.pins) {
          EXPECT_FALSE(overlap(all[i].rect, grown(Rect{pin, {}}, pin_clear))) << i;
        }
      }
    }
  }
}

TEST(SheetLayout, keeps_all_marks_eight_millimetres_in) {
  for (const Size paper : {a4_sheet, turned(a4_sheet), letter_sheet, turned(letter_sheet)}) {
    const SheetLayout sheet = sheet_layout(paper);
    const Rect inside = grown(Rect{{}, paper}, Mm{-8});
    for (const Taken& each : all_taken(sheet, game::FlipEdge::long_edge)) {
      EXPECT_TRUE(lies_in(each.rect, inside));
    }
    for (const Point pin : sheet.pins) {
      EXPECT_TRUE(lies_in(grown(Rect{pin, {}}, pin_ring / 2), inside));
    }
  }
}

TEST(SheetLayout, has_dots_enough_on_both_sides) {
  for (const Size paper : {a4_sheet, turned(a4_sheet), letter_sheet, turned(letter_sheet)}) {
    const SheetLayout sheet = sheet_layout(paper);
    EXPECT_GE(sheet.dots_of(SheetSide::front).size(), 20u);
    EXPECT_GE(sheet.dots_of(SheetSide::back).size(), 20u);
    EXPECT_EQ(sheet.codes_of(SheetSide::front).size(), 8u);
    EXPECT_EQ(sheet.codes_of(SheetSide::back).back().number, 15);
  }
}

TEST(SheetLayout, has_pins_that_a_half_turn_does_not_bring_over_each_other) {
  const SheetLayout sheet = sheet_layout(a4_sheet);
  const Point turned_pin{a4_sheet.width - sheet.pins[4].x, a4_sheet.height - sheet.pins[4].y};
  for (const Point pin : sheet.pins) EXPECT_GT(length(pin - turned_pin), 20_mm);
}

TEST(SheetLayout, takes_common_office_paper) {
  EXPECT_TRUE(takes_sheet(a4_sheet));
  EXPECT_TRUE(takes_sheet(turned(letter_sheet)));
  EXPECT_TRUE(takes_sheet({297_mm, 420_mm}));
  EXPECT_FALSE(takes_sheet({148_mm, 210_mm}));
  EXPECT_FALSE(takes_sheet({841_mm, 1189_mm}));
}

}  // namespace
}  // namespace quoin::press
