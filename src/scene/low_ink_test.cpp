#include "scene/low_ink.h"

#include <gtest/gtest.h>

#include "base/world.h"

namespace quoin {
namespace {

constexpr Size card_size{Mm{63.5}, Mm{88.9}};
constexpr Rect whole_card{{}, card_size};

Item filled_item(Rect at, const Paint& paint) {
  Item item;
  item.what = ShapeItem{Path::rectangle(at), paint, {}};
  return item;
}

Item words_item(Colour colour, Rect at) {
  TextItem words;
  words.block.style.family = house_family;
  words.block.style.fill = colour;
  words.block.runs = {TextRun{"Gull", false, false, nullptr}};
  words.block.box = at.size;
  words.at = at.at;
  Item item;
  item.what = std::move(words);
  return item;
}

Scene low_inked(std::vector<Item> items) {
  return LowInk(flood_area(card_size))(Scene{std::move(items)}, whole_card);
}

const ShapeItem& shape_of(const Scene& scene, std::size_t i) {
  return std::get<ShapeItem>(scene.items[i].what);
}
Colour fill_of(const Scene& scene, std::size_t i) {
  return std::get<Colour>(shape_of(scene, i).fill);
}
Colour text_of(const Scene& scene, std::size_t i) {
  return std::get<Colour>(std::get<TextItem>(scene.items[i].what).block.style.fill);
}

constexpr Colour deep_blue{0.14, 0.28, 0.35, 1};
constexpr Rect large_place{{Mm{5}, Mm{5}}, {Mm{50}, Mm{40}}},
    small_place{{Mm{10}, Mm{10}}, {Mm{6}, Mm{6}}};

TEST(LowInk, makes_a_large_fill_a_tint_with_an_outline) {
  const Scene scene = low_inked({filled_item(large_place, deep_blue)});
  EXPECT_EQ(fill_of(scene, 0), lightened(deep_blue));
  EXPECT_EQ(std::get<Colour>(shape_of(scene, 0).stroke.paint), deep_blue);
  EXPECT_GT(shape_of(scene, 0).stroke.width, Mm{0.2});
}

TEST(LowInk, draws_no_outline_round_a_ground_that_bleeds) {
  const Scene scene = low_inked({filled_item(grown(whole_card, Mm{3}), deep_blue)});
  EXPECT_EQ(shape_of(scene, 0).stroke.width, Mm{0});
}

TEST(LowInk, keeps_the_colours_of_small_things) {
  const Scene scene = low_inked({filled_item(small_place, deep_blue)});
  EXPECT_EQ(fill_of(scene, 0), deep_blue);
}

TEST(LowInk, counts_what_a_thing_covers_on_the_card_and_within_its_clip) {
  Item drawn_large = filled_item({{}, {Mm{5}, Mm{4}}}, deep_blue);
  drawn_large.map = Affine::scale(10, 10);
  Item clipped = filled_item(large_place, deep_blue);
  clipped.clip = Path::rectangle(small_place);
  const Scene scene = low_inked({drawn_large, clipped});
  EXPECT_EQ(fill_of(scene, 0), lightened(deep_blue));
  EXPECT_EQ(fill_of(scene, 1), deep_blue);
}

TEST(LowInk, lightens_every_stop_of_a_gradient) {
  const LinearGradient gradient{{}, {Mm{1}, Mm{}}, {{deep_blue, 0}, {black, 1}}};
  const Scene scene = low_inked({filled_item(large_place, gradient)});
  const auto& stops = std::get<LinearGradient>(shape_of(scene, 0).fill).stops;
  EXPECT_EQ(stops[0].colour, lightened(deep_blue));
  EXPECT_EQ(stops[1].colour, lightened(black));
}

TEST(LowInk, makes_light_words_on_a_flood_legible) {
  const Scene scene =
      low_inked({filled_item(large_place, deep_blue), words_item(white, small_place)});
  EXPECT_GE(contrast_ratio(text_of(scene, 1), fill_of(scene, 0)), 4.5);
}

TEST(LowInk, leaves_light_words_on_a_small_dark_sign) {
  const Scene scene =
      low_inked({filled_item(large_place, deep_blue), filled_item(small_place, deep_blue),
                 words_item(white, small_place)});
  EXPECT_EQ(text_of(scene, 2), white);
}

TEST(LowInk, leaves_words_on_paper) {
  constexpr Colour coral{0.87, 0.44, 0.34, 1};
  EXPECT_EQ(text_of(low_inked({words_item(coral, small_place)}), 0), coral);
}

TEST(LowInk, draws_round_small_light_things_on_a_flood) {
  const Scene scene =
      low_inked({filled_item(large_place, deep_blue), filled_item(small_place, white)});
  EXPECT_EQ(fill_of(scene, 1), white);
  EXPECT_GT(shape_of(scene, 1).stroke.width, Mm{0.1});
}

TEST(LowInk, takes_shadows_of_large_things_away) {
  Item item = filled_item(large_place, deep_blue);
  item.shadow = Shadow{};
  EXPECT_FALSE(low_inked({item}).items[0].shadow);
}

TEST(LowInk, washes_out_a_large_photograph_and_lightens_a_drawing_once) {
  PictureFacts photo;
  photo.width = photo.height = 100;
  const auto photograph = std::make_shared<const Picture>(
      "a.jpg", "a", std::make_shared<const Bytes>("x"), photo, Bytes{});
  MemoryWorld world;
  world.put("b.svg",
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"9\" height=\"9\">"
            "<rect width=\"9\" height=\"9\" fill=\"#123\"/></svg>");
  PictureShelf shelf(world);
  Diagnostics found;
  const PicturePtr drawing = shelf.open("b.svg", {}, found).value();
  Item first, second;
  first.what = PictureItem{photograph, large_place, large_place};
  second.what = PictureItem{drawing, large_place, large_place};
  const Scene scene = low_inked({first, second, second});
  EXPECT_DOUBLE_EQ(scene.items[0].opacity, light_part);
  const auto picture = [&](std::size_t i) {
    return std::get<PictureItem>(scene.items[i].what).picture;
  };
  EXPECT_NE(picture(1)->key(), drawing->key());
  EXPECT_EQ(picture(1), picture(2));
}

}  // namespace
}  // namespace quoin
