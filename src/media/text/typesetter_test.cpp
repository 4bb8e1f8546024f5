#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

#include "media/text.h"
#include "media/text/house.h"
#include "media/text/set_text.h"

namespace quoin {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

constexpr Mm pt(double points) { return Mm{points * mm_per_inch / points_per_inch}; }

FontFile test_font(const std::string& name) {
  std::ifstream file(QUOIN_SOURCE_DIR "/tests/fonts/" + name, std::ios::binary);
  Bytes bytes{std::istreambuf_iterator<char>(file), {}};
  EXPECT_FALSE(bytes.empty()) << name;
  return {"fonts/" + name, std::make_shared<const Bytes>(std::move(bytes))};
}

/// Figures of the house font as its own tables give them (OpenType 1.9: head, hhea, OS/2).
class FontTables {
 public:
  explicit FontTables(std::string_view font) : font_(font) {}
  [[nodiscard]] double em(double units) const { return units / at("head", 18, false); }
  [[nodiscard]] double ascent() const { return em(at("hhea", 4, true)); }
  [[nodiscard]] double descent() const { return em(-at("hhea", 6, true)); }
  [[nodiscard]] double cap_height() const { return em(at("OS/2", 88, true)); }

 private:
  [[nodiscard]] unsigned byte(std::size_t i) const { return static_cast<unsigned char>(font_[i]); }
  [[nodiscard]] int at(std::string_view table, std::size_t offset, bool is_signed) const {
    for (std::size_t i = 12;; i += 16) {
      if (font_.substr(i, 4) != table) continue;
      std::size_t start = 0;
      for (std::size_t k = 8; k < 12; ++k) start = start << 8 | byte(i + k);
      const int value = static_cast<int>(byte(start + offset) << 8 | byte(start + offset + 1));
      return is_signed && value > 0x7FFF ? value - 0x10000 : value;
    }
  }
  std::string_view font_;
};

FontTables house() { return FontTables(house_fonts()[0].bytes); }

/// A text in the house font at 10 mm, in a box with room to spare.
TextBlock block(const std::string& text) {
  TextBlock b;
  std::vector<std::string> unknown;
  b.runs = read_markup(text, {}, unknown);
  b.style.family = house_family;
  b.style.type_size = b.style.smallest_size = Mm{10};
  b.box = {Mm{500}, Mm{500}};
  return b;
}

Typesetter& typesetter() {
  static Typesetter one({});
  return one;
}

TextFacts facts_of(const TextBlock& b) { return typesetter().set(b).facts(); }

TEST(Typesetter, puts_the_faces_ascent_at_the_top_of_the_box) {
  const TextFacts facts = facts_of(block("H"));
  EXPECT_EQ(facts.lines, 1);
  EXPECT_NEAR(facts.ink.bottom().value, 10 * house().ascent(), 0.01);  // H stands on the base line
  EXPECT_NEAR(facts.ink.size.height.value, 10 * house().cap_height(), 0.01);
  EXPECT_NEAR(facts.needed.height.value, 10 * (house().ascent() + house().descent()), 0.01);
}

TEST(Typesetter, spaces_base_lines_by_leading_times_type_size) {
  for (const double leading : {0.8, 1.0, 1.25, 2.0}) {
    TextBlock b = block("H\nH\nH");
    b.style.leading = leading;
    const TextFacts facts = facts_of(b);
    ASSERT_EQ(facts.line_ink.size(), 3U);
    for (std::size_t i = 1; i < 3; ++i)
      EXPECT_NEAR((facts.line_ink[i].top() - facts.line_ink[i - 1].top()).value, 10 * leading,
                  1e-3);
  }
}

TEST(Typesetter, adds_the_gap_between_paragraphs_and_not_between_lines) {
  TextBlock b = block("HHHH HHHH\nH");
  b.style.leading = 1;
  b.style.paragraph_gap = 0.5;
  b.box.width = Mm{40};
  const TextFacts facts = facts_of(b);
  ASSERT_EQ(facts.line_ink.size(), 3U);
  EXPECT_NEAR((facts.line_ink[1].top() - facts.line_ink[0].top()).value, 10, 1e-3);
  EXPECT_NEAR((facts.line_ink[2].top() - facts.line_ink[1].top()).value, 15, 1e-3);
}

TEST(Typesetter, aligns_lines_and_the_whole) {
  const auto ink = [](TextAlign align, VerticalAlign vertical) {
    TextBlock b = block("H");
    b.style.align = align;
    b.style.vertical = vertical;
    return facts_of(b).ink;
  };
  const Rect left = ink(TextAlign::left, VerticalAlign::top);
  const Rect middle = ink(TextAlign::centre, VerticalAlign::middle);
  const Rect right = ink(TextAlign::right, VerticalAlign::bottom);
  EXPECT_NEAR((left.left() + right.right()).value, 500, 0.02);
  EXPECT_NEAR(middle.centre().x.value, 250, 0.01);
  EXPECT_NEAR(((left.top() + right.top()) / 2 - middle.top()).value, 0, 0.01);
  EXPECT_NEAR(right.bottom().value, 500 - 10 * house().descent(), 0.01);
}

TEST(Typesetter, fills_justified_lines_but_the_last) {
  TextBlock b = block("Take two cards from the shore and put them under your boat");
  b.style.align = TextAlign::justify;
  b.box.width = Mm{120};
  const TextFacts facts = facts_of(b);
  ASSERT_GE(facts.lines, 3);
  for (int i = 0; i + 1 < facts.lines; ++i)
    EXPECT_NEAR(facts.line_ink[static_cast<std::size_t>(i)].right().value, 120, 1.5);
  EXPECT_LT(facts.line_ink.back().right().value, 110);
  EXPECT_LT(facts.line_ink.back().left().value, 2);
}

TEST(Typesetter, is_the_same_at_every_scale) {
  TextBlock small = block("AVATAR Ty. fjord 129"), large = small;
  small.style.type_size = small.style.smallest_size = pt(6);
  large.style.type_size = large.style.smallest_size = pt(60);
  EXPECT_NEAR(facts_of(small).needed.width.value * 10, facts_of(large).needed.width.value, 0.01);
}

TEST(Typesetter, spaces_letters_by_thousandths_of_an_em) {
  TextBlock b = block("HHHHH");
  const Mm plain = facts_of(b).ink.size.width;
  b.style.letter_spacing = 100;
  EXPECT_NEAR((facts_of(b).ink.size.width - plain).value, 4 * 1.0, 0.01);
}

TEST(Typesetter, shrinks_to_the_largest_size_that_fits) {
  TextBlock b = block("Take two cards from the shore, then look at one of them");
  b.style.type_size = pt(12);
  b.style.smallest_size = pt(5);
  b.box = {Mm{40}, Mm{12}};
  const TextFacts facts = facts_of(b);
  EXPECT_TRUE(facts.fits);
  EXPECT_LE(facts.needed.height.value, 12.01);
  b.style.smallest_size = b.style.type_size = facts.type_size + pt(0.05);
  EXPECT_GT(facts_of(b).needed.height.value, 12.01);
}

TEST(Typesetter, stops_shrinking_at_the_smallest_size) {
  TextBlock b = block("Take two cards from the shore, then look at one of them");
  b.style.type_size = pt(12);
  b.style.smallest_size = pt(6.03);
  b.box = {Mm{20}, Mm{4}};
  const TextFacts facts = facts_of(b);
  EXPECT_FALSE(facts.fits);
  EXPECT_NEAR((facts.type_size / pt(1)), 6.03, 1e-9);
  EXPECT_GT(facts.needed.height, Mm{4});
}

TEST(Typesetter, shrinks_rather_than_break_a_word) {
  TextBlock b = block("Bladderwrack");
  b.style.smallest_size = Mm{3};
  b.box.width = Mm{30};
  const TextFacts facts = facts_of(b);
  EXPECT_FALSE(facts.broke_inside_words);
  EXPECT_EQ(facts.lines, 1);
  EXPECT_LT(facts.type_size, Mm{10});
}

TEST(Typesetter, says_when_a_word_had_to_be_broken) {
  TextBlock b = block("Bladderwrack");
  b.box.width = Mm{30};
  const TextFacts facts = facts_of(b);
  EXPECT_TRUE(facts.broke_inside_words);
  EXPECT_TRUE(facts.fits);
  EXPECT_FALSE(facts_of(block("Bladder wrack")).broke_inside_words);
}

TEST(Typesetter, hyphenates_by_syllables) {
  TextBlock b = block("concatenation");
  b.box.width = Mm{50};
  EXPECT_TRUE(facts_of(b).broke_inside_words);
  b.style.hyphenate = true;
  const TextFacts facts = facts_of(b);
  EXPECT_EQ(facts.lines, 2);
  EXPECT_FALSE(facts.broke_inside_words);
  EXPECT_FALSE(facts.hyphenation_missing);
}

TEST(Typesetter, wraps_cleanly_when_it_cannot_hyphenate) {
  TextBlock b = block("lorem ipsum dolor");
  b.style.hyphenate = true;
  b.style.language = "qx";
  b.box.width = Mm{40};
  const TextFacts facts = facts_of(b);
  EXPECT_TRUE(facts.hyphenation_missing);
  EXPECT_FALSE(facts.broke_inside_words);
  EXPECT_EQ(facts.lines, 3);
}

TEST(Typesetter, names_characters_that_no_font_has) {
  const TextFacts facts = facts_of(block("H \u2603 漢 \u2603"));
  EXPECT_THAT(facts.missing_glyphs, ElementsAre("U+2603 ☃", "U+6F22 漢"));
  EXPECT_THAT(facts.other_families, IsEmpty());
}

TEST(Typesetter, names_other_families_that_helped_out) {
  Typesetter own({test_font("NotoSansHebrew-Regular.ttf")});
  const TextFacts facts = own.set(block("H ים")).facts();
  EXPECT_THAT(facts.other_families, ElementsAre("Noto Sans Hebrew"));
  EXPECT_THAT(facts.missing_glyphs, IsEmpty());
}

TEST(Typesetter, says_which_face_is_missing_and_sets_the_regular_one) {
  Typesetter own({test_font("NotoSansHebrew-Regular.ttf")});
  TextBlock b = block("ים");
  b.style.family = "Noto Sans Hebrew";
  const TextFacts regular = own.set(b).facts();
  EXPECT_THAT(regular.missing_faces, IsEmpty());
  b.runs[0].bold = b.runs[0].italic = true;
  const TextFacts facts = own.set(b).facts();
  EXPECT_THAT(facts.missing_faces, ElementsAre("Noto Sans Hebrew, bold italic"));
  EXPECT_EQ(facts.ink, regular.ink);  // nothing was thickened or slanted
  b.runs[0].bold = b.runs[0].italic = false;
  b.style.weight = 500;
  EXPECT_THAT(own.set(b).facts().missing_faces, ElementsAre("Noto Sans Hebrew, medium"));
}

TEST(Typesetter, has_four_faces_of_the_house_font) {
  EXPECT_THAT(facts_of(block("a *b* **c** ***d***")).missing_faces, IsEmpty());
}

TEST(Typesetter, sets_emphasis_in_italics_upright) {
  TextBlock plain = block("Hlaf"), twice = block("*Hlaf*");
  twice.style.italic = true;
  EXPECT_EQ(facts_of(plain).ink, facts_of(twice).ink);
}

TEST(Typesetter, uses_small_capitals_only_when_the_font_draws_them) {
  TextBlock b = block("hhh");
  b.style.letter_case = TextCase::small_caps;
  const TextFacts facts = facts_of(b);
  EXPECT_THAT(facts.missing_faces, IsEmpty());
  EXPECT_LT(facts.ink.size.height.value, 10 * house().cap_height() - 1);
  Typesetter own({test_font("NotoSansHebrew-Regular.ttf")});
  b.style.family = "Noto Sans Hebrew";
  EXPECT_THAT(own.set(b).facts().missing_faces, ElementsAre("Noto Sans Hebrew, small capitals"));
}

TEST(Typesetter, says_when_there_is_no_such_family_and_which_may_be_meant) {
  Typesetter own({test_font("NotoSansHebrew-Regular.ttf")});
  TextBlock b = block("H");
  b.style.family = "Noto Sans Hebrw";
  const TextFacts facts = own.set(b).facts();
  EXPECT_TRUE(facts.family_missing);
  EXPECT_EQ(facts.nearest_family, "Noto Sans Hebrew");
  EXPECT_EQ(facts.lines, 1);
  b.style.family = std::string(100000, 'q');
  EXPECT_EQ(own.set(b).facts().nearest_family, "");
}

TEST(Typesetter, knows_families_by_any_letter_case) {
  TextBlock b = block("H");
  b.style.family = " noto SANS";
  EXPECT_FALSE(facts_of(b).family_missing);
}

TEST(Typesetter, lists_what_it_has_and_refuses_what_is_no_font) {
  Typesetter own({test_font("NotoNaskhArabic-Regular.ttf"),
                  {"fonts/notes.ttf", std::make_shared<const Bytes>("not a font")},
                  {"fonts/none.ttf", std::make_shared<const Bytes>()}});
  EXPECT_THAT(own.families(), ElementsAre("Noto Naskh Arabic", "Noto Sans"));
  EXPECT_THAT(own.borrowed(), IsEmpty());
  EXPECT_THAT(own.refused(), ElementsAre("fonts/notes.ttf is not a font file",
                                         "fonts/none.ttf is not a font file"));
}

// fontconfig's own package brings this family along on Debian.
TEST(Typesetter, borrows_a_family_by_name_and_for_nobody_else) {
  Typesetter own({});
  const TextBlock plain = block("H \u265E");  // a chess knight, which the house font lacks
  const TextFacts before = own.set(plain).facts();
  TextBlock b = plain;
  b.style.family = "DejaVu Sans";
  const TextFacts facts = own.set(b).facts();
  ASSERT_FALSE(facts.family_missing) << "install fonts-dejavu-core";
  EXPECT_THAT(facts.missing_glyphs, IsEmpty());
  EXPECT_THAT(own.borrowed(), ElementsAre("DejaVu Sans"));
  const TextFacts after = own.set(plain).facts();
  EXPECT_EQ(after.missing_glyphs, before.missing_glyphs);
  EXPECT_THAT(after.missing_glyphs, ElementsAre("U+265E ♞"));
}

TEST(Typesetter, survives_fonts_that_were_cut_off) {
  const FontFile whole = test_font("NotoSansHebrew-Regular.ttf");
  std::vector<FontFile> cut;
  for (std::size_t length = 8; length < whole.bytes->size(); length += 1500)
    cut.push_back({"cut", std::make_shared<const Bytes>(whole.bytes->substr(0, length))});
  Typesetter own(cut);
  TextBlock b = block("ים H");
  b.style.family = "Noto Sans Hebrew";
  EXPECT_EQ(own.set(b).facts().lines, 1);
  EXPECT_THAT(own.refused(), Not(IsEmpty()));
}

TEST(Typesetter, keeps_texts_alive_after_it_is_gone) {
  SetText text;
  {
    Typesetter own({test_font("NotoSansHebrew-Regular.ttf")});
    TextBlock b = block("ים");
    b.style.family = "Noto Sans Hebrew";
    text = own.set(b);
  }
  EXPECT_EQ(text.facts().lines, 1);
  EXPECT_FALSE(text.state()->lines.empty());
}

TEST(Typesetter, sets_right_to_left_text_from_the_right_when_it_starts_there) {
  Typesetter own({test_font("NotoSansHebrew-Regular.ttf")});
  TextBlock b = block("ים");
  b.style.family = "Noto Sans Hebrew";
  EXPECT_LT(own.set(b).facts().ink.left(), Mm{1});  // left is left
  b.style.align = TextAlign::start;
  EXPECT_GT(own.set(b).facts().ink.right(), Mm{499});
  b.style.align = TextAlign::end;
  EXPECT_LT(own.set(b).facts().ink.left(), Mm{1});
  b = block("12");  // says nothing of its direction: the language does
  b.style.align = TextAlign::start;
  b.style.language = "he";
  EXPECT_GT(own.set(b).facts().ink.right(), Mm{499});
  b.style.direction = TextDirection::left_to_right;
  EXPECT_LT(own.set(b).facts().ink.left(), Mm{2});
}

TEST(Typesetter, sets_symbols_to_their_height_and_foot) {
  const auto picture = std::make_shared<const Picture>(
      "a.svg", "key", std::make_shared<const Bytes>(),
      PictureFacts{.format = PictureFormat::svg, .width = 30, .height = 20}, Bytes{});
  TextBlock b = block("H");
  TextRun symbol{"shell", false, false,
                 std::make_shared<const InlineSymbol>(InlineSymbol{picture, 1.2, 0.25})};
  b.runs.push_back(symbol);
  const SetText text = typesetter().set(b);
  ASSERT_EQ(text.state()->symbols.size(), 1U);
  const Rect place = text.state()->symbols[0].to;
  EXPECT_NEAR(place.size.height.value, 12, 1e-3);
  EXPECT_NEAR(place.size.width.value, 18, 1e-3);
  EXPECT_NEAR(place.bottom().value, 10 * house().ascent() + 2.5, 1e-2);
  EXPECT_NEAR(text.facts().needed.height.value, 10 * (house().ascent() + 0.293), 1e-2);
  EXPECT_THAT(text.facts().missing_glyphs, IsEmpty());
  EXPECT_THAT(text.facts().other_families, IsEmpty());
  EXPECT_GE(text.facts().ink.bottom().value, place.bottom().value - 1e-3);
}

TEST(Typesetter, moves_the_first_line_down_for_a_tall_symbol) {
  const auto picture = std::make_shared<const Picture>(
      "a.svg", "key", std::make_shared<const Bytes>(),
      PictureFacts{.format = PictureFormat::svg, .width = 20, .height = 20}, Bytes{});
  TextBlock b = block("H");
  b.runs.push_back(
      {"shell", false, false, std::make_shared<const InlineSymbol>(InlineSymbol{picture, 2, 0.1})});
  EXPECT_NEAR(typesetter().set(b).state()->symbols[0].to.top().value, 0, 1e-3);
}

TEST(Typesetter, counts_strokes_as_ink) {
  TextBlock b = block("H");
  const Rect plain = facts_of(b).ink;
  b.style.strokes = {Stroke{black, Mm{2}, {}}, Stroke{white, Mm{1}, {}}};
  EXPECT_NEAR((plain.left() - facts_of(b).ink.left()).value, 1, 1e-9);
}

TEST(Typesetter, sets_nothing_for_nothing) {
  for (const char* text : {"", "\n", "\n\n"}) {
    const TextFacts facts = facts_of(block(text));
    EXPECT_EQ(facts.lines, 0);
    EXPECT_TRUE(facts.fits);
    EXPECT_EQ(facts.ink, Rect{});
  }
}

TEST(Typesetter, takes_whatever_it_is_handed) {
  TextBlock b = block("H");
  b.box = {};
  EXPECT_FALSE(facts_of(b).fits);
  b.style.type_size = Mm{std::nan("")};
  EXPECT_EQ(facts_of(b).lines, 1);
  b.style.type_size = Mm{1e12};
  EXPECT_EQ(facts_of(b).lines, 1);
  b = block("H");
  b.runs[0].text = std::string("a\0b\xFF\xF0", 5);
  EXPECT_EQ(facts_of(b).lines, 1);
  b.style.language = "x-not-a-language-at-all";
  EXPECT_EQ(facts_of(b).lines, 1);
}

TEST(Typesetter, gives_the_same_facts_every_time) {
  TextBlock b = block("Take *two* cards **from** the shore");
  b.box.width = Mm{60};
  Typesetter one({}), two({});
  (void)two.set(block("something else"));
  EXPECT_EQ(one.set(b).facts().line_ink, two.set(b).facts().line_ink);
}

}  // namespace
}  // namespace quoin
