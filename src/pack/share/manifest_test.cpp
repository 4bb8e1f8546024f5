#include "pack/share/manifest.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace quoin::pack {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

Manifest manifest(std::vector<SharedCard> cards, const std::string& version = "1.0") {
  return {"Reef",
          version,
          std::move(cards),
          {{"A4", 3, 1, 8, 1, 0.54, 0.17, 0}},
          {{"index.html", 12, "abc"}}};
}

TEST(Manifest, is_read_as_it_was_written) {
  const Manifest written = manifest({{"gull", "Herring \"Gull\"", "a1", 2}});
  const Result<Manifest> read = read_manifest(manifest_json(written), "share.json");
  ASSERT_TRUE(read.ok());
  EXPECT_EQ(read->title, "Reef");
  EXPECT_EQ(read->version, "1.0");
  EXPECT_EQ(read->cards, written.cards);
}

TEST(Manifest, that_is_none_says_so) {
  for (const char* text :
       {"", "[]", "{}", "{\"quoin\":\"0.1\",\"files\":[]}", "{\"quoin\":\"share 1\"}",
        "{\"quoin\":\"share 1\",\"cards\":[{\"id\":\"a\"}]}",
        "{\"quoin\":\"share 1\",\"cards\":[7]}"}) {
    const Result<Manifest> read = read_manifest(text, "old/share.json");
    ASSERT_FALSE(read.ok()) << text;
    EXPECT_EQ(read.why().front().id, Id::share_earlier_unreadable);
  }
}

TEST(Changes, name_what_looks_different_is_new_or_gone) {
  const Manifest earlier = manifest(
      {{"a", "Adder", "1", 1}, {"b", "", "2", 2}, {"c", "Cod", "3", 3}, {"d", "", "4", 1}});
  const Manifest now = manifest(
      {{"a", "Adder", "9", 2}, {"b", "", "2", 3}, {"c", "Cod", "3", 1}, {"e", "Eel", "5", 1}}, "2");
  const Changes changes = changes_between(earlier, now);
  EXPECT_EQ(changes.since, "1.0");
  EXPECT_EQ(changes.to_print(), 2 + 1 + 0 + 1);
  EXPECT_THAT(change_lines(changes),
              ElementsAre("1 card looks different: Adder (a)", "1 card is new: Eel (e)",
                          "1 card has more copies: b", "1 card has fewer copies: Cod (c)",
                          "1 card is gone: d"));
}

TEST(Changes, are_none_between_equal_shares) {
  const Manifest same = manifest({{"a", "", "1", 1}});
  EXPECT_THAT(change_lines(changes_between(same, same)), IsEmpty());
}

}  // namespace
}  // namespace quoin::pack
