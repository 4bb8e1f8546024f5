#include "job/rules_shown.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdio>
#include <filesystem>

namespace quoin::job {
namespace {
namespace fs = std::filesystem;

using testing::ElementsAre;
using testing::HasSubstr;

class RulesPatient : public Watcher {
 public:
  bool at(std::string_view, int, int) override { return true; }
};

/// A game of 20 cards with a box and rules of some 450 words.
class RulesInPack : public testing::Test {
 protected:
  void SetUp() override {
    std::string pattern = (fs::temp_directory_path() / "quoin-rules-XXXXXX").string();
    root_ = ::mkdtemp(pattern.data());
    wishes_.out = (root_ / "pack").string();
    const std::string ground =
        "[[element]]\nid = \"ground\"\nkind = \"shape\"\ninset = \"bleed\"\nfill = \"#204060\"\n";
    world_.put("layouts/face.toml", ground);
    world_.put("layouts/back.toml", ground);
    world_.put("cards.csv", "id,copies\nadder,12\nboar,8\n");
    std::string text = "# Small shore\n\n";
    for (int i = 1; i <= 90; ++i) text += "Word number " + std::to_string(i) + " stands.\n\n";
    world_.put("rules.md", text);
    game("");
  }
  void TearDown() override { fs::remove_all(root_); }

  void game(const std::string& more) {
    world_.put(
        "game.toml",
        "[game]\ntitle = \"Small shore\"\n[card]\nsize = \"poker\"\ncorner = 3\n"
        "[stock]\ncaliper = 0.3\n[decks.main]\nback = \"layouts/back.toml\"\n"
        "[[layouts]]\nfile = \"layouts/face.toml\"\n[box]\nkind = \"tuck\"\ncaliper = 0.4\n" +
            more);
  }
  [[nodiscard]] Outcome checked() { return check(world_, wishes_, patient_); }
  [[nodiscard]] static std::vector<std::string> about_rules(const Outcome& outcome) {
    std::vector<std::string> told;
    for (const Diagnostic& one : outcome.found) {
      if (facts(one.id).name.starts_with("rules.")) told.push_back(one.message);
    }
    return told;
  }
  /// The words that Poppler's pdftotext finds in a file of the pack, in the order of its content.
  [[nodiscard]] std::string words(const std::string& file) const {
    const std::string command = "pdftotext -raw '" + wishes_.out + "/" + file + "' - 2>&1";
    std::unique_ptr<FILE, int (*)(FILE*)> out(::popen(command.c_str(), "r"), ::pclose);
    std::string all;
    char part[4096];
    while (const std::size_t n = std::fread(part, 1, sizeof part, out.get())) all.append(part, n);
    return all;
  }

  fs::path root_;
  MemoryWorld world_;
  Wishes wishes_;
  RulesPatient patient_;
};

TEST_F(RulesInPack, make_the_box_deeper_by_what_they_are_thick) {
  const Outcome with = checked();
  ASSERT_TRUE(with.rules && with.box);
  EXPECT_EQ(with.box->deck.leaflet, with.rules->form.thickness);
  EXPECT_GT(with.rules->form.thickness.value, 0.3);
  EXPECT_THAT(about_rules(with), ElementsAre());
  world_.put("rules.md", "");
  const Outcome without = checked();
  EXPECT_FALSE(without.rules);
  EXPECT_NEAR((with.box->fit.clear.size.depth - without.box->fit.clear.size.depth).value,
              with.rules->form.thickness.value, 0.05);
}

TEST_F(RulesInPack, leave_a_thickness_that_the_maker_gave_and_say_when_it_differs) {
  game("leaflet = 3\n");
  const Outcome outcome = checked();
  EXPECT_EQ(outcome.box->deck.leaflet, Mm{3});
  ASSERT_EQ(about_rules(outcome).size(), 1U);
  EXPECT_THAT(about_rules(outcome)[0], HasSubstr("the box allows 3.0 mm for the rules"));
}

TEST_F(RulesInPack, are_counted_in_what_the_game_takes) {
  const Outcome outcome = checked();
  for (const making::RunCosts& run : outcome.making->costs.runs) {
    EXPECT_EQ(run.stuff.rules_sheets,
              pack::lay_rules(outcome.game, *outcome.rules, run.decks).count());
    const game::Times& times = outcome.game.making.times;
    const rules::Form& form = outcome.rules->form;
    EXPECT_NEAR(
        run.work.rules,
        run.decks * (times.cut * (outcome.rules->whole_sheet ? 0 : 4 * form.leaves) +
                     times.knife_cut * (form.slit ? 1 : 0) + times.crease * form.fold_count()),
        1e-9);
    EXPECT_GT(run.work.rules, 0);
  }
}

TEST_F(RulesInPack, go_into_the_box_as_it_was_measured_folded) {
  const Outcome outcome = checked();
  const fold::Block& room = outcome.box->fit.clear.size;
  EXPECT_LT(outcome.rules->form.folded.width, room.width);
  EXPECT_LT(outcome.rules->form.folded.height, room.height);
}

TEST_F(RulesInPack, are_files_with_real_text_in_reading_order) {
  game("[rules]\nform = \"booklet\"\n");
  const Outcome outcome = make(world_, wishes_, patient_);
  ASSERT_TRUE(outcome.published);
  std::vector<std::string> files;
  for (const pack::Staging::File& file : outcome.files) {
    if (file.path.find("rules") != std::string::npos) files.push_back(file.path);
  }
  EXPECT_THAT(
      files, testing::UnorderedElementsAre("home/rules.pdf", "shop/rules.pdf", "pictures/rules.png",
                                           "pictures/rules-folding.png"));
  const std::string shop = words("shop/rules.pdf");
  std::size_t last = 0;
  for (int i = 1; i <= 90; ++i) {
    const std::size_t at = shop.find("Word number " + std::to_string(i) + " stands.");
    ASSERT_NE(at, std::string::npos) << i;
    EXPECT_GT(at, last) << i;
    last = at;
  }
  EXPECT_THAT(words("home/rules.pdf"), HasSubstr("Word number 90 stands."));
  EXPECT_THAT(words("guide.pdf"), HasSubstr("Fold the rules"));
  EXPECT_THAT(report(outcome), HasSubstr("\"form\": \"booklet\""));
}

TEST_F(RulesInPack, give_the_same_bytes_again) {
  const auto bytes = [&](const char* folder) {
    wishes_.out = (root_ / folder).string();
    EXPECT_TRUE(make(world_, wishes_, patient_).published);
    return *real_world(wishes_.out)->read("home/rules.pdf", largest_file).bytes;
  };
  EXPECT_EQ(bytes("one"), bytes("two"));
}

TEST_F(RulesInPack, of_a_reprint_are_not_printed_again) {
  wishes_.only = {"adder"};
  EXPECT_FALSE(checked().rules);
}

}  // namespace
}  // namespace quoin::job
