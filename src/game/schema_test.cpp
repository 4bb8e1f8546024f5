#include "game/schema.h"

#include <gtest/gtest.h>

#include <set>

#include "game/game.h"
#include "game/schema_check.h"
#include "game/schema_names.h"
#include "game/toml_file.h"

namespace quoin::game {
namespace {

const KnownNames names{{"ink"}, {"rule"}, {"shell"}};

std::vector<const PropertyFacts*> all_keys() {
  std::vector<const PropertyFacts*> all;
  for (const auto* sections : {&game_sections(), &layout_sections(), &printer_sections()}) {
    for (const SectionFacts& section : *sections) {
      for (const PropertyFacts& facts : keys_of(section.name)) all.push_back(&facts);
    }
  }
  return all;
}

std::string label(const PropertyFacts& facts) {
  return std::string(facts.section) + "." + std::string(facts.key);
}

TEST(Schema, gives_every_key_an_example_that_passes_its_own_check) {
  for (const PropertyFacts* facts : all_keys()) {
    const Result<Table> read = read_toml(std::string(facts->example), FileName("x"));
    ASSERT_TRUE(read.ok()) << label(*facts);
    EXPECT_EQ(read->at(0).key, facts->key) << label(*facts);
    const Diagnostics found = check_value(*facts, read->at(0).value, names);
    EXPECT_TRUE(found.empty()) << label(*facts) << ": " << found.front().message;
  }
}

TEST(Schema, gives_only_defaults_that_pass_their_own_check) {
  for (const PropertyFacts* facts : all_keys()) {
    if (facts->fallback.empty()) continue;
    const Diagnostics found = check_value(*facts, default_value(*facts), names);
    EXPECT_TRUE(found.empty()) << label(*facts) << ": " << found.front().message;
  }
}

TEST(Schema, gives_every_section_an_example_that_passes_its_own_check) {
  for (const auto* sections : {&game_sections(), &layout_sections(), &printer_sections()}) {
    for (const SectionFacts& section : *sections) {
      const Result<Table> read = read_toml(std::string(section.example), FileName("x"));
      EXPECT_TRUE(read.ok()) << section.name;
    }
  }
}

TEST(Schema, describes_every_table_it_speaks_of_and_no_key_twice) {
  std::set<std::string> seen;
  for (const PropertyFacts* facts : all_keys()) {
    EXPECT_TRUE(seen.insert(label(*facts)).second) << label(*facts);
    if (facts->part.empty()) continue;
    EXPECT_FALSE(keys_of(facts->part).empty()) << label(*facts);
  }
}

TEST(PropertyFacts, are_found_for_the_kind_that_has_them) {
  EXPECT_EQ(property_facts("text", "leading")->section, "type");
  EXPECT_EQ(property_facts("text", "at")->section, "element");
  EXPECT_EQ(property_facts("picture", "fit")->words.size(), 3u);
  EXPECT_EQ(property_facts("picture", "radius"), nullptr);
  EXPECT_EQ(property_facts("shadow", "blur")->unit, "mm");
  EXPECT_EQ(property_facts("nothing", "at"), nullptr);
}

// The defaults of the structs that the reader fills are those of the table.
TEST(Schema, agrees_with_the_defaults_of_the_structs) {
  const auto number = [](const char* section, const char* key) {
    return *default_value(*property_facts(section, key)).number();
  };
  EXPECT_EQ(number("card", "bleed"), CardFormat{}.bleed.value);
  EXPECT_EQ(number("card", "safe"), CardFormat{}.safe.value);
  EXPECT_EQ(number("printer", "margin"), SheetWishes{}.dead_margin.top.value);
  EXPECT_EQ(number("symbol", "scale"), Symbol{}.scale);
  EXPECT_EQ(number("symbol", "drop"), Symbol{}.drop);
  const Limits limits;
  EXPECT_EQ(number("checks", "good-ppi"), limits.good_ppi);
  EXPECT_EQ(number("checks", "poor-ppi"), limits.poor_ppi);
  EXPECT_EQ(number("checks", "contrast"), limits.contrast);
  EXPECT_EQ(number("checks", "contrast-large"), limits.contrast_large);
  EXPECT_EQ(number("checks", "suit-difference"), limits.suit_difference);
  EXPECT_EQ(number("checks", "thinnest-line"), limits.thinnest_line.value);
  EXPECT_EQ(number("checks", "thinnest-line-knocked-out"), limits.thinnest_line_knocked_out.value);
  const double point = mm_per_inch / points_per_inch;
  EXPECT_NEAR(number("checks", "smallest-type") * point, limits.smallest_type.value, 1e-9);
  EXPECT_NEAR(number("checks", "smallest-type-knocked-out") * point,
              limits.smallest_type_knocked_out.value, 1e-9);
}

TEST(ReadFilled, reads_text_as_the_type_that_is_asked_for) {
  const Origin here{FileName("cards.csv"), 2, 3, 1};
  const auto read = [&](const char* kind, const char* key, const char* text) {
    return read_filled(*property_facts(kind, key), text, here);
  };
  EXPECT_EQ(*read("element", "rotation", " 90 ").number(), 90);
  EXPECT_EQ(*read("text", "italic", "Yes").flag(), true);
  EXPECT_EQ(*read("text", "italic", "false").flag(), false);
  EXPECT_EQ(*read("element", "at", "1, 2.5").list()->at(1).number(), 2.5);
  EXPECT_EQ(*read("element", "at", "1 2.5").list()->at(1).number(), 2.5);
  EXPECT_EQ(*read("element", "inset", "3").number(), 3);
  EXPECT_EQ(read("element", "inset", "1,2,3,4").list()->size(), 4u);
  EXPECT_EQ(*read("element", "inset", "bleed").text(), "bleed");
  EXPECT_EQ(*read("text", "weight", "bold").text(), "bold");
  EXPECT_EQ(*read("element", "rotation", "left").text(), "left");
  EXPECT_EQ(*read("text", "text", "3").text(), "3");
  EXPECT_EQ(read("element", "rotation", "1").origin, here);
}

TEST(CheckValue, judges_a_filled_value_like_a_written_one) {
  const Origin here{FileName("cards.csv"), 2, 3, 4};
  const PropertyFacts& opacity = *property_facts("element", "opacity");
  EXPECT_TRUE(check_value(opacity, read_filled(opacity, "0.5", here), names).empty());
  const Diagnostics high = check_value(opacity, read_filled(opacity, "50", here), names);
  ASSERT_EQ(high.size(), 1u);
  EXPECT_EQ(high[0].message, "opacity is 50; it can be 0 to 1");
  EXPECT_EQ(high[0].origin, here);
  const Diagnostics text = check_value(opacity, read_filled(opacity, "half", here), names);
  EXPECT_EQ(text.at(0).message, "opacity needs a number, not the text \"half\"");
}

TEST(CheckValue, passes_placeholders_in_layouts_and_nowhere_else) {
  const Node placeholder{{}, std::string("{rank}")};
  EXPECT_TRUE(check_value(*property_facts("repeat", "count"), placeholder, names).empty());
  EXPECT_TRUE(check_value(*property_facts("stroke", "colour"), placeholder, names).empty());
  EXPECT_FALSE(check_value(*property_facts("card", "bleed"), placeholder, names).empty());
  EXPECT_FALSE(check_value(*property_facts("element", "kind"), placeholder, names).empty());
}

TEST(CheckValue, takes_every_way_to_write_a_colour) {
  const PropertyFacts& fill = *property_facts("shape", "fill");
  const auto passes = [&](const char* text) {
    return check_value(fill, Node{{}, std::string(text)}, names).empty();
  };
  for (const char* good :
       {"#abc", "#abcd", "#aabbcc", "#AABBCCDD", "black", "white", "transparent", "ink", "none"}) {
    EXPECT_TRUE(passes(good)) << good;
  }
  for (const char* bad : {"#ab", "#abcde", "#ggg", "#", "red", "", "Ink"}) {
    EXPECT_FALSE(passes(bad)) << bad;
  }
}

TEST(NearestWord, knows_what_other_programs_say) {
  EXPECT_EQ(nearest_word("center", {"left", "centre"}), "centre");
  EXPECT_EQ(nearest_word("circle", {"rectangle", "ellipse"}), "ellipse");
}

}  // namespace
}  // namespace quoin::game
