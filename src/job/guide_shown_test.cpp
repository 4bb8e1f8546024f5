#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "formats/pdf/inspection.h"
#include "job/job.h"

namespace quoin::job {
namespace {
namespace fs = std::filesystem;

using testing::HasSubstr;
using testing::IsEmpty;

class GuidePatient : public Watcher {
 public:
  bool at(std::string_view, int, int) override { return true; }
};

/// Runs on a game of 20 cards with a box, into a folder of its own.
class GuideFile : public testing::Test {
 protected:
  void SetUp() override {
    std::string pattern = (fs::temp_directory_path() / "quoin-guide-XXXXXX").string();
    root_ = ::mkdtemp(pattern.data());
    wishes_.out = (root_ / "pack").string();
    wishes_.parts = {Part::guide};
    write_game("");
    const std::string ground =
        "[[element]]\nid = \"ground\"\nkind = \"shape\"\ninset = \"bleed\"\nfill = \"#204060\"\n";
    world_.put("layouts/face.toml", ground);
    world_.put("layouts/back.toml", ground);
    world_.put("cards.csv", "id,copies\nadder,12\nboar,8\n");
  }
  void TearDown() override { fs::remove_all(root_); }

  void write_game(const std::string& sheets) {
    world_.put("game.toml",
               "[game]\ntitle = \"Small shore\"\n[card]\nsize = \"poker\"\ncorner = 3\n"
               "[decks.main]\nback = \"layouts/back.toml\"\n"
               "[[layouts]]\nfile = \"layouts/face.toml\"\n[box]\nkind = \"tuck\"\n" +
                   sheets);
  }

  [[nodiscard]] Bytes guide() {
    if (!make(world_, wishes_, patient_).published) return {};
    std::ifstream in(wishes_.out + "/guide.pdf", std::ios::binary);
    std::ostringstream bytes;
    bytes << in.rdbuf();
    return bytes.str();
  }

  /// The words that Poppler's pdftotext finds in the file, in reading order.
  [[nodiscard]] std::string words() {
    const std::string command = "pdftotext -layout '" + wishes_.out + "/guide.pdf' - 2>&1";
    std::string text;
    FILE* const pipe = ::popen(command.c_str(), "r");
    for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe)) text += static_cast<char>(c);
    ::pclose(pipe);
    return text;
  }

  fs::path root_;
  Wishes wishes_;
  MemoryWorld world_;
  GuidePatient patient_;
};

TEST_F(GuideFile, is_sound_and_the_same_each_time) {
  const Bytes first = guide();
  ASSERT_FALSE(first.empty());
  const pdf::Inspection seen = pdf::inspect(first);
  EXPECT_THAT(seen.faults, IsEmpty());
  EXPECT_EQ(seen.information.at("Title"), "Small shore");
  ASSERT_GT(seen.pages.size(), 6U);
  EXPECT_TRUE(first == guide());
}

TEST_F(GuideFile, can_be_searched) {
  ASSERT_FALSE(guide().empty());
  const std::string text = words();
  EXPECT_THAT(text, HasSubstr("How to make it: 20 cards and a tuck carton"));
  EXPECT_THAT(text, HasSubstr("What to have ready"));
  EXPECT_THAT(text, HasSubstr("flipped on the long edge"));
  EXPECT_THAT(text, HasSubstr("Bow the top tuck flap and push it in."));
  EXPECT_THAT(text, HasSubstr("adder"));
}

TEST_F(GuideFile, lies_on_the_paper_of_the_sheets) {
  // 612 x 792 points: 8.5 x 11 inches.
  write_game("[sheets]\npaper = \"Letter\"\n");
  const pdf::Inspection seen = pdf::inspect(guide());
  ASSERT_FALSE(seen.pages.empty());
  for (const pdf::PageFacts& page : seen.pages) {
    EXPECT_NEAR(page.media.right - page.media.left, 612, 0.01);
    EXPECT_NEAR(page.media.top - page.media.bottom, 792, 0.01);
  }
}

TEST_F(GuideFile, comes_with_no_reprint_and_with_no_other_part_alone) {
  wishes_.only = {"adder"};
  wishes_.parts.insert(Part::home);
  ASSERT_TRUE(make(world_, wishes_, patient_).published);
  EXPECT_FALSE(fs::exists(wishes_.out + "/guide.pdf"));
  EXPECT_TRUE(fs::exists(wishes_.out + "/home/cards.pdf"));
  wishes_.only.clear();
  wishes_.parts = {Part::home};
  ASSERT_TRUE(make(world_, wishes_, patient_).published);
  EXPECT_FALSE(fs::exists(wishes_.out + "/guide.pdf"));
}

}  // namespace
}  // namespace quoin::job
