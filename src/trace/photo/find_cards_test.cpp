#include "trace/photo/find_cards.h"

#include <gtest/gtest.h>

#include "trace/photo/photo_testing.h"
#include "trace/photo/quad.h"
#include "trace/photo/straighten.h"

namespace quoin::trace {
namespace {

/// Small, so that it is quick; as much of it is noise as in a large one.
PhotoWishes small_photo(Table table, unsigned seed) {
  PhotoWishes wishes;
  wishes.table = table;
  wishes.seed = seed;
  wishes.width = 480;
  wishes.height = 360;
  wishes.noise = 3;
  return wishes;
}

double off_by(const Photograph& photo, const FoundCard& card) {
  return farthest_corner(photo.corners, card.corners);
}

FoundCards found_in(const Raster& picture, CardCount count = CardCount::one) {
  return *find_cards(picture, {}, "photo.jpg", {}, count);
}

Raster blank_picture(int width, int height, std::uint32_t colour) {
  return {width, height,
          std::vector<std::uint32_t>(std::size_t(width) * std::size_t(height), colour)};
}

TEST(FindCards, finds_the_corners_of_a_card_on_a_plain_table) {
  const Photograph photo = photographed_card(small_photo(Table::plain, 4));
  const FoundCards found = found_in(photo.picture);
  ASSERT_EQ(found.cards.size(), 1U);
  EXPECT_FALSE(found.whole_picture);
  EXPECT_LT(off_by(photo, found.cards[0]), 1);  // px
  EXPECT_EQ(found.cards[0].bow, 0);
}

TEST(FindCards, finds_them_among_other_sheets) {
  const Photograph photo = photographed_card(small_photo(Table::clutter, 9));
  EXPECT_LT(off_by(photo, found_in(photo.picture).cards[0]), 1.5);  // px
}

TEST(FindCards, measures_how_the_lens_bends) {
  PhotoWishes wishes = small_photo(Table::plain, 12);
  wishes.width = 960;
  wishes.height = 720;
  wishes.bow = 0.05;
  wishes.tilt = 8;
  const Photograph photo = photographed_card(wishes);
  const FoundCards found = found_in(photo.picture);
  EXPECT_LT(off_by(photo, found.cards[0]), 1.5);  // px
  EXPECT_NEAR(found.cards[0].bow, 0.05, 0.015);
}

TEST(FindCards, begins_with_the_corner_that_turns_the_card_least) {
  PhotoWishes wishes = small_photo(Table::plain, 4);
  wishes.tilt = 5;
  wishes.turn = 180;
  for (const unsigned seed : {4U, 21U}) {
    wishes.seed = seed;
    const FoundCard card = found_in(photographed_card(wishes).picture).cards[0];
    const Spot across = card.corners[1] - card.corners[0];
    EXPECT_GT(across.x, std::abs(across.y) * 0.9);
  }
}

TEST(FindCards, doubts_a_card_of_another_shape) {
  const CardShape square{{Mm{70}, Mm{70}}, Mm{3}};
  const Photograph photo = photographed_card(small_photo(Table::plain, 3), square);
  const FoundCards found = found_in(photo.picture);
  ASSERT_FALSE(found.cards[0].doubts.empty());
  const auto right = find_cards(photo.picture, square, "photo.jpg", {}, CardCount::one);
  EXPECT_LT(off_by(photo, right->cards[0]), 1.5);
}

TEST(FindCards, gives_the_cards_of_a_grid_in_reading_order) {
  photo::Chance chance(8);
  std::vector<photo::PrintedFace> faces;
  for (int i = 0; i < 6; ++i) faces.emplace_back(chance, CardShape{});
  constexpr double mm = 1.4, gap = 12, left = 20, top = 18;  // px
  Raster sheet = blank_picture(330, 310, 0xFFE8ECF0);
  for (int y = 0; y < sheet.height; ++y) {
    for (int x = 0; x < sheet.width; ++x) {
      const double u = x + 0.5 - left, v = y + 0.5 - top;
      const int column = int(std::floor(u / (63 * mm + gap)));
      const int row = int(std::floor(v / (88 * mm + gap)));
      if (column < 0 || column > 2 || row < 0 || row > 1) continue;
      const double a = u / mm - column * (63 + gap / mm), b = v / mm - row * (88 + gap / mm);
      if (photo::off_round_rect(a, b, 63, 88, 3) > 0) continue;
      const photo::Ink ink = faces[std::size_t(row * 3 + column)].at(a, b);
      sheet.pixels[std::size_t(y * sheet.width + x)] = 0xFF000000U | std::uint32_t(ink.red) << 16 |
                                                       std::uint32_t(ink.green) << 8 |
                                                       std::uint32_t(ink.blue);
    }
  }
  const FoundCards found = found_in(sheet, CardCount::as_it_looks);
  EXPECT_TRUE(found.grid);
  ASSERT_EQ(found.cards.size(), 6U);
  for (int k = 0; k < 6; ++k) {
    const Spot corner = found.cards[std::size_t(k)].corners[0];
    EXPECT_NEAR(corner.x, left + k % 3 * (63 * mm + gap), 1.5) << k;
    EXPECT_NEAR(corner.y, top + double(k / 3) * (88 * mm + gap), 1.5) << k;
  }
}

TEST(FindCards, takes_the_whole_picture_where_no_card_is) {
  const FoundCards found = found_in(blank_picture(200, 150, 0xFF808080), CardCount::as_it_looks);
  EXPECT_TRUE(found.whole_picture);
  ASSERT_EQ(found.cards.size(), 1U);
  EXPECT_EQ(found.cards[0].corners[2], (Spot{200, 150}));
  EXPECT_EQ(found.cards[0].doubts,
            std::vector<std::string>{"no card was found; these are the corners of the picture"});
  EXPECT_TRUE(found_in(blank_picture(200, 150, 0)).whole_picture);  // transparent
}

TEST(FindCards, is_not_sure_of_anything_in_noise) {
  photo::Chance chance(2);
  Raster noise = blank_picture(200, 150, 0);
  for (std::uint32_t& p : noise.pixels) {
    p = 0xFF000000U;
    for (const int shift : {0, 8, 16}) p |= std::uint32_t(255 * chance.unit()) << shift;
  }
  EXPECT_FALSE(found_in(noise, CardCount::as_it_looks).cards[0].doubts.empty());
}

TEST(FindCards, refuses_a_picture_of_a_few_pixels) {
  const auto found = find_cards(blank_picture(1, 1, 0xFFFFFFFF), {}, "dot.png", {});
  ASSERT_FALSE(found.ok());
  EXPECT_EQ(found.why()[0].id, Id::straighten_too_small);
  EXPECT_EQ(found.why()[0].message, "dot.png has 1 x 1 px; no card can be found in fewer than 32");
}

TEST(CardFromCorners, takes_them_in_any_order_round_the_card) {
  const Raster picture = blank_picture(100, 100, 0xFFFFFFFF);
  const Corners round{Spot{80, 90}, {15, 88}, {10, 12}, {78, 10}};
  const auto card = card_from_corners(picture, round, "p", {});
  ASSERT_TRUE(card.ok());
  EXPECT_EQ(card->corners[0], (Spot{10, 12}));
  EXPECT_EQ(card->corners[2], (Spot{80, 90}));
}

TEST(CardFromCorners, says_what_is_wrong_with_them) {
  const Raster picture = blank_picture(100, 100, 0xFFFFFFFF);
  const auto message = [&](Corners corners) {
    const auto card = card_from_corners(picture, corners, "p.jpg", {});
    return card.ok() ? std::string() : card.why()[0].message;
  };
  EXPECT_EQ(message({Spot{0, 0}, {500, 0}, {90, 90}, {0, 90}}),
            "the corners given for p.jpg have 500,0, which is outside its 100 x 100 px");
  EXPECT_EQ(message({Spot{0, 0}, {90, 0}, {30, 30}, {0, 90}}),
            "the corners given for p.jpg do not lie round a card");
  EXPECT_EQ(message({Spot{5, 5}, {6, 5}, {90, 90}, {0, 90}}),
            "the corners given for p.jpg lie closer than 8 px together");
  EXPECT_EQ(message({Spot{0, 0}, {NAN, 0}, {90, 90}, {0, 90}}),
            "the corners given for p.jpg are not all numbers");
}

TEST(ShownOn, draws_the_sides_in_the_picture_at_the_width_wished) {
  const Raster picture = blank_picture(400, 300, 0xFF000000);
  FoundCards found{400, 300, {}, false, false};
  found.cards.push_back({{Spot{100, 100}, {300, 100}, {300, 200}, {100, 200}}, {}, 0});
  const Raster shown = shown_on(picture, found, 200);
  EXPECT_EQ(shown.width, 200);
  EXPECT_EQ(shown.height, 150);
  EXPECT_NE(shown.pixels[50 * 200 + 100], 0xFF000000U);  // on the upper side
  EXPECT_EQ(shown.pixels[75 * 200 + 100], 0xFF000000U);  // within the card
}

}  // namespace
}  // namespace quoin::trace
