#include "job/share/share.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "formats/pdf/inspection.h"
#include "formats/zip/zip.h"
#include "media/light_picture.h"

namespace quoin::job {
namespace {
namespace fs = std::filesystem;

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

class Calm : public Watcher {
 public:
  bool at(std::string_view work, int, int) override { return work != stop_at; }
  std::string stop_at;
};

constexpr const char* art_svg =
    "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 10 10\">"
    "<rect width=\"10\" height=\"10\" fill=\"#204060\"/></svg>";

constexpr const char* plain_box = "[box]\nkind = \"tuck\"\n";

/// A game of two cards that show a picture each, with a back.
class Sharing : public testing::Test {
 protected:
  void SetUp() override {
    std::string pattern = (fs::temp_directory_path() / "quoin-share-XXXXXX").string();
    root_ = ::mkdtemp(pattern.data());
    wishes_.out = (root_ / "out").string();
    write_game("1.0");
    world_.put("layouts/face.toml",
               "[[element]]\nid = \"art\"\nkind = \"picture\"\ninset = \"bleed\"\n"
               "picture = \"art/{art}\"\n");
    world_.put("layouts/back.toml",
               "[[element]]\nid = \"art\"\nkind = \"picture\"\ninset = \"bleed\"\n"
               "picture = \"art/back.svg\"\n");
    world_.put("cards.csv", "id,name,art,copies\ngull,Gull,gull.svg,3\ntern,Tern,tern.svg,1\n");
    for (const char* name : {"gull", "tern", "back"}) {
      world_.put(std::string("art/") + name + ".svg", art_svg);
    }
    write_list("gull.svg,Ida,,own,\ntern.svg,Mara,,CC-BY-4.0,\nback.svg,Ida,,own,\n");
  }
  void TearDown() override { fs::remove_all(root_); }

  void write_game(const std::string& version, const std::string& more = "") {
    world_.put("game.toml", "[game]\ntitle = \"Reef\"\nauthor = \"Ida\"\nversion = \"" + version +
                                "\"\n[card]\nsize = \"poker\"\n" + more +
                                "[decks.main]\nback = \"layouts/back.toml\"\n"
                                "[[layouts]]\nfile = \"layouts/face.toml\"\n");
  }
  void write_list(const std::string& rows) {
    world_.put("art/sources.csv", "file,author,source,licence,changes\n" + rows);
  }

  [[nodiscard]] ShareOutcome shared() { return share(world_, wishes_, calm_); }
  [[nodiscard]] static std::vector<std::string> errors(const ShareOutcome& outcome) {
    std::vector<std::string> messages;
    for (const Diagnostic& one : outcome.found) {
      if (one.severity == Severity::error) messages.push_back(one.message);
    }
    return messages;
  }
  [[nodiscard]] static std::vector<std::string> names(const ShareOutcome& outcome) {
    std::vector<std::string> paths;
    for (const pack::Staging::File& file : outcome.files) paths.push_back(file.path);
    return paths;
  }
  [[nodiscard]] Bytes read(const std::string& path) const {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  }

