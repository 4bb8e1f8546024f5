#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <map>

#include "cut/simulate.h"
#include "guide/chapters/wording.h"
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

/// The same game with other sheets, tolerances and printer.
Making changed(const Making& of, const sheets::Plan& plan, const making::Tolerances& tolerances,
               const press::Profile* printer) {
  return {of.game, plan,       of.totals,  of.decks, of.fronts, of.faces, of.last_face_is_back,
          of.box,  of.cutting, tolerances, of.costs, printer};
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
                          "A card is spoilt", "What it takes"));
  const SmallMaking whole("[box]\nkind = \"tuck\"\n");
  EXPECT_THAT(written_chapters(whole.making()),
              ElementsAre("What to have ready", "Print the cards", "Cut", "Round the corners",
                          "Make the box: tuck carton", "Count the deck", "A card is spoilt",
                          "What it takes"));
}

TEST(GuideChapters, say_how_many_sheets_to_have_ready) {
  const SmallMaking made("[box]\nkind = \"tuck\"\ngrammage = 300\n");
  const std::string words = words_of(have_ready(made.making()));
  EXPECT_THAT(words,
              HasSubstr("Uncoated card, 250 g/m².|**3 sheets** of A4, and 1 to spare|20 cards|"));
  EXPECT_THAT(words, HasSubstr("Board, 300 g/m².|**1 sheet** of A4, and 1 to spare|the box: tuck "
                               "carton|"));
  EXPECT_THAT(words, HasSubstr("A **corner punch** for a radius of 3.5 mm or close to it."));
  const SmallMaking square("", "corner = 0\n");
  EXPECT_THAT(words_of(have_ready(square.making())), Not(HasSubstr("punch")));
}

