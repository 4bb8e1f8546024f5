#include "rules/manuscript.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "rules/count.h"
#include "rules/rules_fixture.h"

namespace quoin::rules {
namespace {

using testing::ElementsAre;
using testing::SizeIs;

std::string words_of(const std::vector<TextRun>& runs) {
  std::string words;
  for (const TextRun& run : runs) words += run.symbol ? "<" + run.text + ">" : run.text;
  return words;
}

/// The words of the first part.
std::string first_words(const std::string& rules) {
  const GameWithRules game(rules);
  const Checked<Manuscript> read = game.manuscript();
  EXPECT_THAT(told(read.found), ElementsAre());
  return read.value.parts.empty() ? "" : words_of(read.value.parts.front().words.runs);
}

/// All that is found in them.
std::vector<std::string> findings(const std::string& rules) {
  const GameWithRules game(rules);
  return told(game.manuscript().found);
}

TEST(Manuscript, puts_symbols_cards_counts_and_names_in_place) {
  EXPECT_EQ(first_words("A [shell] and {card:S-2}."), "A <shell> and <S-2>.");
  EXPECT_EQ(first_words("{count} in all, {count:suit=shell} of them shells"),
            "8 in all, 4 of them shells");
  EXPECT_EQ(first_words("{game.title} by {game.author}: {suit.shell.name}"),
            "Shore by A. Maker: Shells");
  EXPECT_EQ(first_words("\\[shell] {{count}} \\{count}"), "[shell] {count} {count}");
}

TEST(Manuscript, keeps_emphasis_and_line_breaks) {
  const GameWithRules game("plain *slanted **both*** **bold**\nsoft  \nhard");
  const std::vector<TextRun> runs = game.manuscript().value.parts.front().words.runs;
  std::string faces;
  for (const TextRun& run : runs) {
    faces += fmt::format("{}{}{}|", run.bold ? "b" : "", run.italic ? "i" : "", run.text);
  }
  EXPECT_EQ(faces, "plain |islanted |biboth| |bbold| soft\nhard|");
}

TEST(Manuscript, knows_what_stands_by_itself) {
  const GameWithRules game(
      "{card:S-1} {card:W-1}\n\n![A shell](art/shell.svg \"Found\")\n\n{credits}\n\n---\n");
  const std::vector<Part> parts = game.manuscript({"Shell: A. Maker, CC0"}).value.parts;
  ASSERT_THAT(parts, SizeIs(4));
  EXPECT_EQ(parts[0].kind, PartKind::cards);
  EXPECT_THAT(parts[0].cards, ElementsAre(0, 2));
  EXPECT_EQ(parts[1].kind, PartKind::picture);
  EXPECT_EQ(words_of(parts[1].words.runs), "Found");
  EXPECT_EQ(parts[2].kind, PartKind::credits);
  EXPECT_THAT(parts[2].lines, ElementsAre("Shell: A. Maker, CC0"));
  EXPECT_EQ(parts[3].kind, PartKind::rule);
}

TEST(Manuscript, leaves_credits_out_when_there_are_none) {
  const GameWithRules game("words\n\n{credits}\n");
  EXPECT_THAT(game.manuscript().value.parts, SizeIs(1));
}

TEST(Manuscript, prints_the_address_of_a_link_unless_its_words_say_it) {
  EXPECT_EQ(first_words("see [the shop](https://example.org/shore/)"),
            "see the shop (example.org/shore)");
  EXPECT_EQ(first_words("see <https://example.org>"), "see https://example.org");
  EXPECT_EQ(first_words("[write](mailto:a@example.org)"), "write (a@example.org)");
  EXPECT_EQ(first_words("[The End](#the-end)\n\n# The End"), "The End");
}

TEST(Manuscript, says_where_a_card_a_symbol_or_a_name_is_unknown) {
  EXPECT_THAT(
      findings("# One\n\nA {card:S-3} and\n[shel] and {game.titel} and {credits}."),
      ElementsAre("rules.md:3:3: there is no card S-3 [rules.unknown-card]\n"
                  "hint: did you mean {card:S-1}?",
                  "rules.md:4:1: [shel] is no symbol of the game [face.unknown-symbol]\n"
                  "hint: did you mean [shell]?",
                  "rules.md:4:12: nothing is known by the name {game.titel} [rules.unknown-name]\n"
                  "hint: did you mean {game.title}?",
                  "rules.md:4:29: nothing is known by the name {credits} [rules.unknown-name]\n"
                  "hint: {credits} stands alone in a paragraph"));
}

TEST(Manuscript, counts_are_checked_against_the_list) {
  EXPECT_THAT(findings("{count:suit=shell is 4} {count:suit=shell,name=One is 3}"), ElementsAre());
  EXPECT_THAT(
      findings("There are {count:suit=shell is 14}."),
      ElementsAre(
          "rules.md:1:11: the rules say 14 cards, and the list has 4 [rules.count-differs]\n"
          "hint: write {count:suit=shell is 4}, or leave \"is 14\" out"));
  EXPECT_THAT(findings("{count:suit=shel}"),
              ElementsAre("rules.md:1:1: no card is meant by {count:suit=shel} "
                          "[rules.count-of-none]\n"
                          "hint: look at the words in that column of the card list"));
  EXPECT_THAT(findings("{count:siut=shell}"),
              ElementsAre("rules.md:1:1: the card list has no column siut [rules.unknown-column]\n"
                          "hint: did you mean suit?"));
  EXPECT_THAT(findings("{count:shell} {count:suit=shell is many}"),
              ElementsAre("rules.md:1:1: {count:shell} cannot be counted: \"shell\" has no = "
                          "[rules.bad-count]\n"
                          "hint: write it like {count:suit=shell} or {count:suit=shell,rank=1 or "
                          "2}",
                          "rules.md:1:15: {count:suit=shell is many} cannot be counted: after "
                          "\"is\" a number is needed [rules.bad-count]\n"
                          "hint: write it like {count:suit=shell} or {count:suit=shell,rank=1 or "
                          "2}"));
}

TEST(Count, takes_several_conditions_and_several_words) {
  const GameWithRules game("words");
  const auto count = [&](std::string_view written) {
    return cards_in(game.game(), read_count(game.game(), written, {}).value());
  };
  EXPECT_EQ(count("count"), 8);
  EXPECT_EQ(count("count:suit=shell or weed"), 6);
  EXPECT_EQ(count("count:suit=shell|weed, name=One"), 4);
  EXPECT_EQ(count("count:suit=weed and name=Two"), 1);
  EXPECT_EQ(count("count:suit=*"), 6);
  EXPECT_EQ(count("count is 8"), 8);
}

TEST(Manuscript, says_where_html_links_and_pictures_do_not_work) {
  EXPECT_THAT(
      findings(
          "a <b>b</b>\n\n[x](#nowhere) [y](notes.txt)\n\n![z](art/shel.svg)\n\n<!-- mine -->\n"),
      ElementsAre("rules.md:1:3: <b> is HTML and is left out [rules.raw-html]\n"
                  "hint: write it in Markdown, or \\< for a < that is meant as one",
                  "rules.md:1:7: </b> is HTML and is left out [rules.raw-html]\n"
                  "hint: write it in Markdown, or \\< for a < that is meant as one",
                  "rules.md:3:5: there is no heading nowhere [rules.broken-link]\n"
                  "hint: name a heading in lower case, with - between words",
                  "rules.md:3:19: notes.txt is nothing that a reader can go to "
                  "[rules.broken-link]\n"
                  "hint: give a whole address, https://…, or take the link off the words",
                  "rules.md:5:6: there is no file art/shel.svg [picture.missing]\n"
                  "hint: there is art/shell.svg"));
}

TEST(Manuscript, is_bounded) {
  EXPECT_THAT(findings(""), ElementsAre("rules.md: there are no words in it [rules.empty]\n"
                                        "hint: write the rules, or delete the file"));
  const std::vector<std::string> too_long = findings(std::string(300'000, 'x'));
  EXPECT_THAT(too_long, ElementsAre("rules.md: the rules have 300000 characters; 200000 can be set "
                                    "[rules.too-large]\nhint: shorten them"));
  std::string nonsense;
  while (nonsense.size() < 190'000) nonsense += "{x} [y] ";
  EXPECT_GT(findings(nonsense).size(), 1000U);
  std::string deep;
  for (int i = 0; i < 90; ++i) deep += std::string(static_cast<std::size_t>(i) * 2, ' ') + "- x\n";
  EXPECT_THAT(findings(deep), SizeIs(1));
}

TEST(RulesFile, need_not_be_there_unless_it_is_named) {
  MemoryWorld world;
  world.put("cards.csv", "id\nA\n");
  const auto found = [&](const std::string& more) {
    world.put("game.toml", "[game]\ntitle = \"T\"\n" + more);
    const Checked<game::Game> read = game::read_game(world);
    EXPECT_FALSE(read.value.rules);
    std::vector<std::string> rules;
    for (const Diagnostic& one : read.found) {
      const bool about = one.message.find("ruls") != std::string::npos;
      if (about || one.origin.file.str() == "rules.md") rules.push_back(told(one));
    }
    return rules;
  };
  EXPECT_THAT(found(""), ElementsAre());
  EXPECT_THAT(found("[rules]\nfile = \"ruls.md\"\n"),
              ElementsAre("game.toml:4:8: there is no file ruls.md [game.missing-file]\n"
                          "hint: check the spelling, or put the file into the game folder"));
  world.put("rules.md", "\xff\xfe");
  EXPECT_THAT(found(""), SizeIs(1));
}

}  // namespace
}  // namespace quoin::rules