  fs::path root_;
  ShareWishes wishes_;
  MemoryWorld world_;
  Calm calm_;
};

TEST_F(Sharing, writes_each_edition_and_an_archive_with_the_same_files) {
  write_game("1.0", plain_box);
  const ShareOutcome outcome = shared();
  ASSERT_TRUE(outcome.published) << testing::PrintToString(errors(outcome));
  for (const char* paper : {"A4", "Letter"}) {
    for (const char* file :
         {"cards-{}-full-colour.pdf", "cards-{}-low-ink.pdf", "box-{}-full-colour.pdf",
          "box-{}-low-ink.pdf", "guide-{}.pdf", "read-me-first-{}.pdf"}) {
      const std::string name = "reef-1.0-" + fmt::format(fmt::runtime(file), paper);
      EXPECT_THAT(names(outcome), Contains(name));
      EXPECT_THAT(pdf::inspect(read(wishes_.out + "/" + name)).faults, IsEmpty()) << name;
    }
  }
  EXPECT_THAT(names(outcome), Contains("index.html"));
  std::vector<std::string> zipped = *paths_in_zip(read(wishes_.out + ".zip"));
  std::vector<std::string> expected;
  for (const std::string& name : names(outcome)) expected.push_back("reef-1.0/" + name);
  std::sort(expected.begin(), expected.end());
  EXPECT_EQ(zipped, expected);
}

TEST_F(Sharing, lays_the_sheets_on_the_paper_that_a_file_names) {
  ASSERT_TRUE(shared().published);
  const auto width = [&](const std::string& file) {
    const pdf::PageFacts page = pdf::inspect(read(wishes_.out + "/reef-1.0-" + file)).pages.front();
    return std::min(page.media.right - page.media.left, page.media.top - page.media.bottom);
  };
  EXPECT_NEAR(width("cards-A4-low-ink.pdf"), 210 / 25.4 * 72, 0.01);
  EXPECT_NEAR(width("cards-Letter-low-ink.pdf"), 8.5 * 72, 0.01);
  EXPECT_NEAR(width("read-me-first-Letter.pdf"), 8.5 * 72, 0.01);
}

TEST_F(Sharing, tells_how_much_less_ink_low_ink_takes) {
  const ShareOutcome outcome = shared();
  ASSERT_EQ(outcome.editions.size(), 2U);
  for (const SharedEdition& edition : outcome.editions) {
    EXPECT_GT(edition.full_cover, 0);
    EXPECT_NEAR(edition.low_cover / edition.full_cover, light_part, 0.02);  // floods alone
  }
}

TEST_F(Sharing, gives_the_same_bytes_each_time) {
  ASSERT_TRUE(shared().published);
  const Bytes first = read(wishes_.out + ".zip");
  ASSERT_TRUE(shared().published);
  EXPECT_TRUE(read(wishes_.out + ".zip") == first);
}

TEST_F(Sharing, stops_at_a_file_that_may_not_be_given_on_and_says_what_to_do) {
  write_list("gull.svg,Ida,,own,\ntern.svg,Mara,,all rights reserved,\n");
  const ShareOutcome outcome = shared();
  EXPECT_FALSE(outcome.published);
  EXPECT_FALSE(fs::exists(wishes_.out));
  EXPECT_THAT(errors(outcome),
              ElementsAre("nothing says where art/back.svg came from",
                          "art/tern.svg may not be given on: all rights reserved"));
  EXPECT_THAT(outcome.found.front().hints,
              Contains("or use another picture, or leave out what shows it: --without "
                       "art/back.svg"));
}

TEST_F(Sharing, goes_on_with_files_whose_makers_were_asked) {
  write_list("gull.svg,Ida,,own,\ntern.svg,Mara,,all rights reserved,\nback.svg,Ida,,own,\n");
  wishes_.asked = {"tern.svg"};
  const ShareOutcome outcome = shared();
  EXPECT_TRUE(outcome.published);
  EXPECT_THAT(outcome.credits, Contains("Picture by Mara: tern. Used with permission."));
}

TEST_F(Sharing, leaves_out_what_shows_a_file) {
  write_list("gull.svg,Ida,,own,\nback.svg,Ida,,own,\n");
  wishes_.without = {"art/tern.svg"};
  const ShareOutcome outcome = shared();
  ASSERT_TRUE(outcome.published) << testing::PrintToString(errors(outcome));
  EXPECT_THAT(outcome.left_out, ElementsAre("tern"));
  EXPECT_EQ(outcome.used.count("art/tern.svg"), 0U);
  EXPECT_THAT(read(wishes_.out + "/share.json"), Not(HasSubstr("\"tern\"")));
}

TEST_F(Sharing, leaves_out_backs_and_the_box) {
  write_game("1.0", plain_box);
  wishes_.without = {"back", "box"};
  const ShareOutcome outcome = shared();
  ASSERT_TRUE(outcome.published) << testing::PrintToString(errors(outcome));
  EXPECT_EQ(outcome.used.count("art/back.svg"), 0U);
  EXPECT_THAT(names(outcome), Not(Contains(HasSubstr("-box-"))));
}

TEST_F(Sharing, refuses_words_that_name_nothing) {
  wishes_.without = {"gul"};
  EXPECT_THAT(errors(shared()),
              ElementsAre("there is no \"gul\" in the game that could be left out"));
  wishes_.without.clear();
  wishes_.asked = {"art/gul.svg"};
  EXPECT_THAT(errors(shared()), ElementsAre("no piece of the game shows a file \"art/gul.svg\""));
}

TEST_F(Sharing, prints_the_cards_that_changed_alone) {
  ASSERT_TRUE(shared().published);
  const std::string earlier = wishes_.out;
  wishes_.since = earlier;
  wishes_.out = (root_ / "later").string();
  write_game("1.1");
  std::string changed = art_svg;
  changed.replace(changed.find("#204060"), 7, "#206040");
  world_.put("art/gull.svg", changed);
  const ShareOutcome outcome = shared();
  ASSERT_TRUE(outcome.published) << testing::PrintToString(errors(outcome));
  EXPECT_THAT(pack::change_lines(*outcome.changes),
              ElementsAre("1 card looks different: Gull (gull)"));
  EXPECT_EQ(outcome.changes->to_print(), 3);
  EXPECT_EQ(outcome.editions.front().changed_sheets, 1);
  EXPECT_THAT(names(outcome), Contains("reef-1.1-changed-cards-Letter-low-ink.pdf"));
}

TEST_F(Sharing, names_a_folder_that_is_no_earlier_share) {
  wishes_.since = root_.string();
  const ShareOutcome outcome = shared();
  ASSERT_THAT(errors(outcome), testing::SizeIs(1));
  EXPECT_EQ(outcome.found.front().id, Id::share_earlier_unreadable);
}

TEST_F(Sharing, writes_over_nothing_but_a_share) {
  fs::create_directories(wishes_.out);
  std::ofstream(wishes_.out + "/letter.txt") << "dear Ida";
  EXPECT_EQ(shared().found.front().id, Id::share_target_not_a_share);
  EXPECT_EQ(read(wishes_.out + "/letter.txt"), "dear Ida");
  fs::remove_all(wishes_.out);
  std::ofstream(wishes_.out + ".zip") << "my holiday pictures";
  EXPECT_FALSE(shared().published);
  EXPECT_EQ(read(wishes_.out + ".zip"), "my holiday pictures");
  EXPECT_FALSE(fs::exists(wishes_.out));
}

TEST_F(Sharing, that_is_stopped_leaves_the_earlier_share_whole) {
  ASSERT_TRUE(shared().published);
  const Bytes page = read(wishes_.out + "/index.html"), zip = read(wishes_.out + ".zip");
  write_game("2.0");
  for (const char* moment : {"drawing cards", "writing editions"}) {
    calm_.stop_at = moment;
    EXPECT_FALSE(shared().published);
    EXPECT_EQ(read(wishes_.out + "/index.html"), page);
    EXPECT_TRUE(read(wishes_.out + ".zip") == zip);
    EXPECT_EQ(std::distance(fs::directory_iterator(root_), fs::directory_iterator{}), 2);
  }
}

TEST_F(Sharing, knows_files_that_a_picture_shows_in_turn) {
  world_.put("art/gull.svg",
             "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 10 10\">"
             "<image href=\"feather.svg\" width=\"5\" height=\"5\"/></svg>");
  world_.put("art/feather.svg", art_svg);
  EXPECT_THAT(errors(survey(world_, wishes_)),
              ElementsAre("nothing says where art/feather.svg came from"));
}

TEST_F(Sharing, leaves_a_paper_out_on_which_the_cards_do_not_go) {
  world_.put("game.toml",
             "[game]\ntitle = \"Reef\"\n[card]\nsize = \"190x280\"\nbleed = 0\n"
             "[decks.main]\nback = \"layouts/back.toml\"\n"
             "[[layouts]]\nfile = \"layouts/face.toml\"\n");
  const ShareOutcome outcome = shared();
  ASSERT_TRUE(outcome.published) << testing::PrintToString(errors(outcome));
  ASSERT_EQ(outcome.editions.size(), 1U);
  EXPECT_EQ(outcome.editions.front().paper, "A4");
  std::vector<std::string> messages;
  for (const Diagnostic& one : outcome.found) messages.push_back(one.message);
  EXPECT_THAT(messages, Contains("there is no edition on Letter"));
}

}  // namespace
}  // namespace quoin::job
