#include <gtest/gtest.h>

#include <algorithm>

#include "game/card_id.h"
#include "game/game.h"
#include "game/natural_order.h"
#include "game/words.h"

namespace quoin::game {
namespace {

TEST(Nearest, forgives_one_slip_in_a_short_word_and_more_in_a_long_one) {
  const std::vector<std::string> known{"bleed", "safe", "corner", "back-bleed"};
  EXPECT_EQ(nearest("bled", known), "bleed");
  EXPECT_EQ(nearest("lbeed", known), "bleed");
  EXPECT_EQ(nearest("Bleed", known), "bleed");
  EXPECT_EQ(nearest("back_bleed", known), "back-bleed");
  EXPECT_EQ(nearest("save", known), "safe");
  EXPECT_EQ(nearest("zebra", known), std::nullopt);
  EXPECT_EQ(nearest("", known), std::nullopt);
  EXPECT_EQ(nearest("bleed", {}), std::nullopt);
}

TEST(Nearest, does_not_guess_a_word_that_shares_no_letter) {
  EXPECT_EQ(nearest("x", {"y"}), std::nullopt);
  EXPECT_EQ(nearest("ab", {"cd"}), std::nullopt);
}

TEST(Nearest, prefers_the_word_that_begins_alike) {
  EXPECT_EQ(nearest("suit.tid", {"suit.id", "suit.tide"}), "suit.tide");
}

TEST(Nearest, leaves_long_texts_alone) {
  EXPECT_EQ(nearest(std::string(100000, 'a'), {std::string(100000, 'a')}), std::nullopt);
}

TEST(CardId, is_safe_as_a_file_name_on_every_machine) {
  for (const char* good : {"a", "W-07", "x_1.2", "con1", "nulls", "-a"}) {
    EXPECT_EQ(id_fault(good), std::nullopt) << good;
  }
  for (const char* bad : {"", "a b", "a/b", "a\\b", "a:b", "ä", ".a", "a.", "con", "NUL.x", "Com1",
                          "lpt9.a", "a\n", "..", "a*", "a?"}) {
    EXPECT_NE(id_fault(bad), std::nullopt) << bad;
  }
  EXPECT_EQ(id_fault(std::string(longest_id, 'a')), std::nullopt);
  EXPECT_NE(id_fault(std::string(longest_id + 1, 'a')), std::nullopt);
}

TEST(CardId, is_made_from_a_name_by_dropping_accents) {
  EXPECT_EQ(id_from("Königin der Nacht"), "Koenigin-der-Nacht");
  EXPECT_EQ(id_from("Ærø & Łódź"), "Aero-Lodz");
  EXPECT_EQ(id_from("Élan vital!"), "Elan-vital");
  EXPECT_EQ(id_from("e\u0301t\u00e9"), "ete");
  EXPECT_EQ(id_from("  ..x..  "), "x");
  EXPECT_EQ(id_from("con"), "card-con");
  EXPECT_EQ(id_from("月"), "");
  EXPECT_EQ(id_from("\xFF\xFE"), "");
}

TEST(CardId, made_from_any_name_is_none_or_has_no_fault) {
  for (const std::string& name :
       {std::string(300, 'a'), std::string(79, 'a') + ".b", std::string("a") + std::string(99, '.'),
        std::string("aux.txt"), std::string("a\0b", 3), std::string("ß") + std::string(90, 'x')}) {
    const std::string id = id_from(name);
    EXPECT_TRUE(id.empty() || !id_fault(id)) << id;
  }
}

TEST(NaturalOrder, counts_as_people_do) {
  std::vector<std::string> names{"card 10", "card 2", "Card 3", "card 02b", "card", "b", "card 2b"};
  std::sort(names.begin(), names.end(), comes_before_naturally);
  EXPECT_EQ(names, (std::vector<std::string>{"b", "card", "card 2", "card 02b", "card 2b", "Card 3",
                                             "card 10"}));
}

TEST(NaturalOrder, takes_digits_of_any_length) {
  EXPECT_TRUE(comes_before_naturally("9", std::string(40, '9')));
  EXPECT_FALSE(comes_before_naturally(std::string(40, '9'), "9"));
  EXPECT_FALSE(comes_before_naturally("7", "7"));
}

TEST(Words, write_numbers_without_needless_digits) {
  EXPECT_EQ(number_text(3), "3");
  EXPECT_EQ(number_text(0.1), "0.1");
  EXPECT_EQ(number_text(-88.9), "-88.9");
}

TEST(Words, read_numbers_only_whole) {
  EXPECT_EQ(read_number(" 3.5 "), 3.5);
  EXPECT_EQ(read_number("+2"), 2.0);
  for (const char* other : {"", "3 mm", "3,5", "inf", "nan", "1e999", "+-2", "0x10", "--1"}) {
    EXPECT_EQ(read_number(other), std::nullopt) << other;
  }
}

TEST(Words, show_long_texts_shortened_and_on_one_line) {
  EXPECT_EQ(in_quotes("a\nb"), "\"a b\"");
  EXPECT_EQ(in_quotes(std::string(100, 'x')), "\"" + std::string(60, 'x') + "…\"");
}

}  // namespace
}  // namespace quoin::game
