#include <gtest/gtest.h>

#include "pieces/card/inspect_fixture.h"

namespace quoin::pieces {
namespace {

std::uint32_t grey(int, int) { return 0xff808080; }

class Resolution : public ::testing::Test, protected DrawnFace {
 protected:
  std::string said() { return whole(only(Id::art_low_resolution, check())); }
};

TEST_F(Resolution, tells_soft_pictures_with_all_their_numbers) {
  picture("art", picture_file("art/wrack.png", 586, 800, grey), bleed_box);
  EXPECT_EQ(said(),
            "warning art.low-resolution face.toml:1:1 on W-07/art\n"
            "art/wrack.png prints at 214 ppi; edges will look soft\n"
            "the picture is 586 px wide and covers 69.5 mm with its bleed; 300 ppi needs 821 px\n"
            "hint: redraw it as vectors with quoin trace, or use a picture of 821 px or more\n");
}

TEST_F(Resolution, has_stronger_words_for_poor_pictures) {
  picture("icon", picture_file("icon.png", 90, 60, grey), box(20, 20, 12, 12));
  EXPECT_EQ(said(),
            "warning art.low-resolution face.toml:1:1 on W-07/icon\n"
            "icon.png prints at 127 ppi; its pixels will show as steps\n"
            "the picture is 60 px high and covers 12.0 mm; 300 ppi needs 142 px\n"
            "hint: redraw it as vectors with quoin trace, or use a picture of 142 px or more\n");
}

TEST_F(Resolution, lets_pictures_of_exactly_enough_pixels_pass) {
  // 750 x 1050 px on 63.5 x 88.9 mm are 300.0 ppi.
  picture("art", picture_file("art.png", 750, 1050, grey), trim_box);
  EXPECT_EQ(said(), "");
}

TEST_F(Resolution, obeys_the_limits_of_the_game) {
  limits.good_ppi = 200;
  picture("art", picture_file("art.png", 586, 800, grey), bleed_box);
  EXPECT_EQ(said(), "");
}

TEST_F(Resolution, counts_the_scale_of_groups) {
  picture("art", picture_file("art.png", 400, 400, grey), box(10, 10, 20, 20));
  Item inner = take_last();
  group("pair", {inner}).map = Affine::scale(2, 2);
  EXPECT_EQ(only(Id::art_low_resolution, check()).at(0).message,
            "art.png prints at 254 ppi; edges will look soft");
}

TEST_F(Resolution, counts_a_turned_picture_along_its_own_sides) {
  picture("art", picture_file("art.png", 300, 600, grey), box(20, 20, 25.4, 50.8)).map =
      Affine::turn_about({32_mm, 44_mm}, Angle::degrees(30));
  EXPECT_EQ(said(), "");
}

TEST_F(Resolution, says_the_weakest_use_of_a_repeated_picture_once) {
  const PicturePtr file = picture_file("dot.png", 60, 60, grey);
  std::vector<Item> items;
  for (const double size : {6.0, 8.0, 7.0}) {
    picture("dots", file, box(10 + size * 2, 20, size, size));
    items.push_back(take_last());
  }
  group("dots", std::move(items));
  const Diagnostics found = only(Id::art_low_resolution, check());
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].message, "dot.png prints at 190 ppi; its pixels will show as steps");
}

TEST_F(Resolution, looks_at_symbols_in_text) {
  auto symbol = std::make_shared<InlineSymbol>();
  symbol->picture = picture_file("shell.png", 20, 20, grey);
  Item& item = text("rule", "Keep it", box(10, 40, 40, 10), 9);
  TextRun run{"shell", false, false, symbol};
  std::get<TextItem>(item.what).block.runs.push_back(run);
  EXPECT_EQ(said(),
            "warning art.low-resolution face.toml:1:1 on W-07/rule\n"
            "shell.png prints at 160 ppi; its pixels will show as steps\n"
            "the picture is 20 px wide and covers 3.2 mm; 300 ppi needs 38 px\n"
            "hint: redraw it as vectors with quoin trace, or use a picture of 38 px or more\n");
}

TEST_F(Resolution, never_asks_pixels_of_vectors) {
  world.put("art.svg",
            "<svg xmlns='http://www.w3.org/2000/svg' width='10' height='10'>"
            "<rect width='10' height='10' fill='#555'/></svg>");
  Diagnostics met;
  const PicturePtr vectors = *shelf.open("art.svg", {}, met);
  picture("art", vectors, bleed_box);
  EXPECT_EQ(said(), "");
}

}  // namespace
}  // namespace quoin::pieces
