#include "base/diagnostic.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

namespace quoin {
namespace {

Origin at(std::string_view file, std::uint32_t line, std::uint32_t column) {
  return {FileName(file), line, column, 0};
}

TEST(Diagnostics, have_names_of_a_stage_and_words_used_once) {
  std::set<std::string_view> names;
  for (const IdFacts& one : all_diagnostics()) {
    EXPECT_TRUE(names.insert(one.name).second) << one.name << " stands in the table twice";
    EXPECT_EQ(std::count(one.name.begin(), one.name.end(), '.'), 1) << one.name;
    EXPECT_FALSE(one.title.empty() || one.on_the_table.empty() || one.remedy.empty()) << one.name;
    EXPECT_EQ(&facts(one.id), &one);
  }
}

TEST(InOrder, sorts_by_file_line_and_column) {
  const Diagnostics sorted = in_order({{Id::face_no_box, at("b.toml", 1, 1), "x"},
                                       {Id::face_no_box, at("a.toml", 10, 2), "x"},
                                       {Id::face_no_box, at("a.toml", 9, 1), "x"},
                                       {Id::face_no_box, at("a.toml", 10, 1), "x"}});
  std::vector<std::string> places;
  for (const Diagnostic& one : sorted) places.push_back(to_string(one.origin));
  EXPECT_EQ(places,
            (std::vector<std::string>{"a.toml:9:1", "a.toml:10:1", "a.toml:10:2", "b.toml:1:1"}));
}

TEST(InOrder, folds_what_one_element_does_on_many_cards) {
  Diagnostics found;
  for (int i = 1; i <= 9; ++i) {
    found.push_back(Diagnostic(Id::face_no_box, at("cards.csv", static_cast<unsigned>(i), 3), "m")
                        .on("c" + std::to_string(i), "name"));
  }
  found.push_back(Diagnostic(Id::face_no_box, at("cards.csv", 20, 3), "m").on("c20", "other"));
  const Diagnostics folded = in_order(std::move(found));
  ASSERT_EQ(folded.size(), 2U);
  EXPECT_EQ(folded[0].details,
            std::vector<std::string>{"also on c2, c3, c4, c5, c6, c7 and 2 more"});
  EXPECT_EQ(folded[1].place.piece, "c20");
}

TEST(InOrder, keeps_different_messages_apart) {
  EXPECT_EQ(in_order({{Id::face_no_box, at("a", 1, 1), "x"}, {Id::face_no_box, at("a", 1, 1), "y"}})
                .size(),
            2U);
}

TEST(Count, counts_by_severity) {
  const Counts counts = count({{Id::face_no_box, {}, "x"}, {Id::face_unknown_symbol, {}, "y"}});
  EXPECT_EQ(counts.errors, 1);
  EXPECT_EQ(counts.warnings, 1);
  EXPECT_EQ(counts.notes, 0);
}

}  // namespace
}  // namespace quoin
