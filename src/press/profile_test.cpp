#include "press/profile.h"

#include <gmock/gmock.h>

namespace quoin::press {
namespace {

using testing::ElementsAre;

Profile whole() {
  Profile p;
  p.id = "study-laser";
  p.name = "Laser in the study";
  p.tray = "manual feed";
  p.stock = "card, 250 g/m²";
  p.measured = "2026-11-25";
  p.how = Measured::scans;
  p.backs = game::BackPrinting::by_hand;
  p.flip = game::FlipEdge::short_edge;
  p.pile = game::Pile::face_up;
  p.margin = Insets{4_mm, 4.2_mm, 6_mm, 4.2_mm};
  p.heaviest = 220;
  p.sheets = 3;
  p.within = 0.12_mm;
  p.scale_x = 1.0012;
  p.scale_y = 0.9995;
  p.back = {{0.42_mm, -0.31_mm}, Angle::degrees(0.12), 1.0004, 0.9992, Angle::degrees(-0.02)};
  p.spread = {0.2_mm, 0.3_mm, Angle::degrees(0.05)};
  return p;
}

Result<Profile> read(const std::string& text) {
  return read_profile(text, FileName("printers/study-laser.toml"));
}

/// "line: message | hint" of each.
std::vector<std::string> faults(const std::string& text) {
  std::vector<std::string> all;
  const Result<Profile> read_back = read(text);
  if (read_back) return all;
  for (const Diagnostic& found : read_back.why()) {
    std::string line = std::to_string(found.origin.line) + ": " + found.message;
    for (const std::string& hint : found.hints) line += " | " + hint;
    all.push_back(line);
  }
  return all;
}

const std::string least = "name = \"Laser\"\npaper = \"A4\"\n";

TEST(Profile, comes_back_as_it_was_written) {
  const Profile p = whole();
  const Result<Profile> back = read(profile_text(p));
  ASSERT_TRUE(back) << back.why().front().message;
  EXPECT_EQ(back->id, p.id);
  EXPECT_EQ(back->name, p.name);
  EXPECT_EQ(back->tray, p.tray);
  EXPECT_EQ(back->stock, p.stock);
  EXPECT_EQ(back->measured, p.measured);
  EXPECT_EQ(back->how, p.how);
  EXPECT_EQ(back->paper, p.paper);
  EXPECT_EQ(back->backs, p.backs);
  EXPECT_EQ(back->flip, p.flip);
  EXPECT_EQ(back->pile, p.pile);
  EXPECT_EQ(back->margin, p.margin);
  EXPECT_EQ(back->heaviest, p.heaviest);
  EXPECT_EQ(back->sheets, p.sheets);
  EXPECT_EQ(back->within, p.within);
  EXPECT_EQ(back->scale_x, p.scale_x);
  EXPECT_EQ(back->scale_y, p.scale_y);
  EXPECT_EQ(back->back.shift, p.back.shift);
  EXPECT_NEAR(back->back.turn.radians, p.back.turn.radians, 1e-12);
  EXPECT_EQ(back->back.scale_x, p.back.scale_x);
  EXPECT_EQ(back->back.scale_y, p.back.scale_y);
  EXPECT_NEAR(back->back.skew.radians, p.back.skew.radians, 1e-12);
  EXPECT_EQ(back->spread.shift_x, p.spread.shift_x);
  EXPECT_NEAR(back->spread.turn.radians, p.spread.turn.radians, 1e-12);
  EXPECT_EQ(profile_text(*back), profile_text(p));
}

TEST(Profile, keeps_whatever_a_maker_calls_the_printer) {
  Profile p = whole();
  p.name = "the \"good\" one \\ upstairs\n= [x]";
  p.tray = "Schacht 2 – schwer";
  const Result<Profile> back = read(profile_text(p));
  ASSERT_TRUE(back);
  EXPECT_EQ(back->name, p.name);
  EXPECT_EQ(back->tray, p.tray);
}

TEST(Profile, leaves_backs_where_they_are_when_nothing_was_measured) {
  const Result<Profile> p = read(least);
  ASSERT_TRUE(p);
  EXPECT_EQ(p->back, Parts{});
  EXPECT_EQ(p->scale_x, 1);
  EXPECT_FALSE(p->pile || p->margin || p->heaviest || p->within);
}

TEST(Profile, tells_of_each_slip_of_the_hand_and_where_it_is) {
  EXPECT_THAT(faults("name = \"x\"\n"), ElementsAre("0: printers/study-laser.toml needs the key "
                                                    "paper | write paper = \"A4\""));
  EXPECT_THAT(faults(least + "[back]\nshift = [42, 0]\n"),
              ElementsAre("4: shift is 42; it can be -20 to 20 mm"));
  EXPECT_THAT(
      faults(least + "[back]\nshift = 0.4\n"),
      ElementsAre("4: shift needs a list of 2 numbers, not the number 0.4 | write it as shift = "
                  "[0.42, -0.31]"));
  EXPECT_THAT(faults(least + "[front]\nscale = [100.1, 99.9]\n").size(), 2);
  EXPECT_THAT(faults(least + "[middle]\nshift = [1, 1]\n"),
              ElementsAre("3: a printer's file has no heading [middle] | the headings are [front], "
                          "[back] and [spread]"));
  EXPECT_THAT(faults(least + "back = 3\n"),
              ElementsAre("3: [back] is a heading of its own, not the "
                          "number 3 | write [back] on a line of its "
                          "own"));
  EXPECT_THAT(faults(least + "measured = \"2026-02-29\"\n"),
              ElementsAre("3: \"2026-02-29\" is no day | write the year first: measured = "
                          "2026-11-25"));
  EXPECT_THAT(faults(least + "flip = \"long\"\n"), ElementsAre("3: flip cannot be \"long\""));
  EXPECT_THAT(faults(least + "[back]\nturn = nan\n").size(), 1);
  EXPECT_THAT(faults(least + "[back]\nturn = \"0.1\"\n").size(), 1);
  EXPECT_THAT(faults(least + "[back\n").size(), 1);
}

TEST(FindProfile, takes_the_games_own_before_the_machines) {
  MemoryWorld game, machine;
  machine.put("study-laser.toml", least);
  machine.put("attic.toml", least);
  game.put("printers/study-laser.toml", "name = \"The game's\"\npaper = \"A4\"\n");
  EXPECT_EQ(find_profile({game, &machine}, "study-laser", {})->name, "The game's");
  EXPECT_EQ(find_profile({game, &machine}, "attic", {})->name, "Laser");
}

TEST(FindProfile, tells_of_a_printer_that_nobody_knows) {
  MemoryWorld game, machine;
  machine.put("study-laser.toml", least);
  const Origin here{FileName("game.toml"), 7, 11, 12};
  const auto none = find_profile({game, &machine}, "studi-laser", here);
  ASSERT_FALSE(none);
  const Diagnostic& found = none.why().front();
  EXPECT_EQ(found.id, Id::press_no_such_printer);
  EXPECT_EQ(found.origin, here);
  EXPECT_EQ(found.message, "there is no printer \"studi-laser\" that was measured");
  EXPECT_THAT(found.details,
              ElementsAre("there is no file printers/studi-laser.toml in the game's folder, and "
                          "none of that name where this machine keeps printers"));
  EXPECT_THAT(found.hints, ElementsAre("did you mean \"study-laser\"?",
                                       "quoin printer says how to measure one"));
  EXPECT_FALSE(find_profile({game, nullptr}, "../game", here));
  EXPECT_FALSE(find_profile({game, nullptr}, "/etc/printers", here));
  EXPECT_FALSE(find_profile({game, nullptr}, "", here));
}

TEST(FileNameFor, makes_a_plain_name_of_any) {
  EXPECT_EQ(file_name_for("Laser in the study"), "laser-in-the-study");
  EXPECT_EQ(file_name_for("../../Über  2.0!"), "ber-2.0");
  EXPECT_EQ(file_name_for("…"), "printer");
}

}  // namespace
}  // namespace quoin::press
