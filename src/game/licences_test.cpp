#include "game/licences.h"

#include <gtest/gtest.h>

#include <set>

namespace quoin::game {
namespace {

TEST(Licences, name_each_licence_once) {
  std::set<std::string> ids;
  for (const Licence& one : licences()) {
    EXPECT_TRUE(ids.insert(one.id).second) << one.id;
    EXPECT_FALSE(one.name.empty()) << one.id;
  }
}

TEST(FindLicence, reads_identifiers_whatever_their_capitals_and_blanks) {
  for (const char* text : {"CC-BY-SA-4.0", "cc-by-sa-4.0", "CC BY-SA 4.0", " CC_BY_SA_4.0 "}) {
    const auto found = find_licence(text);
    ASSERT_TRUE(found) << text;
    EXPECT_EQ(found->id, "CC-BY-SA-4.0");
    EXPECT_EQ(found->credit, Licence::Credit::due);
    EXPECT_EQ(found->terms, Licence::Terms::same);
  }
  EXPECT_EQ(find_licence("CC0")->id, "CC0-1.0");
}

TEST(FindLicence, reads_what_the_names_of_creative_commons_ask) {
  EXPECT_EQ(find_licence("CC-BY-ND-4.0")->changing, Leave::no);
  EXPECT_EQ(find_licence("CC-BY-NC-3.0")->selling, Leave::no);
  EXPECT_EQ(find_licence("CC-BY-NC-3.0")->giving, Leave::yes);
  EXPECT_EQ(find_licence("CC-BY-4.0")->selling, Leave::yes);
}

TEST(FindLicence, reads_plain_words) {
  EXPECT_EQ(find_licence("own")->giving, Leave::yes);
  EXPECT_EQ(find_licence("with permission")->id, "permission");
  EXPECT_EQ(find_licence("All rights reserved")->giving, Leave::no);
  EXPECT_EQ(find_licence("unknown")->giving, Leave::not_known);
  EXPECT_EQ(find_licence("")->id, "unknown");
}

TEST(FindLicence, takes_of_two_what_either_allows_or_what_both_do) {
  const auto either = find_licence("CC-BY-ND-4.0 OR MIT");
  ASSERT_TRUE(either);
  EXPECT_EQ(either->changing, Leave::yes);
  const auto both = find_licence("CC-BY-NC-4.0 AND CC-BY-SA-4.0");
  ASSERT_TRUE(both);
  EXPECT_EQ(both->selling, Leave::no);
  EXPECT_EQ(both->terms, Licence::Terms::same);
  EXPECT_FALSE(find_licence("MIT OR something"));
}

TEST(FindLicence, knows_no_other_word) {
  EXPECT_FALSE(find_licence("CC-BY-5.0"));
  EXPECT_FALSE(find_licence("free"));
  EXPECT_EQ(nearest_licence("CC-BY-4"), "CC-BY-4.0");
  EXPECT_EQ(nearest_licence("permision"), "permission");
  EXPECT_FALSE(nearest_licence("a friend of mine said it is all right"));
}

}  // namespace
}  // namespace quoin::game
