#include "scene/scene.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

#include "base/world.h"
#include "scene/parts.h"

namespace quoin {
namespace {

Rect rect(double x, double y, double w, double h) { return {{Mm{x}, Mm{y}}, {Mm{w}, Mm{h}}}; }

Item square(Rect r, Paint fill = black) {
  Item item;
  item.what = ShapeItem{Path::rectangle(r), std::move(fill), {}};
  return item;
}

Item picture_item(PicturePtr picture, Rect to) {
  Item item;
  item.what = PictureItem{std::move(picture), to, to, false};
  return item;
}

void expect_near(std::optional<Rect> is, Rect wanted, double within = 1e-3) {
  ASSERT_TRUE(is);
  EXPECT_NEAR(is->left().value, wanted.left().value, within);
  EXPECT_NEAR(is->top().value, wanted.top().value, within);
  EXPECT_NEAR(is->right().value, wanted.right().value, within);
  EXPECT_NEAR(is->bottom().value, wanted.bottom().value, within);
}

/// A game folder with a triangle (its right lower half is clear) and a place to draw.
class Scenes : public ::testing::Test {
 protected:
  static constexpr double ppi = 254;  // 10 pixels a millimetre

  Raster drawn(const Scene& scene) {
    ImageCanvas canvas(shelf, {Mm{20}, Mm{20}}, ppi, ImageCanvas::Background::transparent);
    draw(scene, canvas.canvas());
    EXPECT_TRUE(canvas.found().empty());
    return canvas.raster();
  }
  /// The pixel at a place in mm, as 0xAARRGGBB.
  static std::uint32_t pixel(const Raster& raster, double x, double y) {
    return raster
        .pixels[static_cast<std::size_t>(y * 10) * raster.width + static_cast<std::size_t>(x * 10)];
  }
  static int alpha(const Raster& raster, double x, double y) {
    return static_cast<int>(pixel(raster, x, y) >> 24);
  }
  PicturePtr triangle() {
    Diagnostics found;
    return *std::move(shelf.open("triangle.svg", {}, found)).or_report(found);
  }

