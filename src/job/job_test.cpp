#include "job/job.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>

namespace quoin::job {
namespace {
namespace fs = std::filesystem;
using testing::Contains;
using testing::Not;

class Patient : public Watcher {
 public:
  bool at(std::string_view, int, int) override { return true; }
};

/// Stops the work at its n-th step.
class Impatient : public Watcher {
 public:
  explicit Impatient(int steps) : left_(steps) {}
  bool at(std::string_view, int, int) override { return left_-- > 0; }

 private:
  int left_;
};

MemoryWorld small_game(const std::string& cards) {
  MemoryWorld world;
  world.put("game.toml", R"(
[game]
title = "Small"
[card]
size = "poker"
[decks.main]
back = "layouts/back.toml"
[[layouts]]
file = "layouts/face.toml"
)");
  world.put("layouts/face.toml", R"(
[[element]]
id = "ground"
kind = "shape"
inset = "bleed"
fill = "#e8e0d0"
[[element]]
id = "name"
kind = "text"
text = "{name}"
type = 12
at = [8, 10]
size = [47, 10]
)");
  world.put("layouts/back.toml", R"(
[[element]]
id = "ground"
kind = "shape"
inset = "bleed"
fill = "#204060"
)");
  world.put("cards.csv", cards);
  return world;
}

class JobTest : public testing::Test {
 protected:
  void SetUp() override {
    std::string pattern = (fs::temp_directory_path() / "quoin-job-XXXXXX").string();
    root_ = ::mkdtemp(pattern.data());
    wishes_.out = (root_ / "pack").string();
  }
  void TearDown() override { fs::remove_all(root_); }

  [[nodiscard]] std::map<std::string, std::string> pack() const {
    std::map<std::string, std::string> files;
    if (!fs::exists(wishes_.out)) return files;
    for (const auto& entry : fs::recursive_directory_iterator(wishes_.out)) {
      if (!entry.is_regular_file()) continue;
      std::ifstream in(entry.path(), std::ios::binary);
      std::ostringstream text;
      text << in.rdbuf();
      files[entry.path().lexically_relative(wishes_.out).string()] = text.str();
    }
    return files;
  }
  [[nodiscard]] std::vector<std::string> names() const {
    std::vector<std::string> names;
    for (const auto& [name, bytes] : pack()) names.push_back(name);
    return names;
  }

