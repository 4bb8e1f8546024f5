#include "guide/read_me.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>

#include "guide/figures/figures.h"
#include "guide/making_fixture.h"

namespace quoin::guide {
namespace {

using testing::HasSubstr;
using testing::Not;

std::string words_of(const std::vector<Item>& items) {
  std::string all;
  for (const Item& item : items) {
    if (const auto* group = std::get_if<GroupItem>(&item.what)) all += words_of(group->items);
    const auto* text = std::get_if<TextItem>(&item.what);
    if (text == nullptr) continue;
    for (const TextRun& run : text->block.runs) all += run.text;
    all += "\n";
  }
  return all;
}

ReadMe facts() {
  ReadMe facts;
  facts.guide = "shore-guide-A4.pdf";
  facts.ink_words = "the cards take 30 % of the ink";
  return facts;
}

void expect_on_page(const Document& document) {
  for (const Page& page : document.pages) {
    const Rect sheet{{}, page.media};
    for (const Item& item : page.own.items) {
      const auto covered = ink(item);
      EXPECT_TRUE(!covered || lies_in(*covered, sheet)) << words_of({item});
    }
  }
}

TEST(ReadMe, is_one_page_that_tells_what_to_set_and_measure) {
  Typesetter typesetter({});
  const SmallMaking small("[box]\nkind = \"tuck\"\n");
  const Document document = read_me(small.making(), facts(), typesetter);
  ASSERT_EQ(document.pages.size(), 1U);
  const std::string words = words_of(document.pages[0].own.items);
  EXPECT_THAT(words, HasSubstr("actual size"));
  EXPECT_THAT(words, HasSubstr("flipped on the long edge"));
  EXPECT_THAT(words, HasSubstr("the cards take 30 % of the ink"));
  EXPECT_THAT(words, HasSubstr("shore-guide-A4.pdf"));
  expect_on_page(document);
}

TEST(ReadMe, has_a_bar_of_100_millimetres) {
  Typesetter typesetter({});
  const SmallMaking small("");
  const Document document = read_me(small.making(), facts(), typesetter);
  int bars = 0;
  const std::function<void(const std::vector<Item>&, const Affine&)> look =
      [&](const std::vector<Item>& items, const Affine& map) {
        for (const Item& item : items) {
          const Affine all = then(item.map, map);
          if (const auto* group = std::get_if<GroupItem>(&item.what)) look(group->items, all);
          const auto* shape = std::get_if<ShapeItem>(&item.what);
          if (shape == nullptr || shape->path.empty()) continue;
          const Mm width = bounds(all, bounds(shape->path)).size.width;
          if (nearly_equal(width, Mm{100})) ++bars;
        }
      };
  look(document.pages[0].own.items, Affine{});
  EXPECT_GE(bars, 1);
}

TEST(ReadMe, stays_on_its_page_with_many_changes_on_letter) {
  Typesetter typesetter({});
  const SmallMaking small("[sheets]\npaper = \"Letter\"\n[box]\nkind = \"tuck\"\n");
  ReadMe many = facts();
  many.since = "0.9";
  for (int i = 0; i < 5; ++i) {
    many.changes.push_back("120 cards look different: " + std::string(4000, 'x'));
  }
  many.changed_cards = "shore-changed-cards-Letter-….pdf";
  const Document document = read_me(small.making(), many, typesetter);
  ASSERT_EQ(document.pages.size(), 1U);
  expect_on_page(document);
  EXPECT_THAT(words_of(document.pages[0].own.items), HasSubstr("Printed version 0.9?"));
}

TEST(CreditsDocument, goes_on_over_as_many_pages_as_it_takes) {
  Typesetter typesetter({});
  game::Game game;
  game.title = "Shore";
  std::vector<std::string> lines;
  for (int i = 0; i < 150; ++i) lines.push_back("Picture by nobody: shell. CC0 1.0.");
  const Document document = credits_document(game, lines, {Mm{210}, Mm{279.4}}, typesetter);
  EXPECT_GT(document.pages.size(), 1U);
  expect_on_page(document);
}

}  // namespace
}  // namespace quoin::guide
