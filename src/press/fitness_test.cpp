#include "press/fitness.h"

#include <gmock/gmock.h>

namespace quoin::press {
namespace {

Profile on(const std::string& stock) {
  Profile profile;
  profile.id = "study";
  profile.stock = stock;
  return profile;
}

game::Stock stock_of(const std::string& name, std::optional<double> grammage = {}) {
  game::Stock stock;
  stock.name = name;
  stock.grammage = grammage;
  return stock;
}

TEST(GrammageIn, finds_a_weight_among_words) {
  EXPECT_EQ(grammage_in("uncoated card, 250 g/m²"), 250);
  EXPECT_EQ(grammage_in("Karton 220g matt"), 220);
  EXPECT_EQ(grammage_in("A4 300 gsm"), 300);
  EXPECT_EQ(grammage_in("110.5 g"), 110.5);
  EXPECT_EQ(grammage_in("card 250"), std::nullopt);
  EXPECT_EQ(grammage_in("5 green sheets"), std::nullopt);
  EXPECT_EQ(grammage_in(""), std::nullopt);
}

TEST(OtherStock, is_told_by_weight_when_both_say_one) {
  EXPECT_FALSE(other_stock(on("matt, 250 g/m²"), stock_of("uncoated card", 270), {}));
  const auto found = other_stock(on("card, 160 g/m²"), stock_of("card", 250), {});
  ASSERT_TRUE(found);
  EXPECT_EQ(found->id, Id::press_other_stock);
  EXPECT_EQ(found->message, "study was measured on 160 g/m², and the cards' stock is 250 g/m²");
}

TEST(OtherStock, is_told_by_name_when_a_weight_is_missing) {
  EXPECT_FALSE(other_stock(on("Uncoated Card"), stock_of("uncoated, ivory"), {}));
  EXPECT_FALSE(other_stock(on(""), stock_of("uncoated card", 250), {}));
  EXPECT_FALSE(other_stock(on("photo paper"), stock_of("", 250), {}));
  const auto found = other_stock(on("photo paper"), stock_of("uncoated card", 250), {});
  ASSERT_TRUE(found);
  EXPECT_EQ(found->message,
            "study was measured on \"photo paper\", and the cards' stock is \"uncoated card\"");
}

TEST(MeasuredLongAgo, is_told_after_a_year_and_not_without_a_day) {
  Profile profile = on("");
  profile.measured = "2025-11-28";
  EXPECT_FALSE(measured_long_ago(profile, "2026-11-28", {}));
  EXPECT_FALSE(measured_long_ago(profile, "", {}));
  const auto found = measured_long_ago(profile, "2026-11-29", {});
  ASSERT_TRUE(found);
  EXPECT_EQ(found->severity, Severity::note);
  EXPECT_EQ(found->message, "study was measured on 2025-11-28, and today is 2026-11-29");
  profile.measured = "2024-02-29";
  EXPECT_FALSE(measured_long_ago(profile, "2025-02-28", {}));
  EXPECT_TRUE(measured_long_ago(profile, "2025-03-01", {}));
  profile.measured = "";
  EXPECT_FALSE(measured_long_ago(profile, "2026-11-29", {}));
}

}  // namespace
}  // namespace quoin::press