  MemoryWorld world{{{"triangle.svg",
                      "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 10 10'>"
                      "<path d='M0 0H10L0 10Z' fill='#f00'/></svg>"}}};
  PictureShelf shelf{world};
  Typesetter typesetter{{}};
};

TEST_F(Scenes, draw_items_one_over_the_other) {
  const Raster raster = drawn({{square(rect(2, 2, 8, 8), Colour{1, 0, 0, 1}),
                                square(rect(6, 6, 8, 8), Colour{0, 0, 1, 1})}});
  EXPECT_EQ(pixel(raster, 4, 4), 0xFFFF0000);
  EXPECT_EQ(pixel(raster, 8, 8), 0xFF0000FF);
  EXPECT_EQ(pixel(raster, 16, 16), 0U);
}

TEST_F(Scenes, lay_a_group_down_as_one) {
  Item group;
  group.what = GroupItem{{square(rect(2, 2, 8, 8)), square(rect(6, 2, 8, 8))}};
  group.opacity = 0.5;
  const Raster raster = drawn({{group}});
  EXPECT_NEAR(alpha(raster, 4, 4), 128, 1);
  EXPECT_NEAR(alpha(raster, 8, 4), 128, 1);  // twice covered, once transparent
}

TEST_F(Scenes, clip_in_the_items_own_frame) {
  Item item = square(rect(0, 0, 10, 10));
  item.clip = Path::rectangle(rect(0, 0, 5, 10));
  item.map = Affine::move({Mm{8}, Mm{0}});
  const Raster raster = drawn({{item}});
  EXPECT_EQ(alpha(raster, 10, 5), 255);
  EXPECT_EQ(alpha(raster, 15, 5), 0);
  expect_near(ink(item), rect(8, 0, 5, 10));
}

TEST_F(Scenes, crop_pictures_to_their_window) {
  Item item = picture_item(triangle(), rect(0, 0, 20, 20));
  auto& cropped = std::get<PictureItem>(item.what);
  cropped.window = rect(2, 2, 4, 4);
  cropped.crop = true;
  const Raster raster = drawn({{item}});
  EXPECT_EQ(pixel(raster, 3, 3), 0xFFFF0000);
  EXPECT_EQ(alpha(raster, 1, 1), 0);
  EXPECT_EQ(alpha(raster, 7, 3), 0);
  expect_near(ink(item), rect(2, 2, 4, 4));
}

TEST_F(Scenes, stretch_pictures) {
  const Raster raster = drawn({{picture_item(triangle(), rect(0, 0, 20, 10))}});
  EXPECT_EQ(alpha(raster, 15, 1), 255);
  EXPECT_EQ(alpha(raster, 15, 4), 0);
}

TEST_F(Scenes, throw_hard_shadows_to_one_side_however_the_item_is_turned) {
  for (const double degrees : {0.0, 90.0, 200.0}) {
    Item item = square(rect(5, 5, 5, 5), Colour{1, 0, 0, 1});
    item.map = Affine::turn_about({Mm{7.5}, Mm{7.5}}, Angle::degrees(degrees));
    item.shadow = Shadow{{0, 0, 1, 0.5}, {Mm{8}, Mm{4}}, Mm{0}};
    const Raster raster = drawn({{item}});
    EXPECT_EQ(pixel(raster, 7.5, 7.5), 0xFFFF0000) << degrees;
    EXPECT_EQ(pixel(raster, 15.5, 11.5), 0x80000080) << degrees;
    EXPECT_NEAR(ink(item)->centre().x.value, 11.5, 1e-6) << degrees;
  }
}

TEST_F(Scenes, soften_shadows_over_the_width_of_the_blur) {
  Item item = square(rect(5, 5, 10, 10));
  item.shadow = Shadow{{0, 0, 0, 1}, {}, Mm{2}};
  const Raster raster = drawn({{item}});
  // The Gaussian's deviation is 1 mm: one away from a straight edge it has fallen to 1 - Φ(1).
  EXPECT_NEAR(alpha(raster, 16.05, 10) / 255.0, 0.5 * std::erfc(1.1 / std::sqrt(2.0)), 0.02);
  EXPECT_EQ(alpha(raster, 18.5, 10), 0);
  expect_near(ink(item), rect(2, 2, 16, 16));
}

TEST_F(Scenes, give_pictures_the_shadow_of_what_they_show) {
  Item item = picture_item(triangle(), rect(0, 0, 10, 10));
  item.shadow = Shadow{{0, 0, 0, 1}, {Mm{10}, Mm{0}}, Mm{0}};
  const Raster raster = drawn({{item}});
  EXPECT_EQ(pixel(raster, 12, 2), 0xFF000000);
  EXPECT_EQ(alpha(raster, 18, 8), 0);
}

TEST_F(Scenes, outline_shapes_text_groups_and_pictures_alike) {
  const Outline outline{{0, 1, 0, 1}, Mm{1}};
  Item group;
  group.what = GroupItem{{square(rect(5, 5, 8, 8))}};
  Item clipped = square(rect(0, 0, 20, 20));
  clipped.clip = Path::rectangle(rect(5, 5, 8, 8));
  Item scaled = square(rect(10, 10, 16, 16));
  scaled.map = Affine::scale(0.5, 0.5);
  Item in_group;
  in_group.what = GroupItem{{scaled}};
  for (Item item : {square(rect(5, 5, 8, 8)), group, clipped, in_group}) {
    item.outline = outline;
    const Raster raster = drawn({{item}});
    EXPECT_EQ(pixel(raster, 4.5, 9), 0xFF00FF00);
    EXPECT_EQ(pixel(raster, 9, 13.5), 0xFF00FF00);
    EXPECT_EQ(alpha(raster, 9, 14.5), 0);
    EXPECT_EQ(pixel(raster, 9, 9), 0xFF000000);
    expect_near(ink(item), rect(4, 4, 10, 10));
  }
}

TEST_F(Scenes, outline_pictures_along_what_they_show) {
  Item item = picture_item(triangle(), rect(5, 5, 10, 10));
  item.outline = Outline{{0, 0, 0, 1}, Mm{1}};
  const Raster raster = drawn({{item}});
  EXPECT_EQ(pixel(raster, 7, 7), 0xFFFF0000);
  EXPECT_EQ(pixel(raster, 4.5, 8), 0xFF000000);
  EXPECT_EQ(pixel(raster, 10.4, 10.4), 0xFF000000);  // 0.6 mm off the slanting side
  EXPECT_EQ(alpha(raster, 11, 11), 0);               // 1.4 mm off
}

TEST_F(Scenes, outline_letters) {
  Item item;
  TextItem text;
  text.block.runs = {{"I", false, false, nullptr}};
  text.block.style.type_size = text.block.style.smallest_size = Mm{16};
  text.block.style.weight = 700;
  text.block.box = {Mm{20}, Mm{25}};
  text.block.style.align = TextAlign::centre;
  item.what = text;
  item.outline = Outline{{0, 1, 0, 1}, Mm{1}};
  Scene scene{{item}};
  typeset(scene, typesetter);
  const Rect letter = std::get<TextItem>(scene.items[0].what).set.facts().ink;
  const Raster raster = drawn(scene);
  const double y = letter.centre().y.value;
  EXPECT_EQ(pixel(raster, letter.centre().x.value, y), 0xFF000000);
  EXPECT_EQ(alpha(raster, letter.right().value + 1.2, letter.bottom().value), 0);
  const double side = letter.right().value + 0.5;
  EXPECT_EQ(pixel(raster, side, letter.bottom().value - 0.3), 0xFF00FF00);
  expect_near(ink(scene.items[0]), grown(letter, Mm{1}));
}

TEST_F(Scenes, keep_vectors_out_of_made_images) {
  Item item = square(rect(2, 2, 8, 8));
  item.shadow = Shadow{{0, 0, 0, 0.5}, {Mm{1}, Mm{1}}, Mm{0}};
  item.outline = Outline{white, Mm{0.5}};
  PageRecorder recorder(shelf);
  recorder.page({Mm{20}, Mm{20}}, [&](Canvas& canvas) { draw(item, canvas); });
  EXPECT_TRUE(recorder.finish().made.empty());
}

TEST_F(Scenes, make_equal_shadows_once) {
  PageRecorder recorder(shelf);
  for (int card = 0; card < 3; ++card) {
    recorder.page({Mm{40}, Mm{20}}, [&](Canvas& canvas) {
      for (int i = 0; i < 3; ++i) {
        Item item = picture_item(triangle(), rect(0.3 + i * 11.1 + card * 0.7, 5, 9, 9));
        item.shadow = Shadow{{0, 0, 0, 0.5}, {Mm{1}, Mm{1}}, Mm{0.8}};
        draw(item, canvas);
      }
    });
  }
  const PageRecorder::Recording recording = recorder.finish();
  EXPECT_EQ(recording.pages, 3);
  EXPECT_EQ(recording.made.size(), 1U);
}

TEST_F(Scenes, make_shadows_at_600_ppi) {
  Item item = picture_item(triangle(), rect(5, 5, 10, 10));
  item.shadow = Shadow{{1, 0, 0, 0.5}, {Mm{1}, Mm{1}}, Mm{0.8}};
  PageRecorder recorder(shelf);
  recorder.page({Mm{20}, Mm{20}}, [&](Canvas& canvas) { draw(item, canvas); });
  const PageRecorder::Recording recording = recorder.finish();
  ASSERT_EQ(recording.made.size(), 1U);
  const PreparedImage& made = *recording.made.begin()->second;
  ASSERT_TRUE(made.soft_mask);
  EXPECT_EQ(made.palette, (std::vector<std::uint8_t>{255, 0, 0}));
  EXPECT_EQ(made.soft_mask->width, made.width);
  // 10 mm and three deviations of 0.4 mm each side.
  EXPECT_NEAR(made.width, 12.4 * 600 / 25.4, 8);
}

TEST_F(Scenes, record_the_same_bytes_every_time) {
  const auto record = [&] {
    Scene scene;
    TextItem text;
    text.block.runs = {{"Take two", false, true, nullptr}};
    text.block.box = {Mm{20}, Mm{10}};
    Item words;
    words.what = text;
    words.shadow = Shadow{};
    words.shadow->blur = Mm{1};
    scene.items = {words, picture_item(triangle(), rect(5, 5, 10, 10))};
    Typesetter own({});
    typeset(scene, own);
    PageRecorder recorder(shelf);
    recorder.page({Mm{20}, Mm{20}}, [&](Canvas& canvas) { draw(scene, canvas); });
    return recorder.finish().pdf;
  };
  EXPECT_EQ(record(), record());
}

TEST_F(Scenes, refuse_to_draw_text_that_was_not_set) {
  Item item;
  item.what = TextItem{};
  EXPECT_THROW(drawn({{item}}), std::logic_error);
  EXPECT_THROW((void)ink(item), std::logic_error);
}

TEST_F(Scenes, draw_nothing_through_a_map_that_flattens_and_go_on_after_it) {
  Item flat = square(rect(0, 0, 10, 10));
  flat.map = Affine::scale(1, 0);
  const Raster raster = drawn({{flat, square(rect(5, 5, 5, 5))}});
  EXPECT_EQ(alpha(raster, 2, 2), 0);
  EXPECT_EQ(alpha(raster, 7, 7), 255);
}

TEST_F(Scenes, set_texts_inside_groups_and_only_once) {
  Item words, group;
  TextItem text;
  text.block.runs = {{"H", false, false, nullptr}};
  text.block.box = {Mm{10}, Mm{10}};
  words.what = text;
  group.what = GroupItem{{words}};
  Scene scene{{group}};
  typeset(scene, typesetter);
  const auto set = [&] {
    return std::get<TextItem>(std::get<GroupItem>(scene.items[0].what).items[0].what).set.state();
  };
  const SetText::State* const first = set();
  ASSERT_NE(first, nullptr);
  typeset(scene, typesetter);
  EXPECT_EQ(set(), first);
}

TEST(Ink, counts_strokes_with_mitres_and_caps) {
  Item item;
  Path corner;
  corner.move_to({Mm{0}, Mm{10}}).line_to({Mm{0}, Mm{0}}).line_to({Mm{10}, Mm{0}});
  ShapeItem shape{corner, NoPaint{}, Stroke{black, Mm{2}, {}, LineJoin::mitre, LineCap::square}};
  item.what = shape;
  expect_near(ink(item), rect(-1, -1, 12, 12));
  shape.stroke.cap = LineCap::butt;
  item.what = shape;
  expect_near(ink(item), rect(-1, -1, 11, 11));
}

TEST(Ink, is_nothing_where_nothing_is_drawn) {
  EXPECT_FALSE(ink(square(rect(0, 0, 5, 5), NoPaint{})));
  EXPECT_FALSE(ink(square(rect(0, 0, 5, 5), Colour{1, 1, 1, 0})));
  Item faint = square(rect(0, 0, 5, 5));
  faint.opacity = 0;
  EXPECT_FALSE(ink(faint));
  Item clipped = square(rect(0, 0, 5, 5));
  clipped.clip = Path::rectangle(rect(6, 6, 5, 5));
  EXPECT_FALSE(ink(clipped));
  Item group;
  group.what = GroupItem{};
  EXPECT_FALSE(ink(group));
}

TEST(Ink, is_told_in_the_frame_in_which_the_item_is_drawn) {
  Item item = square(rect(0, 0, 10, 4));
  item.map = Affine::turn_about({Mm{5}, Mm{2}}, Angle::degrees(90));
  expect_near(ink(item), rect(3, -3, 4, 10));
}

TEST(Describe, is_equal_for_equal_silhouettes_wherever_they_lie) {
  const Item here = square(rect(0.1, 0.2, 5, 5), Colour{1, 0, 0, 1});
  const Item there = square(rect(30.3, 0.7, 5, 5), Colour{0, 1, 0, 1});
  EXPECT_EQ(describe(here, rect(0.1, 0.2, 0, 0).at), describe(there, rect(30.3, 0.7, 0, 0).at));
}

TEST(Describe, tells_different_silhouettes_apart) {
  const Item item = square(rect(0, 0, 5, 5));
  Item wider = square(rect(0, 0, 5.001, 5)),
       fainter = square(rect(0, 0, 5, 5), Colour{0, 0, 0, .5});
  Item clipped = item, grouped;
  clipped.clip = Path::rectangle(rect(0, 0, 2, 2));
  grouped.what = GroupItem{{item}};
  for (const Item& other : {wider, fainter, clipped, grouped})
    EXPECT_NE(describe(item, {}), describe(other, {}));
}

}  // namespace
}  // namespace quoin
