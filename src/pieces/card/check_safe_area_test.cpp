#include <gtest/gtest.h>

#include "pieces/card/inspect_fixture.h"

namespace quoin::pieces {
namespace {

/// A text that was set elsewhere, with ink of one line where the test wants it: the check needs
/// no letters.
TextItem with_ink(Rect ink) {
  TextItem item;
  item.block.box = ink.size;
  item.at = ink.at;
  TextFacts facts;
  facts.type_size = Mm{3};
  facts.lines = 1;
  facts.ink = {{}, ink.size};
  facts.line_ink = {facts.ink};
  item.set = SetText(nullptr, facts);
  return item;
}

class SafeArea : public ::testing::Test, protected DrawnFace {
 protected:
  /// Checks without drawing: this check asks the scene alone.
  Diagnostics found() {
    const FaceLook blank{format.size, format.bleed, Raster{1, 1, {0xffffffffU}}, {}, {}};
    return only(Id::card_outside_safe, check_face(face(), limits, blank));
  }
  std::string said() { return whole(found()); }
};

TEST_F(SafeArea, tells_text_too_near_the_cut_and_how_far_to_move_it) {
  add("name", with_ink(box(1.8, 40, 20, 3)));
  EXPECT_EQ(said(),
            "warning card.outside-safe face.toml:1:1 on W-07/name\n"
            "the text comes within 1.8 mm of the cut; 3.0 mm is safe\n"
            "where the cut wanders inwards, letters are lost\n"
            "hint: move it 1.2 mm right, or say role = \"decoration\"\n");
}

TEST_F(SafeArea, has_stronger_words_for_text_that_the_blade_meets) {
  add("name", with_ink(box(40, 87, 20, 3)));
  EXPECT_EQ(said(),
            "warning card.outside-safe face.toml:1:1 on W-07/name\n"
            "the text runs 1.1 mm past the cut; 3.0 mm inside it is safe\n"
            "the blade will go through the letters\n"
            "hint: move it 4.1 mm up, or say role = \"decoration\"\n");
}

TEST_F(SafeArea, knows_round_corners) {
  format.corner = Mm{9};
  add("rank", with_ink(box(3.2, 3.2, 5, 5)));
  EXPECT_EQ(said(),
            "warning card.outside-safe face.toml:1:1 on W-07/rank\n"
            "the text comes within 0.8 mm of the cut; 3.0 mm is safe\n"
            "where the cut wanders inwards, letters are lost\n"
            "hint: move it away from the corner, or say role = \"decoration\"\n");
}

TEST_F(SafeArea, says_when_text_is_too_large_to_be_moved_in) {
  add("name", with_ink(box(1, 40, 61, 3)));
  EXPECT_EQ(found().at(0).hints.at(0), "make it smaller, or say role = \"decoration\"");
}

TEST_F(SafeArea, follows_the_turn_of_a_text) {
  Item& item = add("name", with_ink(box(21.75, 40, 20, 3)));
  item.map = Affine::turn_about({31.75_mm, 41.5_mm}, Angle::degrees(90));
  EXPECT_EQ(said(), "");
  item.map = then(item.map, Affine::move({Mm{-28}, Mm{0}}));
  EXPECT_EQ(found().at(0).message, "the text comes within 2.2 mm of the cut; 3.0 mm is safe");
}

TEST_F(SafeArea, lets_text_that_touches_its_line_pass) {
  add("name", with_ink(box(3, 3.5, 20, 3)));
  EXPECT_EQ(said(), "");
}

TEST_F(SafeArea, lets_decoration_pass_also_by_its_group) {
  add("name", with_ink(box(1, 40, 20, 3)));
  Item inner = take_last();
  Item& outer = group("ornament", {inner});
  EXPECT_EQ(found().size(), 1U);
  outer.role = Role::decoration;
  EXPECT_EQ(said(), "");
}

TEST_F(SafeArea, tells_a_frame_near_the_cut) {
  frame("frame", box(2, 2, 59.5, 84.9), 1_mm, colour("#204060"));
  EXPECT_EQ(said(),
            "warning card.outside-safe face.toml:1:1 on W-07/frame\n"
            "the line comes within 1.5 mm of the cut; 3.0 mm is safe\n"
            "a cut that wanders by a millimetre makes a frame look lopsided\n"
            "hint: draw it further in, let it run out past the bleed, or say role = "
            "\"decoration\"\n");
}

TEST_F(SafeArea, tells_a_frame_on_the_cut) {
  frame("frame", trim_box, 1_mm, colour("#204060"));
  EXPECT_EQ(found().at(0).message, "the line ends 0.5 mm past the cut; 3.0 mm inside it is safe");
}

TEST_F(SafeArea, lets_lines_that_run_off_the_card_pass) {
  Path wave;
  wave.move_to({Mm{-3}, 40_mm}).line_to({66.5_mm, 44_mm});
  Stroke stroke;
  stroke.paint = black;
  stroke.width = Mm{0.5};
  add("wave", ShapeItem{wave, NoPaint{}, stroke});
  EXPECT_EQ(said(), "");
}

TEST_F(SafeArea, lets_a_frame_within_the_safe_area_pass) {
  frame("frame", box(4, 4, 55.5, 80.9), 1_mm, colour("#204060"));
  EXPECT_EQ(said(), "");
}

TEST_F(SafeArea, lets_full_bleed_panels_pass) {
  panel("sea", bleed_box, colour("#204060"));
  EXPECT_EQ(said(), "");
}

class PictureInSafeArea : public SafeArea {
 protected:
  Item& icon(Rect to) {
    return picture("icon", picture_file("art/icon.png", 8, 8, [](int, int) { return 0x204060U; }),
                   to);
  }
};

TEST_F(PictureInSafeArea, is_told_when_it_is_whole_and_near_the_cut) {
  icon(box(1.2, 40, 6, 6));
  EXPECT_EQ(said(),
            "warning card.outside-safe face.toml:1:1 on W-07/icon\n"
            "the picture comes within 1.2 mm of the cut; 3.0 mm is safe\n"
            "where the cut wanders inwards, a strip of the picture is lost\n"
            "hint: move it 1.8 mm right, let it run out past the bleed, or say role = "
            "\"decoration\"\n");
}

TEST_F(PictureInSafeArea, is_told_on_each_side) {
  for (const Rect to : {box(56, 40, 6, 6), box(30, 1.5, 6, 6), box(30, 81.4, 6, 6)}) {
    icon(to);
    EXPECT_EQ(found().at(0).message, "the picture comes within 1.5 mm of the cut; 3.0 mm is safe");
    take_last();
  }
}

TEST_F(PictureInSafeArea, passes_when_it_touches_the_line) {
  icon(box(3, 3, 6, 6));
  EXPECT_EQ(said(), "");
}

TEST_F(PictureInSafeArea, passes_when_it_runs_off_the_card) {
  icon(box(-3, 40, 6, 6));
  EXPECT_EQ(said(), "");
  take_last();
  icon(box(40, -1, 6, 6));  // past the trim, short of the bleed: another check's
  EXPECT_EQ(said(), "");
}

TEST_F(PictureInSafeArea, passes_when_it_is_meant_to_reach_the_trim) {
  icon(box(0.1, 40, 6, 6));
  EXPECT_EQ(said(), "");
}

TEST_F(PictureInSafeArea, passes_when_it_runs_along_the_card_like_a_border) {
  icon(box(1, 1, 61.5, 4));
  EXPECT_EQ(said(), "");
  take_last();
  icon(box(1, 1, 4, 86.9));
  EXPECT_EQ(said(), "");
  take_last();
  icon(box(2, 2, 59.5, 84.9));
  EXPECT_EQ(said(), "");
}

TEST_F(PictureInSafeArea, passes_as_decoration) {
  icon(box(1, 1, 6, 6)).role = Role::decoration;
  EXPECT_EQ(said(), "");
}

TEST_F(PictureInSafeArea, counts_only_what_its_group_shows_of_it) {
  icon(box(1, 40, 10, 10));
  Item& window = group("window", {take_last()});
  EXPECT_EQ(found().size(), 1U);
  window.clip = Path::rectangle(box(4, 40, 10, 10));
  EXPECT_EQ(said(), "");
}

TEST_F(PictureInSafeArea, is_one_finding_for_a_row_of_pips) {
  icon(box(1, 84, 3, 3));
  const Item first = take_last();
  std::vector<Item> pips(4, first);
  for (std::size_t i = 0; i < pips.size(); ++i) {
    pips[i].map = Affine::move({Mm{4.0 * static_cast<double>(i)}, Mm{0}});
    pips[i].element.clear();
    pips[i].origin = {};
  }
  group("pips", std::move(pips));
  EXPECT_EQ(said(),
            "warning card.outside-safe face.toml:2:1 on W-07/pips\n"
            "the picture comes within 1.0 mm of the cut; 3.0 mm is safe\n"
            "where the cut wanders inwards, a strip of the picture is lost\n"
            "hint: move it 2.0 mm right and 1.1 mm up, let it run out past the bleed, or say role "
            "= \"decoration\"\n");
}

}  // namespace
}  // namespace quoin::pieces
