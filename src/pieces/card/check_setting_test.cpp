#include <gtest/gtest.h>

#include "pieces/card/inspect_fixture.h"

namespace quoin::pieces {
namespace {

constexpr Mm point{mm_per_inch / points_per_inch};

/// What the typesetter says, made by hand: the check must speak to every case, also to those that
/// the fonts of the day do not show.
class Setting : public ::testing::Test, protected DrawnFace {
 protected:
  TextFacts facts;
  TextBlock block;
  Setting() {
    block.style.family = "Vollkorn";
    block.style.type_size = block.style.smallest_size = point * 9;
    block.box = {Mm{40}, Mm{30}};
    facts.type_size = point * 9;
  }
  std::string said() {
    add("rule", TextItem{block, Point{Mm{10}, Mm{20}}, SetText(nullptr, facts)});
    const FaceLook blank{format.size, format.bleed, Raster{1, 1, {0xffffffffU}}, {}, {}};
    return whole(check_face(face(), limits, blank));
  }
};

TEST_F(Setting, is_silent_when_all_is_well) { EXPECT_EQ(said(), ""); }

TEST_F(Setting, tells_a_text_that_is_too_high) {
  facts.fits = false;
  facts.needed = {Mm{39}, Mm{40}};
  EXPECT_EQ(said(),
            "error card.text-too-long face.toml:1:1 on W-07/rule\n"
            "the text needs 40.0 mm of height at 9.0 pt; its box has 30.0 mm\n"
            "words would run over what lies next to them\n"
            "hint: shorten it by about 25 %, or make the box 10.0 mm higher\n"
            "hint: or let the type shrink: minimum = 7.5\n");
}

TEST_F(Setting, tells_a_text_that_is_too_wide_after_shrinking) {
  facts.fits = false;
  facts.needed = {Mm{50}, Mm{4}};
  facts.type_size = block.style.smallest_size = point * 7;
  EXPECT_EQ(said(),
            "error card.text-too-long face.toml:1:1 on W-07/rule\n"
            "the text needs 50.0 mm of width at 7.0 pt; its box has 40.0 mm\n"
            "words would run over what lies next to them\n"
            "hint: shorten it by about 20 %, or make the box 10.0 mm wider\n");
}

TEST_F(Setting, does_not_propose_type_below_the_limit) {
  facts.fits = false;
  facts.needed = {Mm{39}, Mm{90}};
  EXPECT_EQ(said().find("minimum"), std::string::npos);
}

TEST_F(Setting, tells_a_missing_font_and_the_nearest_and_nothing_that_follows_from_it) {
  facts.family_missing = true;
  facts.nearest_family = "Vollkorn SC";
  facts.other_families = {"Noto Sans"};
  facts.missing_faces = {"Vollkorn, bold"};
  EXPECT_EQ(said(),
            "error text.missing-family face.toml:1:1 on W-07/rule\n"
            "there is no font \"Vollkorn\"\n"
            "the text would be set in another font and run to another length\n"
            "hint: did you mean \"Vollkorn SC\"?\n");
}

TEST_F(Setting, tells_a_missing_font_without_a_near_one) {
  facts.family_missing = true;
  EXPECT_EQ(said(),
            "error text.missing-family face.toml:1:1 on W-07/rule\n"
            "there is no font \"Vollkorn\"\n"
            "the text would be set in another font and run to another length\n"
            "hint: put the font's files into fonts/, or name another font\n");
}

TEST_F(Setting, tells_a_missing_face) {
  facts.missing_faces = {"Vollkorn, bold italic"};
  EXPECT_EQ(said(),
            "warning text.missing-face face.toml:1:1 on W-07/rule\n"
            "the font has no face \"Vollkorn, bold italic\"\n"
            "the nearest face is printed instead, so the words are not set apart as meant\n"
            "hint: put that face's file into fonts/, or do without it\n");
}

TEST_F(Setting, names_characters_that_no_font_has) {
  facts.missing_glyphs = {"★", "𝄞", "é"};
  EXPECT_EQ(said(),
            "error text.missing-glyph face.toml:1:1 on W-07/rule\n"
            "no font of the game can draw ★ (U+2605), 𝄞 (U+1D11E) and é (U+00E9)\n"
            "an empty box would be printed in place of each\n"
            "hint: put a font that has them into fonts/, or use a [symbol] with a picture\n");
}

TEST_F(Setting, names_at_most_six_characters) {
  facts.missing_glyphs = {"a", "b", "c", "d", "e", "f", "g", "h"};
  EXPECT_NE(said().find("f (U+0066) and 2 more\n"), std::string::npos);
}

TEST_F(Setting, tells_characters_from_another_font) {
  facts.other_families = {"Noto Sans"};
  EXPECT_EQ(said(),
            "warning text.other-font face.toml:1:1 on W-07/rule\n"
            "some characters are set in Noto Sans, since Vollkorn does not have them\n"
            "they may look like strangers in the line\n"
            "hint: use a font that has them, or write them another way\n");
}

TEST_F(Setting, tells_a_broken_word) {
  facts.broke_inside_words = true;
  EXPECT_EQ(said(),
            "warning text.broke-inside-word face.toml:1:1 on W-07/rule\n"
            "a word at 9.0 pt is longer than its 40.0 mm line and was broken\n"
            "it goes on in the next line without a hyphen\n"
            "hint: make the box wider or the type smaller, or say hyphenate = true\n");
}

TEST_F(Setting, tells_a_language_whose_words_it_cannot_divide) {
  facts.hyphenation_missing = true;
  block.style.language = "gd";
  EXPECT_EQ(said(),
            "note text.no-hyphenation face.toml:1:1 on W-07/rule\n"
            "words in the language \"gd\" cannot be divided here\n"
            "lines break between words only, so some may stay short\n"
            "hint: put soft hyphens (U+00AD) where long words may be divided\n");
}

TEST_F(Setting, hears_of_real_texts_from_the_typesetter) {
  const std::string words(400, 'm');
  text("rule", words, box(10, 20, 30, 10), 9);
  const Diagnostics found = check();
  EXPECT_EQ(only(Id::card_text_too_long, found).size(), 1U);
  EXPECT_EQ(only(Id::text_broke_inside_word, found).size(), 1U);
}

}  // namespace
}  // namespace quoin::pieces
