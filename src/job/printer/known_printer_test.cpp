#include "job/printer/known_printer.h"

#include <gmock/gmock.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

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
  EXPECT_THAT(messages_of(outcome.found, "press."),
              testing::ElementsAre("the stock has 300 g/m², and study takes up to 220 g/m²"));
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