  fs::path root_;
  Wishes wishes_;
  Patient patient_;
};

TEST_F(JobTest, writes_the_whole_pack) {
  const MemoryWorld world = small_game("id,name,copies\na,Adder,10\nb,Boar,2\n");
  const Outcome outcome = make(world, wishes_, patient_);
  ASSERT_TRUE(outcome.published);
  EXPECT_EQ(outcome.totals.rows, 2);
  EXPECT_EQ(outcome.totals.pieces, 12);
  EXPECT_EQ(outcome.totals.backs, 1);
  EXPECT_EQ(outcome.totals.sheets, 2);
  EXPECT_EQ(names(),
            (std::vector<std::string>{
                "guide.pdf", "home/cards-backs.pdf", "home/cards-fronts.pdf", "home/cards.pdf",
                "pictures/backs/main.png", "pictures/cards/a.png", "pictures/cards/b.png",
                "pictures/contact-sheet.png", "report.json", "shop/cards.pdf"}));
}

TEST_F(JobTest, gives_the_same_bytes_each_time) {
  const MemoryWorld world = small_game("id,name,copies\na,Adder,10\nb,Boar,2\n");
  ASSERT_TRUE(make(world, wishes_, patient_).published);
  const auto first = pack();
  ASSERT_TRUE(make(world, wishes_, patient_).published);
  EXPECT_EQ(pack(), first);
}

TEST_F(JobTest, gives_the_same_bytes_with_what_earlier_runs_kept) {
  const std::string cards = "id,name,copies\na,Adder,10\nb,Boar,2\nc,Cormorant of the cliffs,1\n";
  ASSERT_TRUE(make(small_game(cards), wishes_, patient_).published);
  const auto without_cache = pack();
  wishes_.cache_folder = (root_ / "cache").string();
  const MemoryWorld other = small_game("id,name,copies\na,Asp,10\nb,Boar,2\nd,Dab,1\n");
  ASSERT_TRUE(make(other, wishes_, patient_).published);
  EXPECT_FALSE(fs::is_empty(wishes_.cache_folder));
  // Now one face is known, two are new; then all are known.
  for (int turn = 0; turn < 2; ++turn) {
    ASSERT_TRUE(make(small_game(cards), wishes_, patient_).published);
    EXPECT_EQ(pack(), without_cache) << turn;
  }
}

TEST_F(JobTest, finds_the_same_with_what_earlier_runs_kept) {
  const MemoryWorld world =
      small_game("id,name\na,Adder\nb,A name that is by far too long for the box it is set in\n");
  const Outcome first = check(world, wishes_, patient_);
  ASSERT_THAT(first.found, Contains(testing::Field(&Diagnostic::id, Id::card_text_too_long)));
  wishes_.cache_folder = (root_ / "cache").string();
  for (int turn = 0; turn < 2; ++turn) {
    EXPECT_EQ(check(world, wishes_, patient_).found, first.found) << turn;
  }
  MemoryWorld wider = world;
  Bytes layout = *world.read("layouts/face.toml", 1 << 20).bytes;
  layout.replace(layout.find("size = [47, 10]"), 15, "size = [47, 60]");
  wider.put("layouts/face.toml", layout);
  EXPECT_THAT(check(wider, wishes_, patient_).found,
              Not(Contains(testing::Field(&Diagnostic::id, Id::card_text_too_long))))
      << "findings of another layout were taken over";
}

TEST_F(JobTest, trusts_nothing_that_was_damaged_in_the_cache) {
  const MemoryWorld world =
      small_game("id,name\na,Adder\nb,A name that is by far too long for the box it is set in\n");
  ASSERT_TRUE(any_errors(make(world, wishes_, patient_).found));
  wishes_.cache_folder = (root_ / "cache").string();
  const Diagnostics found = check(world, wishes_, patient_).found;
  const MemoryWorld good = small_game("id,name\na,Adder\n");
  ASSERT_TRUE(make(good, wishes_, patient_).published);
  const auto whole = pack();
  for (const fs::directory_entry& kept : fs::directory_iterator(wishes_.cache_folder)) {
    fs::resize_file(kept.path(), fs::file_size(kept.path()) / 2);
  }
  EXPECT_EQ(check(world, wishes_, patient_).found, found);
  ASSERT_TRUE(make(good, wishes_, patient_).published);
  EXPECT_EQ(pack(), whole);
}

TEST_F(JobTest, keeps_the_earlier_pack_when_something_is_wrong) {
  ASSERT_TRUE(make(small_game("id,name\na,Adder\n"), wishes_, patient_).published);
  const auto earlier = pack();
  const Outcome outcome = make(small_game("id,name\na,Adder\na,Boar\n"), wishes_, patient_);
  EXPECT_FALSE(outcome.published);
  EXPECT_TRUE(any_errors(outcome.found));
  EXPECT_EQ(pack(), earlier);
}

TEST_F(JobTest, keeps_the_earlier_pack_when_it_is_stopped_anywhere) {
  const MemoryWorld world = small_game("id,name\na,Adder\nb,Boar\n");
  ASSERT_TRUE(make(world, wishes_, patient_).published);
  const auto earlier = pack();
  const MemoryWorld changed = small_game("id,name\na,Asp\nb,Boar\n");
  for (int steps = 0; steps < 6; ++steps) {
    Impatient impatient(steps);
    const Outcome outcome = make(changed, wishes_, impatient);
    ASSERT_FALSE(outcome.published) << steps;
    EXPECT_TRUE(any_errors(outcome.found)) << steps;
    EXPECT_EQ(pack(), earlier) << steps;
  }
}

TEST_F(JobTest, reprints_spoilt_cards_on_as_few_sheets_as_possible) {
  wishes_.only = {"b", "a", "b"};
  const Outcome outcome =
      make(small_game("id,name,copies\na,Adder,30\nb,Boar,2\n"), wishes_, patient_);
  ASSERT_TRUE(outcome.published);
  EXPECT_EQ(outcome.totals.pieces, 3);
  EXPECT_EQ(outcome.totals.sheets, 1);
}

TEST_F(JobTest, names_the_nearest_card_when_one_to_reprint_is_not_there) {
  wishes_.only = {"ader"};
  const Outcome outcome = make(small_game("id,name\nadder,Adder\nboar,Boar\n"), wishes_, patient_);
  ASSERT_EQ(count(outcome.found).errors, 1);
  EXPECT_EQ(outcome.found.front().message, "there is no card ader");
  EXPECT_EQ(outcome.found.front().hints, std::vector<std::string>{"did you mean adder?"});
}

TEST_F(JobTest, makes_several_decks) {
  wishes_.decks = 3;
  const Outcome outcome =
      make(small_game("id,name,copies\na,Adder,4\nb,Boar,5\n"), wishes_, patient_);
  ASSERT_TRUE(outcome.published);
  EXPECT_EQ(outcome.totals.pieces, 27);
  EXPECT_EQ(outcome.totals.sheets, 3);
}

TEST_F(JobTest, writes_only_the_parts_asked_for) {
  wishes_.parts = {Part::shop};
  ASSERT_TRUE(make(small_game("id,name\na,Adder\n"), wishes_, patient_).published);
  EXPECT_EQ(names(), (std::vector<std::string>{"report.json", "shop/cards.pdf"}));
}

TEST_F(JobTest, draws_the_art_of_the_box_and_tells_what_would_go_wrong_on_it) {
  MemoryWorld world = small_game("id,name,copies\na,Adder,54\n");
  world.put("game.toml", *world.read("game.toml", 1 << 20).bytes +
                             "[box]\nkind = \"tuck\"\nlayout = \"layouts/box.toml\"\n");
  world.put("layouts/box.toml", R"(
[[element]]
id = "ground"
kind = "shape"
panel = "front"
fill = "#204060"
[[element]]
id = "lost"
kind = "shape"
panel = "glue flap"
fill = "#204060"
)");
  const Outcome looked = check(world, wishes_, patient_);
  EXPECT_EQ(std::count_if(looked.found.begin(), looked.found.end(),
                          [](const Diagnostic& one) { return one.id == Id::box_nothing_printed; }),
            1);
  const Outcome made = make(world, wishes_, patient_);
  EXPECT_TRUE(made.published);
  ASSERT_EQ(made.box_art.size(), 1U);
  EXPECT_EQ(made.box_art[0].printed.items.at(0).element, "ground");
}

TEST_F(JobTest, makes_the_box_that_the_game_asks_for) {
  MemoryWorld world = small_game("id,name,copies\na,Adder,40\nb,Boar,14\n");
  world.put("game.toml", *world.read("game.toml", 1 << 20).bytes + "[box]\nkind = \"tuck\"\n");
  const Outcome outcome = make(world, wishes_, patient_);
  ASSERT_TRUE(outcome.published);
  ASSERT_TRUE(outcome.box);
  EXPECT_GT(outcome.box->fit.clear.size.depth, outcome.box->deck.height.high);
  for (const char* file :
       {"home/box.pdf", "shop/box.pdf", "cutter/box.svg", "cutter/box.dxf", "pictures/box.png",
        "pictures/box.svg", "pictures/box-open.png", "pictures/box-open.svg", "box.glb"}) {
    EXPECT_THAT(names(), Contains(file));
  }
  EXPECT_NE(pack().at("report.json").find("\"box\""), std::string::npos);
  wishes_.only = {"a"};
  EXPECT_FALSE(make(world, wishes_, patient_).box) << "a reprint of cards needs no box";
}

TEST_F(JobTest, makes_the_same_pictures_of_the_box_with_what_an_earlier_run_kept) {
  MemoryWorld world = small_game("id,name,copies\na,Adder,40\nb,Boar,14\n");
  world.put("game.toml", *world.read("game.toml", 1 << 20).bytes + "[box]\nkind = \"lid\"\n");
  wishes_.parts = {Part::pictures};
  ASSERT_TRUE(make(world, wishes_, patient_).published);
  const auto first = pack();
  wishes_.cache_folder = (root_ / "kept").string();
  for (int run = 0; run < 2; ++run) {
    ASSERT_TRUE(make(world, wishes_, patient_).published);
    EXPECT_TRUE(pack() == first) << "run " << run;
  }
  world.put("cards.csv", "id,name,copies\na,Adder,40\nb,Boar,34\n");
  ASSERT_TRUE(make(world, wishes_, patient_).published);
  EXPECT_NE(pack().at("pictures/box.svg"), first.at("pictures/box.svg")) << "the box is larger";
}

TEST_F(JobTest, draws_no_box_for_the_home_sheets_alone) {
  MemoryWorld world = small_game("id,name,copies\na,Adder,40\n");
  world.put("game.toml", *world.read("game.toml", 1 << 20).bytes + "[box]\nkind = \"tuck\"\n");
  wishes_.parts = {Part::home};
  ASSERT_TRUE(make(world, wishes_, patient_).published);
  EXPECT_THAT(names(), Not(Contains("box.glb")));
  EXPECT_THAT(names(), Not(Contains("pictures/box.png")));
}

TEST_F(JobTest, names_the_larger_sheet_that_takes_the_net) {
  MemoryWorld world = small_game("id,name,copies\na,Adder,54\n");
  Bytes game = *world.read("game.toml", 1 << 20).bytes;
  game.replace(game.find("\"poker\""), 7, "\"220x220\"");
  world.put("game.toml", game + "[box]\n");
  const Outcome outcome = check(world, wishes_, patient_);
  const auto said =
      std::find_if(outcome.found.begin(), outcome.found.end(),
                   [](const Diagnostic& one) { return one.id == Id::box_larger_than_sheet; });
  ASSERT_NE(said, outcome.found.end());
  EXPECT_THAT(said->message, testing::EndsWith("and A4 has 200.0 x 273.0 mm for it"));
  EXPECT_EQ(said->hints.front(), "A2 takes it");
}

TEST_F(JobTest, checks_without_writing) {
  const Outcome outcome = check(small_game("id,name\na,Adder\n"), wishes_, patient_);
  EXPECT_FALSE(outcome.published);
  EXPECT_TRUE(fs::is_empty(root_));
  ASSERT_TRUE(outcome.plan);
  EXPECT_EQ(outcome.totals.sheets, 1);
}

TEST_F(JobTest, leaves_out_what_the_maker_silenced_but_no_error) {
  MemoryWorld world = small_game("id,name,unused\na,Adder,x\n");
  const Outcome loud = check(world, wishes_, patient_);
  const auto ids = [](const Outcome& outcome) {
    std::vector<std::string> names;
    for (const Diagnostic& d : outcome.found) names.emplace_back(facts(d.id).name);
    return names;
  };
  EXPECT_THAT(ids(loud), Contains("game.column-unused"));
  world.put("game.toml",
            *world.read("game.toml", 1 << 20).bytes + "[checks]\noff = [\"game.column-unused\"]\n");
  EXPECT_THAT(ids(check(world, wishes_, patient_)), Not(Contains("game.column-unused")));
}

TEST_F(JobTest, says_that_nothing_is_to_be_printed) {
  const Outcome outcome = make(small_game("id,name,copies\na,Adder,0\n"), wishes_, patient_);
  EXPECT_FALSE(outcome.published);
  EXPECT_TRUE(any_errors(outcome.found));
}

}  // namespace
}  // namespace quoin::job
