#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cut/simulate.h"
#include "guide/figures/figures.h"
#include "guide/guide_document.h"
#include "guide/making_fixture.h"

namespace quoin::guide {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;

/// All words of a block, a line each.
struct WordsOf {
  std::string all;
  void add(const std::string& words) { all += words + "\n"; }
  void operator()(const Heading& block) { add(block.words); }
  void operator()(const Paragraph& block) { add(block.words); }
  void operator()(const TickList& block) {
    for (const std::string& item : block.items) add(item);
  }
  void operator()(const Caution& block) {
    add(block.title);
    for (const std::string& each : block.lines) add(each);
  }
  void operator()(const Steps& block) {
    for (const Step& step : block.steps) add(step.words);
  }
  void operator()(const Table& block) {
    for (const auto& row : block.rows) {
      for (const std::string& cell : row) all += cell + "|";
      all += "\n";
    }
  }
  void operator()(const Picture& block) { add(block.caption); }
};

std::string words_of(const Chapter& chapter) {
  WordsOf words{};
  for (const Block& block : chapter.blocks) std::visit(words, block);
  return words.all;
}

std::vector<std::string> written_chapters(const Making& making) {
  std::vector<std::string> titles;
  for (const Chapter& chapter : guide_for(making).chapters) {
    if (!chapter.blocks.empty()) titles.push_back(chapter.title);
  }
  return titles;
}

const Steps& counted_steps(const Chapter& chapter) {
  for (const Block& block : chapter.blocks) {
    const auto* steps = std::get_if<Steps>(&block);
    if (steps != nullptr && steps->numbers == Steps::Numbers::counted) return *steps;
  }
  throw std::logic_error("the chapter has no steps");
}

bool shows_something(const Figure& figure) {
  return figure.size.width > Mm{5} && figure.size.height > Mm{5} &&
         !(figure.scene.items.empty() && figure.placed.empty());
}

TEST(GuideChapters, are_those_that_the_game_has_something_for) {
  const SmallMaking plain("", "corner = 0\n");
  EXPECT_THAT(written_chapters(plain.making()),
              ElementsAre("What to have ready", "Print the cards", "Cut", "Count the deck",
                          "A card is spoilt"));
  const SmallMaking whole("[box]\nkind = \"tuck\"\n");
  EXPECT_THAT(written_chapters(whole.making()),
              ElementsAre("What to have ready", "Print the cards", "Cut", "Round the corners",
                          "Make the box: tuck carton", "Count the deck", "A card is spoilt"));
}

TEST(GuideChapters, say_how_many_sheets_to_have_ready) {
  const SmallMaking made("[box]\nkind = \"tuck\"\ngrammage = 300\n");
  const std::string words = words_of(have_ready(made.making()));
  EXPECT_THAT(words,
              HasSubstr("Uncoated card, 250 g/m².|**3 sheets** of A4, and 2 to spare|20 cards|"));
  EXPECT_THAT(words, HasSubstr("Board, 300 g/m².|**1 sheet** of A4, and 1 to spare|the box: tuck "
                               "carton|"));
  EXPECT_THAT(words, HasSubstr("A **corner punch** for a radius of 3.5 mm or close to it."));
  const SmallMaking square("", "corner = 0\n");
  EXPECT_THAT(words_of(have_ready(square.making())), Not(HasSubstr("punch")));
}

TEST(GuideChapters, keep_a_tenth_of_the_sheets_to_spare_and_two_at_least) {
  EXPECT_EQ(usual_spares(1), 2);
  EXPECT_EQ(usual_spares(20), 2);
  EXPECT_EQ(usual_spares(21), 3);
  EXPECT_EQ(usual_spares(100), 10);
  const SmallMaking made("");
  Making reckoned = made.making();
  reckoned.spare_sheets = 7;
  EXPECT_THAT(words_of(have_ready(reckoned)), HasSubstr("**3 sheets** of A4, and 7 to spare"));
}

TEST(GuideChapters, tell_cuts_that_were_planned_elsewhere) {
  const SmallMaking made("");
  Making planned = made.making();
  Figure figure;
  figure.size = {Mm{10}, Mm{10}};
  planned.cuts.push_back({"Sheets 1 and 2", "Two at a time.", {{"Cut here.", figure}}});
  planned.cuts.push_back({"Sheet 3", "", {{"Cut there.", figure}}});
  EXPECT_THAT(words_of(cut_cards(planned)),
              HasSubstr("Sheets 1 and 2\nTwo at a time.\nCut here.\nSheet 3\nCut there.\n"));
}

TEST(GuideChapters, say_which_edge_the_sheet_turns_about) {
  const SmallMaking long_edge("[sheets]\norientation = \"portrait\"\n");
  EXPECT_THAT(words_of(print_cards(long_edge.making())),
              HasSubstr("Both sides, **flipped on the long edge**."));
  EXPECT_THAT(words_of(print_cards(long_edge.making())), HasSubstr("like the page of a book"));
  const SmallMaking short_edge("[sheets]\norientation = \"portrait\"\nflip = \"short-edge\"\n");
  EXPECT_THAT(words_of(print_cards(short_edge.making())),
              HasSubstr("Both sides, **flipped on the short edge**."));
  EXPECT_THAT(words_of(print_cards(short_edge.making())), HasSubstr("a wall calendar"));
  // On paper that lies across, the long edge is the level one.
  const SmallMaking lying("[sheets]\norientation = \"landscape\"\n");
  EXPECT_THAT(words_of(print_cards(lying.making())), HasSubstr("a wall calendar"));
}

TEST(GuideChapters, name_the_files_that_are_there_to_print) {
  const SmallMaking by_hand("[sheets]\nbacks = \"by-hand\"\n");
  const std::string words = words_of(print_cards(by_hand.making()));
  EXPECT_THAT(words, HasSubstr("Print all of **home/cards-fronts.pdf**."));
  EXPECT_THAT(words, HasSubstr("Print **home/cards-backs.pdf** behind them"));
  EXPECT_THAT(words, Not(HasSubstr("home/cards.pdf")));
  const SmallMaking none("[sheets]\nbacks = \"none\"\n");
  EXPECT_THAT(words_of(print_cards(none.making())), HasSubstr("One side only."));
  EXPECT_THAT(words_of(print_cards(none.making())), Not(HasSubstr("lamp")));
}

TEST(GuideChapters, tell_every_cut_of_the_plan_with_a_picture) {
  const SmallMaking made("");
  const cut::Plan plan = cut::plan_cuts(cut_grid(made.plan()), cut::Prefer::fewest_settings);
  EXPECT_TRUE(cut::simulate(plan).faults.empty());
  const Chapter chapter = cut_cards(made.making());
  const Steps& steps = counted_steps(chapter);
  ASSERT_EQ(steps.steps.size(), plan.steps.size());
  for (const Step& step : steps.steps) EXPECT_TRUE(shows_something(step.picture)) << step.words;
  for (std::size_t i = 0; i < plan.steps.size(); ++i) {
    const cut::Cut& first = plan.steps[i].cuts.front();
    if (first.found == cut::Found::by_mark) continue;
    EXPECT_THAT(steps.steps[i].words,
                HasSubstr(fmt::format("fence at **{:g} mm**", first.setting.value)));
  }
  EXPECT_THAT(words_of(chapter), HasSubstr("8 cards lie on each sheet, 4 across and 2 down."));
  EXPECT_THAT(words_of(chapter), HasSubstr("The last sheet has only 4 cards"));
}

TEST(GuideChapters, warn_of_blades_where_they_are_used) {
  const SmallMaking made("");
  EXPECT_THAT(words_of(cut_cards(made.making())), HasSubstr("latched down whenever you look away"));
  EXPECT_THAT(words_of(count_deck(made.making())), HasSubstr("Not tested as a toy."));
}

TEST(GuideChapters, show_each_step_of_folding_of_every_kind_of_box) {
  for (const char* kind : {"tuck", "lid", "sleeve"}) {
    const SmallMaking made(fmt::format("[box]\nkind = \"{}\"\n", kind));
    const Making making = made.making();
    const Chapter chapter = make_the_box(making);
    const Steps& steps = counted_steps(chapter);
    // And the finished box at the end.
    ASSERT_EQ(steps.steps.size(), making.box.box->model.steps.size() + 1) << kind;
    for (const Step& step : steps.steps) EXPECT_TRUE(shows_something(step.picture)) << kind;
    EXPECT_THAT(words_of(chapter), HasSubstr("hold them for **two minutes**")) << kind;
  }
}

TEST(GuideChapters, count_each_suit) {
  const SmallMaking made("");
  const std::string words = words_of(count_deck(made.making()));
  EXPECT_THAT(words, HasSubstr("The deck has **20 cards**, 16 different."));
  EXPECT_THAT(words, HasSubstr("Shells|**10**|8|S-1 ×3, S-2, S-3"));
  EXPECT_THAT(words, HasSubstr("Weed|**10**|8|W-9 ×3"));
}

TEST(GuideChapters, say_on_which_sheet_each_card_stands) {
  const SmallMaking made("");
  const std::string words = words_of(spoilt_cards(made.making()));
  EXPECT_THAT(words, HasSubstr("**1**|S-1, S-2, S-3, S-4, S-5, S-6|\n**2**|S-7, S-8, W-9"));
  EXPECT_THAT(words, HasSubstr("FOLDER --only S-6,W-11**"));
}

TEST(GuideDocument, names_the_game_on_every_page_and_lies_on_its_paper) {
  const SmallMaking made("[sheets]\npaper = \"Letter\"\n[box]\nkind = \"lid\"\n");
  Typesetter typesetter({});
  const Document document = document_of(guide_for(made.making()), typesetter);
  EXPECT_EQ(document.title, "Shore");
  EXPECT_EQ(document.language, "en");
  ASSERT_GT(document.pages.size(), 5U);
  for (std::size_t i = 0; i < document.pages.size(); ++i) {
    EXPECT_EQ(document.pages[i].media, (Size{Mm{215.9}, Mm{279.4}}));
    EXPECT_EQ(document.pages[i].label, fmt::format("{}", i + 1));
    for (const Placement& placement : document.pages[i].placements) {
      EXPECT_TRUE(lies_in(placement.window, {{}, document.pages[i].media})) << "page " << i + 1;
    }
  }
}

}  // namespace
}  // namespace quoin::guide