TEST(GuideChapters, keep_sheets_to_spare_as_they_were_reckoned) {
  const SmallMaking made("");
  const Making making = made.making();
  making::Tolerances all = making.tolerances;
  all.spares = 2;
  all.spare_sheets = 6;
  all.spoilt_at_most = 4;
  const Making more = changed(making, making.plan, all, nullptr);
  const std::string words = words_of(have_ready(more));
  EXPECT_THAT(words, HasSubstr("**3 sheets** of A4, and 7 to spare"));
  EXPECT_THAT(words,
              HasSubstr("2 more of each sheet make up, in 19 runs of 20, for the 4 cards that "
                        "cuts and backs may spoil"));
  // With more than a fifth spoilt none are reckoned: one in ten then, two at the least.
  all.spares = all.spare_sheets = 0;
  all.spoilt = 9;
  EXPECT_THAT(words_of(have_ready(more)), HasSubstr("**3 sheets** of A4, and 2 to spare"));
  EXPECT_THAT(words_of(have_ready(more)), HasSubstr("some 9 of 20 cards will show a strange edge"));
  EXPECT_EQ(usual_spares(20), 2);
  EXPECT_EQ(usual_spares(21), 3);
  EXPECT_EQ(usual_spares(100), 10);
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

/// Every list of counted steps, one after the other.
std::vector<Step> all_counted_steps(const Chapter& chapter) {
  std::vector<Step> all;
  for (const Block& block : chapter.blocks) {
    const auto* steps = std::get_if<Steps>(&block);
    if (steps == nullptr || steps->numbers != Steps::Numbers::counted) continue;
    all.insert(all.end(), steps->steps.begin(), steps->steps.end());
  }
  return all;
}

TEST(GuideChapters, tell_every_cut_of_the_plan_with_a_picture) {
  const SmallMaking made("");
  const Making making = made.making();
  const Chapter chapter = cut_cards(making);
  std::vector<cut::Step> planned;
  for (const making::SheetKind& kind : making.cutting.kinds) {
    EXPECT_TRUE(cut::simulate(kind.cuts).faults.empty());
    planned.insert(planned.end(), kind.cuts.steps.begin(), kind.cuts.steps.end());
  }
  const std::vector<Step> told = all_counted_steps(chapter);
  ASSERT_FALSE(planned.empty());
  ASSERT_EQ(told.size(), planned.size());
  for (std::size_t i = 0; i < planned.size(); ++i) {
    EXPECT_TRUE(shows_something(told[i].picture)) << told[i].words;
    const cut::Cut& first = planned[i].cuts.front();
    if (first.found == cut::Found::by_mark) continue;
    EXPECT_THAT(told[i].words, HasSubstr(fmt::format("Set {:.1f} mm.", first.setting.value)));
  }
  const std::string words = words_of(chapter);
  EXPECT_THAT(words, HasSubstr("8 cards lie on each sheet, 4 across and 2 down."));
  EXPECT_THAT(words, HasSubstr("The last sheet has only 4 cards."));
  EXPECT_THAT(words, HasSubstr("With a rotary trimmer, 19 cuts in 20 come to lie within **"));
}

TEST(GuideChapters, name_the_sheets_that_are_cut_alike) {
  // A knife takes one sheet at a time, so that none rides along with fuller ones.
  const SmallMaking made("[cutting]\ntool = \"knife and rule\"\n");
  const Making making = made.making();
  ASSERT_EQ(making.cutting.kinds.size(), 2U);
  const std::string words = words_of(cut_cards(making));
  EXPECT_THAT(words, HasSubstr("Sheets 1 and 2\n2 sheets of 8 cards: 2 stacks of "));
  EXPECT_THAT(words, HasSubstr("Sheet 3\n1 sheet of 4 cards: 1 stack of "));
  EXPECT_THAT(words, HasSubstr("Measure "));
  EXPECT_THAT(words, HasSubstr("On a trimmer or a guillotine set the fence"));
}

TEST(GuideChapters, tell_folded_cards_to_be_scored_before_the_cuts) {
  const SmallMaking made("[sheets]\nbacks = \"fold\"\n");
  const std::string words = words_of(cut_cards(made.making()));
  const auto score = words.find("Score first"), glue = words.find("Fold and glue");
  ASSERT_NE(score, std::string::npos);
  EXPECT_LT(score, words.find("In the pictures you stand"));
  EXPECT_GT(glue, words.find("In the pictures you stand"));
  EXPECT_THAT(words, HasSubstr("flames and sparks"));
}

TEST(NumberRanges, name_runs_of_three_and_more_by_their_ends) {
  EXPECT_EQ(number_ranges({4}), "4");
  EXPECT_EQ(number_ranges({1, 2}), "1 and 2");
  EXPECT_EQ(number_ranges({1, 2, 3, 7, 9, 10, 11}), "1 to 3, 7 and 9 to 11");
}

TEST(BackRoom, is_what_bleed_and_cuts_leave) {
  const SmallMaking made("[sheets]\nspacing = \"gutters\"\n");
  const Making making = made.making();
  making::Tolerances all = making.tolerances;
  all.front.worst.cut_left = Mm{0.4};
  all.front.worst.cut_top = all.front.worst.cut_right = all.front.worst.cut_bottom = Mm{0.2};
  all.faces.back().margins.bleed = Mm{3.2};
  const Making other = changed(making, making.plan, all, nullptr);
  EXPECT_NEAR(back_room(other).most.value, 2.4, 1e-9);
  EXPECT_EQ(back_room(other).shows, BackRoom::Shows::white_edge);
  EXPECT_THAT(words_of(print_cards(other)), HasSubstr("no more than **2.4 mm** apart"));
  // 2 mm round the back, narrow side no less than 0.6 of the wide one: (2 - s)/(2 + s) = 0.6.
  all.faces.back().margins.border = Mm{2};
  EXPECT_NEAR(back_room(other).most.value, 0.5, 1e-9);
  EXPECT_EQ(back_room(other).shows, BackRoom::Shows::crooked_border);
  all.faces.back().margins = {};
  all.faces.back().margins.bleed = Mm{50};
  EXPECT_EQ(back_room(other).shows, BackRoom::Shows::nothing);
}

TEST(GuideChapters, name_the_printer_that_the_sheets_are_made_for) {
  const SmallMaking made("");
  const Making making = made.making();
  EXPECT_THAT(
      words_of(print_cards(making)),
      HasSubstr("Nobody measured a printer for these sheets. A laser printer at home, turning "
                "the sheet by itself, usually brings a back within **1.5 mm** of its front"));
  press::Profile printer;
  printer.name = "Laser in the study";
  printer.tray = "manual feed";
  printer.stock = "card";
  printer.measured = "2026-11-20";
  printer.sheets = 3;
  printer.back.shift = {Mm{0.43}, Mm{-0.31}};
  printer.spread.shift_x = printer.spread.shift_y = Mm{0.1};
  printer.back.turn = Angle::degrees(0.05);
  sheets::Plan plan = making.plan;
  plan.correction = press::Correction{};
  const Making known = changed(making, plan, making.tolerances, &printer);
  const std::string words = words_of(print_cards(known));
  EXPECT_THAT(words, HasSubstr("**Laser in the study**, tray *manual feed*, on *card*, measured on "
                               "2026-11-20 with 3 sheets."));
  EXPECT_THAT(words, HasSubstr("the backs are drawn 0.43 mm to the left and 0.31 mm down, turned "
                               "by 0.05° anticlockwise."));
  EXPECT_THAT(words, HasSubstr("within **0.2 mm**"));
  const Making otherwise = changed(making, making.plan, making.tolerances, &printer);
  EXPECT_THAT(words_of(print_cards(otherwise)), HasSubstr("nothing is corrected in them"));
}

TEST(GuideChapters, say_what_it_takes_and_money_only_with_prices) {
  const SmallMaking bare("[box]\nkind = \"tuck\"\n");
  std::string words = words_of(what_it_takes(bare.making()));
  EXPECT_THAT(words, HasSubstr("Sheets of card|3|\nSheets of board|1|\n"));
  EXPECT_THAT(words, HasSubstr("Printing|"));
  EXPECT_THAT(words, HasSubstr("15 s a printed side, 10 s a cut"));
  EXPECT_THAT(words, Not(HasSubstr("Money")));
  EXPECT_THAT(words, Not(HasSubstr("shops ask")));
  const SmallMaking priced(
      "[prices]\ncurrency = \"EUR\"\nsheet = 0.5\n[quotations.corner-shop]\ndecks = 20\n"
      "price = 190\nnote = \"two weeks\"\n");
  words = words_of(what_it_takes(priced.making()));
  EXPECT_THAT(words, HasSubstr("Paper|1.50 EUR|"));
  EXPECT_THAT(words, HasSubstr("A deck|1.50 EUR|"));
  EXPECT_THAT(words, HasSubstr("No price is known for ink."));
  EXPECT_THAT(words, HasSubstr("corner-shop|20 decks|190.00 EUR|9.50 EUR|two weeks|"));
}

TEST(GuideFigures, give_what_lies_behind_each_other_the_same_letter) {
  for (const char* flip : {"long-edge", "short-edge"}) {
    const SmallMaking made(
        fmt::format("[sheets]\norientation = \"portrait\"\nflip = \"{}\"\n", flip));
    const Making making = made.making();
    const Figure figure = turned_sheet(making);
    std::map<std::string, std::vector<Point>> places;
    for (const Item& item : figure.scene.items) {
      const auto* text = std::get_if<TextItem>(&item.what);
      if (text == nullptr || text->block.runs.front().text.size() != 1) continue;
      places[text->block.runs.front().text].push_back(item.map(Point{}));
    }
    ASSERT_EQ(places.size(), making.plan.sheets.front().front.placed.size());
    const bool book = std::string(flip) == "long-edge";
    for (const auto& [letter, both] : places) {
      ASSERT_EQ(both.size(), 2U) << letter;
      // A page of a book keeps its height; one of a wall calendar its distance from the side.
      const Mm kept = book ? both[0].y - both[1].y : both[0].x - both[1].x;
      EXPECT_NEAR(kept.value, 0, 0.01) << letter;
    }
    const auto& a = places.at("A");
    const auto& b = places.at("B");
    // A lies left of B on the front; seen from behind, in a book it is the other way round.
    EXPECT_LT(a[0].x, b[0].x);
    EXPECT_EQ(a[1].x > b[1].x, book);
  }
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
