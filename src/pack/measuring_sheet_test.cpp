#include "pack/measuring_sheet.h"

#include <gtest/gtest.h>

namespace quoin::pack {
namespace {

const Size a4{Mm{210}, Mm{297}};

MeasuringSheet wanted() {
  MeasuringSheet sheet;
  sheet.paper = a4;
  sheet.paper_name = "A4";
  return sheet;
}

const Item* element(const Page& page, const std::string& name) {
  for (const Item& item : page.own.items) {
    if (item.element == name) return &item;
  }
  return nullptr;
}

TEST(MeasuringSheet, has_two_pages_of_the_paper_for_each_sheet) {
  MeasuringSheet sheet = wanted();
  sheet.sheets = 3;
  sheet.flip = game::FlipEdge::short_edge;
  const Document document = measuring_sheet(sheet);
  ASSERT_EQ(document.pages.size(), 6u);
  EXPECT_EQ(document.pages[4].label, "front 3");
  EXPECT_EQ(document.pages[5].label, "back 3");
  EXPECT_EQ(document.duplex, Flip::short_edge);
  for (const Page& page : document.pages) EXPECT_EQ(page.media, a4);
  sheet.backs = game::BackPrinting::by_hand;
  EXPECT_EQ(measuring_sheet(sheet).duplex, Flip::none);
}

TEST(MeasuringSheet, draws_dots_and_codes_where_scans_are_searched_for_them) {
  const Document document = measuring_sheet(wanted());
  const press::SheetLayout layout = press::sheet_layout(a4);
  for (const auto side : {press::SheetSide::front, press::SheetSide::back}) {
    const Page& page = document.pages[side == press::SheetSide::front ? 0 : 1];
    const Item* dots = element(page, "dots");
    ASSERT_TRUE(dots);
    const Rect round = bounds(std::get<ShapeItem>(dots->what).path);
    Rect expected{layout.dots_of(side).front(), {}};
    for (const Point at : layout.dots_of(side)) expected = covering(expected, Rect{at, {}});
    EXPECT_TRUE(nearly_equal(round.size, grown(expected, press::dot_size / 2).size));
    for (const press::CodeMark& mark : layout.codes_of(side)) {
      const Item* code = element(page, "code-" + std::to_string(mark.number));
      ASSERT_TRUE(code);
      const Rect square = bounds(std::get<ShapeItem>(code->what).path);
      EXPECT_NEAR(square.centre().x.value, mark.centre.x.value, 1e-9);
      EXPECT_NEAR(square.centre().y.value, mark.centre.y.value, 1e-9);
      EXPECT_NEAR(square.size.width.value, 10.5, 1e-9);
    }
  }
}

/// Scales of the back are drawn mirrored, so that they meet those of the front through the paper.
TEST(MeasuringSheet, draws_what_is_read_through_the_paper_from_the_front) {
  for (const auto flip : {game::FlipEdge::long_edge, game::FlipEdge::short_edge}) {
    MeasuringSheet sheet = wanted();
    sheet.flip = flip;
    const Document document = measuring_sheet(sheet);
    int mirrored = 0;
    for (const Item& item : document.pages[1].own.items) {
      if (item.map.determinant() > 0) continue;
      ++mirrored;
      EXPECT_EQ(item.map, press::turned_over(a4, flip));
      EXPECT_EQ(std::get<GroupItem>(item.what).items.size(), 12u);  // 8 scales, 4 letters
    }
    EXPECT_EQ(mirrored, 1);
  }
}

}  // namespace
}  // namespace quoin::pack
