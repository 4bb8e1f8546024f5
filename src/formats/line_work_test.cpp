#include "formats/line_work.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <stdexcept>

namespace quoin {
namespace {

using testing::SizeIs;

/// A square of 10 mm, 0.5 mm wide lines along it.
Item cut_square() {
  Stroke stroke;
  stroke.paint = black;
  stroke.width = 0.5_mm;
  stroke.dash = {2_mm, 1_mm};
  Item item;
  item.layer = Layer::cut;
  item.what = ShapeItem{Path::rectangle({{}, {10_mm, 10_mm}}), NoPaint{}, stroke};
  return item;
}

TEST(LineWork, works_maps_and_opacities_of_groups_into_places_widths_and_colours) {
  Item inner = cut_square();
  inner.map = Affine::move({5_mm, 0_mm});
  inner.opacity = 0.5;
  Item group;
  group.what = GroupItem{{inner}};
  group.map = Affine::scale(2, 2);
  group.opacity = 0.5;
  const std::vector<DrawnLine> lines = line_work(group);
  ASSERT_THAT(lines, SizeIs(1));
  EXPECT_EQ(bounds(lines[0].path), (Rect{{10_mm, 0_mm}, {20_mm, 20_mm}}));
  EXPECT_EQ(lines[0].width, 1_mm);
  EXPECT_EQ(lines[0].dash, (std::vector<Mm>{4_mm, 2_mm}));
  EXPECT_FALSE(lines[0].fill);
  EXPECT_DOUBLE_EQ(lines[0].line->alpha, 0.25);
}

TEST(LineWork, leaves_out_what_cannot_be_seen) {
  Item hidden = cut_square();
  hidden.opacity = 0;
  EXPECT_TRUE(line_work(hidden).empty());
  Item bare = cut_square();
  std::get<ShapeItem>(bare.what).stroke.width = 0_mm;
  EXPECT_TRUE(line_work(bare).empty());
}

TEST(LineWork, turns_letters_into_filled_outlines_at_their_place) {
  Typesetter typesetter({});
  TextItem text;
  text.block.runs.push_back({"42 mm", false, false, nullptr});
  text.block.box = {40_mm, 6_mm};
  text.at = {30_mm, 50_mm};
  text.set = typesetter.set(text.block);
  Rect ink = text.set.facts().ink;
  ink.at = text.at + (ink.at - Point{});
  Item item;
  item.what = text;
  const std::vector<DrawnLine> lines = line_work(item);
  ASSERT_THAT(lines, SizeIs(1));
  EXPECT_EQ(lines[0].fill, black);
  const Rect letters = bounds(lines[0].path);
  EXPECT_NEAR(letters.left().value, ink.left().value, 0.02);
  EXPECT_NEAR(letters.right().value, ink.right().value, 0.02);
  EXPECT_NEAR(letters.top().value, ink.top().value, 0.02);
  EXPECT_NEAR(letters.bottom().value, ink.bottom().value, 0.02);
}

TEST(LineWork, refuses_what_is_no_line) {
  Item clipped = cut_square(), shaded = cut_square(), outlined = cut_square(), unset, picture;
  clipped.clip = Path::rectangle({{}, {5_mm, 5_mm}});
  shaded.shadow = Shadow{};
  outlined.outline = Outline{black, 1_mm};
  unset.what = TextItem{};
  picture.what = PictureItem{};
  Item blended = cut_square();
  std::get<ShapeItem>(blended.what).fill = LinearGradient{};
  for (const Item& item : {clipped, shaded, outlined, unset, picture, blended}) {
    EXPECT_THROW((void)line_work(item), std::logic_error);
  }
}

TEST(LineWork, is_what_is_on_no_layer_of_ink) {
  for (const Layer layer :
       {Layer::cut, Layer::crease, Layer::glue, Layer::bleed, Layer::safe, Layer::dimension}) {
    EXPECT_TRUE(is_line_work(layer)) << to_string(layer);
  }
  EXPECT_FALSE(is_line_work(Layer::art));
  EXPECT_FALSE(is_line_work(Layer::mark));
}

}  // namespace
}  // namespace quoin
