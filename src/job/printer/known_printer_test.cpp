#include "job/printer/known_printer.h"

#include <gmock/gmock.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <map>

#include "job/edit/keep_profile.h"

namespace quoin::job {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

class WaitingOn : public Watcher {
 public:
  bool at(std::string_view, int, int) override { return true; }
};

MemoryWorld game_for(const std::string& printer, const std::string& more = "") {
  MemoryWorld world;
  world.put("game.toml",
            "[game]\ntitle = \"Small\"\n[decks.main]\nback = \"layouts/back.toml\"\n[stock]\n"
            "grammage = 300\n[printer]\n" +
                printer + more);
  const std::string ground =
      "[[element]]\nid = \"ground\"\nkind = \"shape\"\ninset = \"bleed\"\nfill = \"#204060\"\n";
  world.put("layouts/face.toml", ground);
  world.put("layouts/back.toml", ground);
  world.put("cards.csv", "id,name,copies\na,Adder,9\n");
  return world;
}

const std::string study =
    "name = \"Laser\"\npaper = \"A4\"\nmargin = 4.2\nheaviest = 220\n[back]\nshift = [0.4, -0.3]\n";

std::vector<std::string> messages_of(const Diagnostics& found, std::string_view stage) {
  std::vector<std::string> all;
  for (const Diagnostic& each : found) {
    if (facts(each.id).name.starts_with(stage)) all.push_back(each.message);
  }
  return all;
}

Outcome checked(const MemoryWorld& world, const std::string& machine = "") {
  WaitingOn watcher;
  Wishes wishes;
  wishes.printers_folder = machine;
  return check(world, wishes, watcher);
}

TEST(KnownPrinter, has_sheets_drawn_for_it_and_says_so) {
  MemoryWorld world = game_for("profile = \"study\"\n");
  world.put("printers/study.toml", study);
  const Outcome outcome = checked(world);
  ASSERT_TRUE(outcome.plan && outcome.plan->correction);
  EXPECT_EQ(outcome.plan->printer, "for study");
  EXPECT_EQ(outcome.plan->choices.back(),
            "printer: study; backs drawn 0.4 mm further left and 0.3 mm further down, turned by "
            "0.00°");
  EXPECT_EQ(outcome.game.sheets.dead_margin, Insets::all(Mm{4.2}));
  EXPECT_THAT(messages_of(outcome.found, "sheet.too-heavy"),
              testing::ElementsAre("the cards' paper is 300 g/m², and study takes 220 g/m²"));
  EXPECT_THAT(messages_of(outcome.found, "press."), testing::IsEmpty());
}

TEST(KnownPrinter, is_doubted_on_another_stock_than_it_was_measured_on) {
  MemoryWorld world = game_for("profile = \"study\"\n");
  world.put("printers/study.toml", "stock = \"copy paper, 80 g/m²\"\n" + study);
  EXPECT_THAT(messages_of(checked(world).found, "press.other-stock"),
              testing::ElementsAre("study was measured on 80 g/m², and the cards' stock is 300 "
                                   "g/m²"));
}

TEST(KnownPrinter, leaves_the_games_own_margin) {
  MemoryWorld world = game_for("profile = \"study\"\nmargin = 6\n");
  world.put("printers/study.toml", study);
  EXPECT_EQ(checked(world).game.sheets.dead_margin, Insets::all(Mm{6}));
}

TEST(KnownPrinter, is_an_error_when_nobody_knows_it) {
  const Outcome outcome = checked(game_for("profile = \"study\"\n"));
  EXPECT_FALSE(outcome.printer);
  ASSERT_TRUE(any_errors(outcome.found));
  const auto found = messages_of(outcome.found, "press.");
  ASSERT_FALSE(found.empty());
  EXPECT_EQ(found.front(), "there is no printer \"study\" that was measured");
}

TEST(KnownPrinter, is_not_used_for_sheets_turned_otherwise) {
  MemoryWorld world = game_for("profile = \"study\"\n", "[sheets]\nflip = \"short-edge\"\n");
  world.put("printers/study.toml", study);
  const Outcome outcome = checked(world);
  EXPECT_FALSE(outcome.plan->correction);
  EXPECT_EQ(outcome.plan->printer, "no printer profile");
  EXPECT_THAT(messages_of(outcome.found, "press.measured"),
              testing::ElementsAre("study turned its sheets about the long edge, and these are "
                                   "turned about the short edge"));
}

Bytes report_of(const fs::path& pack) {
  std::ifstream file(pack / "report.json", std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

class KeptPrinter : public testing::Test {
 protected:
  void SetUp() override {
    std::string pattern = (fs::temp_directory_path() / "quoin-printer-XXXXXX").string();
    folder_ = ::mkdtemp(pattern.data());
  }
  void TearDown() override { fs::remove_all(folder_); }
  fs::path folder_;
};

TEST_F(KeptPrinter, serves_every_game_of_the_machine) {
  press::Profile profile;
  profile.name = "Laser";
  profile.back.shift = {Mm{0.4}, Mm{}};
  const std::string path = (folder_ / "printers" / "study.toml").string();
  ASSERT_TRUE(keep_profile(path, profile));
  const Outcome outcome =
      checked(game_for("profile = \"study\"\n"), (folder_ / "printers").string());
  ASSERT_TRUE(outcome.printer);
  EXPECT_EQ(outcome.printer->back.shift.x, Mm{0.4});
  EXPECT_TRUE(outcome.plan->correction);
}

TEST_F(KeptPrinter, that_was_measured_long_ago_is_told_and_changes_no_file) {
  MemoryWorld world = game_for("profile = \"study\"\n");
  world.put("printers/study.toml", "measured = 2025-03-01\n" + study);
  WaitingOn watcher;
  Wishes wishes;
  wishes.parts = {Part::home};
  wishes.out = (folder_ / "pack").string();
  std::map<std::string, Bytes> reports;
  for (const std::string day : {"2025-09-01", "2026-03-02"}) {
    wishes.today = day;
    const Outcome outcome = make(world, wishes, watcher);
    ASSERT_TRUE(outcome.published);
    EXPECT_EQ(messages_of(outcome.found, "press.measured-long-ago").size(),
              day == "2026-03-02" ? 1U : 0U);
    reports[day] = report_of(folder_ / "pack");
  }
  EXPECT_FALSE(reports["2025-09-01"].empty());
  EXPECT_EQ(reports["2025-09-01"], reports["2026-03-02"]);
  EXPECT_EQ(messages_of(check(world, wishes, watcher).found, "press.measured-long-ago"),
            std::vector<std::string>{"study was measured on 2025-03-01, and today is 2026-03-02"});
  world.put("game.toml", std::string(*world.read("game.toml", 100'000).bytes) +
                             "[checks]\noff = [\"press.measured-long-ago\"]\n");
  EXPECT_THAT(messages_of(check(world, wishes, watcher).found, "press.measured-long-ago"),
              testing::IsEmpty());
}

TEST_F(KeptPrinter, has_the_prices_of_its_machine_beside_it) {
  fs::create_directory(folder_ / "printers");
  std::ofstream(folder_ / "prices.toml") << "currency = \"EUR\"\nsheet = 0.25\n";
  const Outcome outcome = checked(game_for("", ""), (folder_ / "printers").string());
  EXPECT_EQ(outcome.game.making.prices.sheet, 0.25);
  ASSERT_TRUE(outcome.making);
  EXPECT_NEAR(outcome.making->costs.runs.front().sum, 0.25, 1e-9);
}

TEST_F(KeptPrinter, stays_as_it_was_when_a_new_one_cannot_be_written) {
  press::Profile profile;
  profile.name = "Laser";
  const std::string path = (folder_ / "study.toml").string();
  ASSERT_TRUE(keep_profile(path, profile));
  fs::create_directory(path + ".new");  // in the way of the file that is written beside it
  profile.name = "Another";
  const auto kept = keep_profile(path, profile);
  ASSERT_FALSE(kept);
  EXPECT_EQ(kept.why().front().id, Id::press_profile_not_written);
  EXPECT_THAT(kept.why().front().message, HasSubstr("study.toml was not written: "));
  std::ifstream file(path);
  const std::string text((std::istreambuf_iterator<char>(file)), {});
  EXPECT_THAT(text, HasSubstr("name = \"Laser\""));
}

}  // namespace
}  // namespace quoin::job
