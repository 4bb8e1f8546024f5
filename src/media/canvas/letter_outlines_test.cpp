#include <gtest/gtest.h>

#include <stdexcept>

#include "media/text.h"

namespace quoin {
namespace {

TextBlock block_of(const char* words, Mm type_size) {
  TextBlock block;
  block.runs.push_back({words, false, false, nullptr});
  block.style.type_size = block.style.smallest_size = type_size;
  block.box = {300_mm, 200_mm};
  return block;
}

TEST(PartsOf, has_letters_as_outlines_where_their_ink_is) {
  Typesetter typesetter({});
  for (const Mm type_size : {2_mm, 9_mm, 100_mm}) {
    const SetText text = typesetter.set(block_of("Ropes\ngo", type_size));
    const Rect ink = text.facts().ink, letters = bounds(parts_of(text).letters);
    EXPECT_NEAR(letters.left().value, ink.left().value, 0.03);
    EXPECT_NEAR(letters.top().value, ink.top().value, 0.03);
    EXPECT_NEAR(letters.right().value, ink.right().value, 0.03);
    EXPECT_NEAR(letters.bottom().value, ink.bottom().value, 0.03);
  }
}

// Outlines do not depend on the size but for their scale: nothing is rounded to a grid of pixels.
TEST(PartsOf, has_small_letters_as_exact_as_large_ones) {
  Typesetter typesetter({});
  const Path small = parts_of(typesetter.set(block_of("g", 2_mm))).letters;
  const Path large = parts_of(typesetter.set(block_of("g", 100_mm))).letters;
  ASSERT_EQ(small.steps().size(), large.steps().size());
  for (std::size_t i = 0; i < small.steps().size(); ++i) {
    for (std::size_t j = 0; j < 3; ++j) {
      const Point a = small.steps()[i].p[j], b = large.steps()[i].p[j];
      EXPECT_NEAR(a.x.value, b.x.value / 50, 2e-3);
      EXPECT_NEAR(a.y.value, b.y.value / 50, 2e-3);
    }
  }
}

TEST(PartsOf, holds_no_ways_that_lead_nowhere) {
  Typesetter typesetter({});
  const Path letters = parts_of(typesetter.set(block_of("il  i", 5_mm))).letters;
  ASSERT_FALSE(letters.empty());
  EXPECT_NE(letters.steps().back().verb, Path::Verb::move);
  for (std::size_t i = 1; i < letters.steps().size(); ++i) {
    EXPECT_FALSE(letters.steps()[i].verb == Path::Verb::move &&
                 letters.steps()[i - 1].verb == Path::Verb::move);
  }
}

TEST(PartsOf, refuses_a_text_that_was_not_set) {
  EXPECT_THROW((void)parts_of({}), std::logic_error);
}

}  // namespace
}  // namespace quoin
