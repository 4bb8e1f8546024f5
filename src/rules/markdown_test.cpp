#include "rules/markdown.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>

namespace quoin::rules {
namespace {

using testing::ElementsAre;
using testing::SizeIs;

Markdown markdown_of(std::string_view text) {
  return read_markdown(SourceText(text, FileName("rules.md")));
}

TEST(SourceText, counts_lines_and_characters_from_one) {
  const SourceText source("one\nzwölf\n\nend", FileName("rules.md"));
  EXPECT_EQ(to_string(source.place(0)), "rules.md:1:1");
  EXPECT_EQ(to_string(source.place(8)), "rules.md:2:4");  // ö is two bytes, one character
  EXPECT_EQ(to_string(source.place(12)), "rules.md:4:1");
  EXPECT_EQ(source.place(4, 100).length, 5U);             // no further than the line
  EXPECT_EQ(to_string(source.place(1)), "rules.md:1:2");  // backwards, too
}

TEST(Markdown, keeps_where_words_stand_and_which_marks_are_meant_literally) {
  const Markdown read = markdown_of("# Title\n\nA \\[b\\] and &lbrace;c} [d]\n");
  ASSERT_THAT(read.blocks, SizeIs(2));
  EXPECT_EQ(read.blocks[0].kind, BlockKind::heading);
  EXPECT_EQ(read.blocks[0].offset, 2U);
  ASSERT_THAT(read.blocks[1].spans, SizeIs(1));
  const Span& words = read.blocks[1].spans[0];
  EXPECT_EQ(words.text, "A [b] and {c} [d]");
  std::string literal;
  for (const Stretch& stretch : words.stretches) {
    if (stretch.meant == Stretch::Meant::literally) literal += words.text[stretch.at];
  }
  EXPECT_EQ(literal, "[]{");
}

TEST(Markdown, has_paragraphs_in_tight_lists) {
  const Markdown read = markdown_of("- a\n- b\n  - c\n");
  ASSERT_THAT(read.blocks, SizeIs(1));
  const Block& list = read.blocks[0];
  EXPECT_TRUE(list.tight);
  ASSERT_THAT(list.blocks, SizeIs(2));
  ASSERT_THAT(list.blocks[1].blocks, SizeIs(2));
  EXPECT_EQ(list.blocks[1].blocks[0].spans[0].text, "b");
  EXPECT_EQ(list.blocks[1].blocks[1].kind, BlockKind::bullet_list);
}

TEST(Markdown, reads_tables_with_their_alignment) {
  const Markdown read = markdown_of("| a | b |\n|:-:|--:|\n| 1 | 2 |\n");
  ASSERT_THAT(read.blocks, SizeIs(1));
  ASSERT_THAT(read.blocks[0].blocks, SizeIs(2));
  const Block& head = read.blocks[0].blocks[0];
  EXPECT_TRUE(head.head);
  EXPECT_EQ(head.blocks[0].align, CellAlign::centre);
  EXPECT_EQ(head.blocks[1].align, CellAlign::right);
}

/// How deep blocks lie in each other.
std::size_t depth_of(const std::vector<Block>& blocks) {
  std::size_t deepest = 0;
  for (const Block& block : blocks) deepest = std::max(deepest, 1 + depth_of(block.blocks));
  return deepest;
}

TEST(Markdown, keeps_the_words_of_lists_that_lie_too_deep) {
  std::string text;
  for (int i = 0; i < 200; ++i) text += std::string(static_cast<std::size_t>(i) * 2, ' ') + "- x\n";
  const Markdown read = markdown_of(text);
  EXPECT_TRUE(read.too_deep);
  EXPECT_LE(depth_of(read.blocks), deepest_blocks + 1);
  EXPECT_FALSE(markdown_of("- a\n  - b\n").too_deep);
}

TEST(Markdown, reads_two_megabytes_of_nonsense_in_a_moment) {
  const std::size_t size = 2'000'000;
  for (const std::string piece :
       {"> ", "[", "*a", "![](", "`", "- ", "<", "|a|b\n|-|-\n", "&", "\\"}) {
    std::string text;
    while (text.size() < size) text += piece;
    const auto before = std::chrono::steady_clock::now();
    const Markdown read = markdown_of(text);
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - before;
    EXPECT_LT(took.count(), 10) << piece;
    EXPECT_LE(depth_of(read.blocks), deepest_blocks + 1) << piece;
  }
}

}  // namespace
}  // namespace quoin::rules
