#include <gmock/gmock.h>

#include "base/world.h"
#include "game/game.h"

namespace quoin::game {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

MemoryWorld game_with(const std::string& prices) {
  MemoryWorld world;
  world.put("game.toml", "[game]\ntitle = \"Small\"\n" + prices);
  world.put("cards.csv", "id,name\na,Adder\n");
  world.put("layouts/face.toml",
            "[[element]]\nid = \"ground\"\nkind = \"shape\"\nfill = \"#204060\"\n");
  return world;
}

std::vector<std::string> priced(const Diagnostics& found) {
  std::vector<std::string> all;
  for (const Diagnostic& each : found) {
    all.push_back(std::string(each.origin.file.str()) + " " + std::string(facts(each.id).name) +
                  ": " + each.message);
  }
  return all;
}

TEST(SharedPrices, fill_what_the_game_leaves_out_key_by_key) {
  MemoryWorld world = game_with("[prices]\nsheet = 0.5\n");
  world.put("prices.toml", "currency = \"EUR\"\nexample = true\nsheet = 0.1\nink = 0.2\n");
  const Checked<Game> read = read_game(world);
  EXPECT_THAT(priced(read.found), IsEmpty());
  const Prices& prices = read.value.making.prices;
  EXPECT_EQ(prices.currency, "EUR");
  EXPECT_TRUE(prices.is_example);
  EXPECT_EQ(prices.sheet, 0.5);
  EXPECT_EQ(prices.ink, 0.2);
  EXPECT_EQ(prices.board, std::nullopt);
}

TEST(SharedPrices, of_the_machine_are_used_when_none_lie_beside_the_game) {
  MemoryWorld world = game_with(""), machine;
  machine.put("prices.toml", "currency = \"GBP\"\nglue = 0.03\n");
  EXPECT_EQ(read_game(world, {&machine, "machine.toml"}).value.making.prices.glue, 0.03);
  world.put("prices.toml", "currency = \"EUR\"\nink = 0.2\n");
  const Prices prices = read_game(world, {&machine, "machine.toml"}).value.making.prices;
  EXPECT_EQ(prices.currency, "EUR");
  EXPECT_EQ(prices.glue, std::nullopt);
}

TEST(SharedPrices, are_checked_like_the_section) {
  MemoryWorld world = game_with(""), machine;
  machine.put("prices.toml", "sheets = 0.1\nink = \"dear\"\nglue = -1\n[prices]\nboard = 1\n");
  EXPECT_THAT(priced(read_game(world, {&machine, "/m/prices.toml"}).found),
              testing::UnorderedElementsAre(
                  "/m/prices.toml game.unknown-key: /m/prices.toml has no heading [prices]",
                  "/m/prices.toml game.unknown-key: /m/prices.toml has no key sheets",
                  "/m/prices.toml game.wrong-type: ink needs a number, not the text \"dear\"",
                  "/m/prices.toml game.out-of-range: glue is -1; it can be 0 to 100000"));
  machine.put("prices.toml", "sheet = \n");
  const Diagnostics found = read_game(world, {&machine, "/m/prices.toml"}).found;
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].id, Id::game_toml_syntax);
}

TEST(SharedPrices, stop_no_game_when_something_is_wrong_with_them) {
  MemoryWorld world = game_with(""), machine;
  for (const char* wrong : {"sheet = \n", "ink = \"dear\"\n", "glue = -1\n", "[prices]\n"}) {
    machine.put("prices.toml", wrong);
    const Checked<Game> read = read_game(world, {&machine, "/m/prices.toml"});
    ASSERT_EQ(read.found.size(), 1U) << wrong;
    EXPECT_EQ(read.found[0].severity, Severity::warning) << wrong;
    EXPECT_EQ(read.value.making.prices.ink, std::nullopt) << wrong;
    EXPECT_EQ(read.value.making.prices.glue, std::nullopt) << wrong;
  }
}

TEST(SharedPrices, in_another_currency_are_left_out) {
  MemoryWorld world = game_with("[prices]\ncurrency = \"EUR\"\nsheet = 0.5\n");
  world.put("prices.toml", "currency = \"GBP\"\nink = 0.2\n");
  const Checked<Game> read = read_game(world);
  EXPECT_THAT(priced(read.found),
              ElementsAre("game.toml game.currencies-differ: the game's prices are in \"EUR\", and "
                          "those of prices.toml in \"GBP\""));
  EXPECT_EQ(read.value.making.prices.ink, std::nullopt);
  EXPECT_EQ(read.value.making.prices.currency, "EUR");
}

}  // namespace
}  // namespace quoin::game
