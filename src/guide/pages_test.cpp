#include "guide/pages.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <functional>
#include <set>

namespace quoin::guide {
namespace {

using testing::HasSubstr;

constexpr Size paper_a4{Mm{210}, Mm{297}}, paper_letter{Mm{215.9}, Mm{279.4}};

Typesetter& house_letters() {
  static Typesetter typesetter({});
  return typesetter;
}

/// A picture that can be told from the others.
Figure marked_figure(const std::string& name, Size size) {
  Figure figure;
  figure.size = size;
  figure.scene.items.push_back(shape(Path::rectangle({{}, size}), accent_wash));
  figure.scene.items.back().element = name;
  return figure;
}

void each_item(const std::vector<Item>& items, const std::function<void(const Item&)>& see) {
  for (const Item& item : items) {
    see(item);
    if (const auto* group = std::get_if<GroupItem>(&item.what)) each_item(group->items, see);
  }
}

/// All words on a page, run after run, blanks left out.
std::string letters_on(const LaidPage& page) {
  std::string letters;
  each_item(page.items, [&](const Item& item) {
    const auto* text = std::get_if<TextItem>(&item.what);
    if (text == nullptr) return;
    for (const TextRun& run : text->block.runs) {
      for (const char c : run.text) {
        if (c != ' ') letters += c;
      }
    }
  });
  return letters;
}

std::set<std::string> pictures_on(const LaidPage& page) {
  std::set<std::string> names;
  each_item(page.items, [&](const Item& item) {
    if (item.element.starts_with("picture")) names.insert(item.element);
  });
  return names;
}

bool wants_company(SlabKind kind) {
  return kind == SlabKind::chapter || kind == SlabKind::heading || kind == SlabKind::table_head;
}

/// What must be so on every page, whatever the guide says.
void expect_sound(const Laid& laid, const Look& look) {
  for (const LaidPage& page : laid.pages) {
    RC_ASSERT(!page.slabs.empty());
    RC_ASSERT(!wants_company(page.slabs.back().kind));
    Mm down = look.column.top();
    for (const Standing& slab : page.slabs) {
      RC_ASSERT(lies_in(slab.box, look.column));
      RC_ASSERT(fits(down, slab.box.top()));
      down = slab.box.bottom();
    }
    for (const Item& item : page.items) {
      const auto inked = ink(item);
      RC_ASSERT(!inked || lies_in(*inked, grown(look.column, Mm{1})));
    }
  }
}

rc::Gen<std::string> some_words(int most) {
  return rc::gen::map(
      rc::gen::resize(
          most, rc::gen::nonEmpty(
                    rc::gen::container<std::vector<std::string>>(rc::gen::element<std::string>(
                        "a", "sheet", "of", "card", "scored", "with", "something", "blunt",
                        "Überschlag", "antidisestablishmentarianism", "63.5", "×")))),
      [](const std::vector<std::string>& words) {
        std::string all;
        for (const std::string& word : words) all += (all.empty() ? "" : " ") + word;
        return all;
      });
}

/// Everything of a chapter comes from one generator, so that names of pictures are told apart.
struct Made {
  Chapter chapter;
  std::string letters;  ///< what must be read, blanks left out
  std::set<std::string> pictures;
};

std::string without_blanks(std::string words) {
  std::erase(words, ' ');
  return words;
}

Size random_size() {
  return {Mm{static_cast<double>(*rc::gen::inRange(1, 400))},
          Mm{static_cast<double>(*rc::gen::inRange(1, 400))}};
}

Figure next_figure(Made& made) {
  const std::string name = fmt::format("picture {}", made.pictures.size());
  made.pictures.insert(name);
  return marked_figure(name, random_size());
}

Steps random_steps(Made& made) {
  Steps steps;
  steps.across = *rc::gen::inRange(1, 5);
  const int count = *rc::gen::inRange(1, 8);
  for (int i = 0; i < count; ++i) {
    steps.steps.push_back({*some_words(60), next_figure(made)});
  }
  return steps;
}

Table random_table() {
  Table table;
  table.head = {"One", "Two", "Three"};
  table.widths = {2, 1, 3};
  if (*rc::gen::arbitrary<bool>()) table.ticks = Table::Ticks::each_row;
  const int rows = *rc::gen::inRange(1, 30);
  for (int i = 0; i < rows; ++i) {
    table.rows.push_back({*some_words(6), *some_words(2), *some_words(30)});
  }
  return table;
}

Block random_block(Made& made) {
  switch (*rc::gen::inRange(0, 7)) {
    case 0:
      return Heading{*some_words(8)};
    case 1:
      return TickList{
          *rc::gen::resize(12, rc::gen::container<std::vector<std::string>>(some_words(40)))};
    case 2:
      return Caution{
          *some_words(4),
          *rc::gen::resize(6, rc::gen::container<std::vector<std::string>>(some_words(50)))};
    case 3:
      return random_steps(made);
    case 4:
      return random_table();
    case 5:
      return Picture{next_figure(made), *some_words(20)};
    default:
      return Paragraph{*some_words(400)};
  }
}

Made random_chapter() {
  Made made;
  made.chapter.title = *some_words(6);
  if (*rc::gen::arbitrary<bool>()) made.chapter.opening = Chapter::Opening::here;
  const int blocks = *rc::gen::inRange(1, 8);
  for (int i = 0; i < blocks; ++i) made.chapter.blocks.push_back(random_block(made));
  return made;
}

Laid laid_out(const std::vector<Chapter>& chapters, const Look& look) {
  Setting setting(house_letters());
  std::vector<ChapterSlabs> slabs;
  for (const Chapter& chapter : chapters) {
    const int number = static_cast<int>(slabs.size()) + 1;
    ChapterSlabs made{slabs_of(chapter, number, look, setting), chapter.opening};
    if (!made.slabs.empty()) slabs.push_back(std::move(made));
  }
  return run_over_pages(slabs, look);
}

RC_GTEST_PROP(GuidePages, keep_every_random_guide_within_its_margins_and_together, ()) {
  const Look look = look_for(*rc::gen::element(paper_a4, paper_letter));
  std::vector<Chapter> chapters;
  std::set<std::string> pictures;
  const int count = *rc::gen::inRange(1, 3);
  for (int i = 0; i < count; ++i) {
    Made made = random_chapter();
    if (i == 0) pictures = made.pictures;
    chapters.push_back(std::move(made.chapter));
  }
  const Laid laid = laid_out(chapters, look);
  expect_sound(laid, look);
  std::set<std::string> shown;
  for (const LaidPage& page : laid.pages) shown.merge(pictures_on(page));
  for (const std::string& name : pictures) RC_ASSERT(shown.contains(name));
}

RC_GTEST_PROP(GuidePages, keep_each_step_on_the_page_of_its_picture, ()) {
  const Look look = look_for(paper_a4);
  Made made;
  Steps steps;
  steps.across = *rc::gen::inRange(1, 4);
  const int count = *rc::gen::inRange(1, 14);
  for (int i = 0; i < count; ++i) {
    steps.steps.push_back({fmt::format("step<{}>", i), next_figure(made)});
  }
  Chapter chapter{"Steps", {Paragraph{*some_words(200)}, steps}, {}};
  const Laid laid = laid_out({chapter}, look);
  int seen = 0;
  for (const LaidPage& page : laid.pages) {
    const std::string letters = letters_on(page);
    const std::set<std::string> pictures = pictures_on(page);
    for (int i = 0; i < count; ++i) {
      const bool words = letters.find(fmt::format("step<{}>", i)) != std::string::npos;
      RC_ASSERT(words == pictures.contains(fmt::format("picture {}", i)));
      seen += words ? 1 : 0;
    }
  }
  RC_ASSERT(seen == count);
}

RC_GTEST_PROP(GuidePages, lose_no_word_of_a_long_paragraph, ()) {
  const Look look = look_for(paper_a4);
  const std::string words = *some_words(600);
  const Laid laid = laid_out({{"T", {Paragraph{words}}, {}}}, look);
  std::string read;
  for (const LaidPage& page : laid.pages) read += letters_on(page);
  RC_ASSERT(read == "1T" + without_blanks(words));
}

TEST(GuidePages, leave_no_line_of_a_paragraph_alone) {
  const Look look = look_for(paper_a4);
  Setting setting(house_letters());
  std::string words;
  for (int i = 0; i < 300; ++i) {
    words += "seaweed ";
    for (const SetWords& part : setting.parts(words, style_of(Voice::body), look.measure(), 4)) {
      const bool whole = setting.set(words, style_of(Voice::body), look.measure()).lines == 1;
      ASSERT_TRUE(part.lines >= 2 || whole) << i;
      ASSERT_LE(part.lines, 4) << i;
    }
  }
}

TEST(GuidePages, break_a_word_that_is_longer_than_a_page) {
  std::string word;
  for (int i = 0; i < 6000; ++i) word += static_cast<char>('a' + i % 26);
  const Laid laid = laid_out({{"T", {Paragraph{word}}, {}}}, look_for(paper_a4));
  ASSERT_GT(laid.pages.size(), 1U);
  std::string read;
  for (const LaidPage& page : laid.pages) read += letters_on(page);
  EXPECT_EQ(read, "1T" + word);
}

TEST(GuidePages, repeat_the_head_of_a_table_that_goes_on) {
  Table table;
  table.head = {"Sheet", "Cards"};
  table.widths = {1, 3};
  for (int i = 0; i < 90; ++i) table.rows.push_back({fmt::format("{}", i), "W-1, W-2"});
  const Laid laid = laid_out({{"Sheets", {table}, {}}}, look_for(paper_letter));
  ASSERT_GE(laid.pages.size(), 3U);
  for (const LaidPage& page : laid.pages) EXPECT_THAT(letters_on(page), HasSubstr("SheetCards"));
  EXPECT_EQ(laid.pages[1].slabs.front().kind, SlabKind::table_head);
}

TEST(GuidePages, leave_out_what_has_nothing_under_it) {
  const Look look = look_for(paper_a4);
  const Laid laid =
      laid_out({{"Nothing", {}, {}},
                {"Something",
                 {Heading{"first"}, Heading{"second"}, Paragraph{"words"}, Heading{"third"}},
                 {}}},
               look);
  ASSERT_EQ(laid.pages.size(), 1U);
  EXPECT_EQ(letters_on(laid.pages[0]), "1Somethingsecondwords");
}

TEST(GuidePages, begin_a_short_chapter_where_the_last_one_ended_while_there_is_room) {
  const auto lines = [](int count) {
    Chapter chapter{"Here", {}, Chapter::Opening::here};
    for (int i = 0; i < count; ++i) chapter.blocks.push_back(Paragraph{"words"});
    return chapter;
  };
  const Look look = look_for(paper_a4);
  EXPECT_EQ(laid_out({lines(3), lines(3)}, look).begins, (std::vector<int>{0, 0}));
  EXPECT_EQ(laid_out({lines(26), lines(3)}, look).begins, (std::vector<int>{0, 1}));
}

TEST(GuideLook, takes_the_paper_of_the_sheets_when_it_can_be_read_as_a_page) {
  EXPECT_EQ(page_for(paper_a4), paper_a4);
  EXPECT_EQ(page_for({Mm{279.4}, Mm{215.9}}), paper_letter);
  EXPECT_EQ(page_for({Mm{297}, Mm{420}}), paper_a4);
  // Tabloid, 11 x 17 in.
  EXPECT_EQ(page_for({Mm{279.4}, Mm{431.8}}), paper_letter);
}

TEST(AsWords, keeps_what_the_maker_wrote_and_nothing_more) {
  EXPECT_EQ(as_words("Sea *and* [shore]"), "Sea \\*and\\* \\[shore\\]");
  EXPECT_EQ(as_words("two\nlines"), "two lines");
  EXPECT_EQ(as_words("Überfahrt", 4), "Über…");
}

}  // namespace
}  // namespace quoin::guide
