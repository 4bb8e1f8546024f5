#include "job/printer/measure_printer.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "game/formats.h"

namespace quoin::job {
namespace {

namespace fs = std::filesystem;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::MatchesRegex;

press::Profile asked_printer() {
  press::Profile profile;
  profile.id = "study";
  profile.name = "Study";
  return profile;
}

press::EyeSheet even_sheet() {
  press::EyeSheet sheet{'E', {}};
  sheet.scales = {"3", "-2", "3", "-2", "3", "-2", "3", "-2"};
  return sheet;
}

TEST(MeasurePrinter, by_eye_puts_what_was_found_into_the_profile) {
  const auto printer = measure_printer(asked_printer(), {even_sheet(), even_sheet()},
                                       press::BarReadings{{"149.7"}, {}});
  ASSERT_TRUE(printer);
  EXPECT_EQ(printer->profile.name, "Study");
  EXPECT_EQ(printer->profile.how, press::Measured::eye);
  EXPECT_EQ(printer->profile.sheets, 2);
  EXPECT_NEAR(printer->profile.back.shift.x.value, 0.15, 1e-9);
  EXPECT_NEAR(printer->profile.scale_x, 149.7 / 150, 1e-12);
  EXPECT_THAT(printer->sheets, ElementsAre("by eye, known to ±0.15 mm", HasSubstr("by eye")));
  EXPECT_TRUE(printer->notes.empty());
}

TEST(MeasurePrinter, says_that_the_size_of_fronts_was_not_measured) {
  const auto printer =
      measure_printer(asked_printer(), {even_sheet()}, press::BarReadings{{""}, {""}});
  ASSERT_TRUE(printer);
  EXPECT_THAT(printer->notes, ElementsAre(HasSubstr("the size of fronts was not measured")));
}

TEST(MeasurePrinter, finds_what_is_wrong_with_every_picture_and_bar_in_one_run) {
  const std::vector<ScanFiles> files{{"/nowhere/a.png", "/nowhere/b.png"},
                                     {"/nowhere/c.png", "/nowhere/d.png"}};
  const auto printer =
      measure_printer(asked_printer(), files, press::BarReadings{{"long"}, {}}, usual_papers());
  ASSERT_FALSE(printer);
  std::vector<std::string> at;
  for (const Diagnostic& each : printer.why()) {
    at.push_back(each.origin.file.empty() ? each.place.element : each.origin.file.str());
  }
  EXPECT_THAT(at, ElementsAre("/nowhere/a.png", "/nowhere/b.png", "/nowhere/c.png",
                              "/nowhere/d.png", "bar 150"));
}

TEST(PaperName, is_one_that_names_the_same_paper_again) {
  EXPECT_EQ(paper_name_of({210_mm, 297_mm}), "A4");
  EXPECT_EQ(paper_name_of({297_mm, 210_mm}), "297x210");
  for (const Size paper : usual_papers()) {
    const auto again = game::find_size(paper_name_of(paper), game::paper_sizes());
    ASSERT_TRUE(again);
    EXPECT_EQ(again->size, paper);
  }
}

TEST(Today, has_the_year_first) { EXPECT_THAT(today(), MatchesRegex("[0-9]+-[0-9]+-[0-9]+")); }

TEST(ShelvedPrinters, lists_the_games_first_and_hides_those_of_the_machine_behind_them) {
  const fs::path machine = fs::temp_directory_path() / fmt::format("quoin-shelf-{}", ::getpid());
  fs::create_directories(machine);
  std::ofstream(machine / "study.toml") << "name = \"Other\"\npaper = \"A4\"\n";
  std::ofstream(machine / "shop.toml") << "name = \"Shop\"\npaper = \"A4\"\n";
  MemoryWorld game;
  game.put("printers/torn.toml", "name =\n");
  game.put("printers/study.toml", "name = \"Study\"\npaper = \"A4\"\n");
  game.put("printers/notes.txt", "mine\n");
  const auto shelf = real_world(machine.string());
  const std::vector<ShelvedPrinter> all = shelved_printers({game, shelf.get()});
  fs::remove_all(machine);
  std::vector<std::string> told;
  for (const ShelvedPrinter& one : all) {
    told.push_back(fmt::format("{} {}{}{}", one.id, one.shelf == Shelf::game ? "game" : "machine",
                               one.is_hidden ? ", hidden" : "", one.profile ? "" : ", broken"));
  }
  EXPECT_THAT(told, ElementsAre("study game", "torn game, broken", "shop machine",
                                "study machine, hidden"));
  EXPECT_EQ(all[0].profile.value().name, "Study");
}

}  // namespace
}  // namespace quoin::job
