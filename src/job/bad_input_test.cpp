#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <set>

#include "job/job.h"

namespace quoin::job {
namespace {
namespace fs = std::filesystem;

class Patient : public Watcher {
 public:
  bool at(std::string_view, int, int) override { return true; }
};

/// A small sound game on disk, in which one thing is then spoilt.
class BadInputTest : public testing::Test {
 protected:
  void SetUp() override {
    std::string pattern = (fs::temp_directory_path() / "quoin-bad-XXXXXX").string();
    root_ = ::mkdtemp(pattern.data());
    put("game.toml", "[game]\ntitle = \"Bad\"\n[[layouts]]\nfile = \"layouts/face.toml\"\n");
    put("layouts/face.toml",
        "[[element]]\nid = \"art\"\nkind = \"picture\"\npicture = \"art/{art}\"\ninset = 0\n");
    put("cards.csv", "id,art\na,a.svg\n");
    put("art/a.svg",
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"10\" height=\"14\">"
        "<rect width=\"10\" height=\"14\"/></svg>");
  }
  void TearDown() override { fs::remove_all(root_); }

  void put(const std::string& path, const std::string& bytes) {
    fs::create_directories((root_ / path).parent_path());
    std::ofstream(root_ / path, std::ios::binary) << bytes;
  }
  /// The names of the errors that `make` finds; nothing may have been written then.
  [[nodiscard]] std::vector<std::string> errors() {
    std::vector<std::string> names;
    for (const Diagnostic& one : findings()) {
      if (one.severity != Severity::error) continue;
      names.emplace_back(facts(one.id).name);
      EXPECT_FALSE(one.message.empty());
    }
    EXPECT_EQ(fs::exists(wishes_.out), names.empty());
    return names;
  }
  /// All that `make` finds.
  [[nodiscard]] Diagnostics findings() {
    const std::unique_ptr<World> world = real_world(root_.string());
    wishes_.out = (root_ / "pack").string();
    Patient patient;
    Outcome outcome = make(*world, wishes_, patient);
    EXPECT_EQ(outcome.published, !any_errors(outcome.found));
    return std::move(outcome.found);
  }

  fs::path root_;
  Wishes wishes_;
};

/// A PNG of 8 x 9 px in grey with rows for 8 x 8: only whoever unpacks its pixels notices (W3C PNG:
/// 5.3 chunks, annex D checksum; RFC 1950 and RFC 1951, 3.2.4: stored data).
std::string png_with_a_row_too_few() {
  const auto big = [](std::uint32_t n) {
    return std::string{char(n >> 24), char(n >> 16 & 255), char(n >> 8 & 255), char(n & 255)};
  };
  const auto chunk = [&](const std::string& typed) {
    std::uint32_t check = 0xFFFFFFFF;
    for (const char c : typed) {
      check ^= static_cast<unsigned char>(c);
      for (int bit = 0; bit < 8; ++bit) check = check >> 1 ^ (check & 1 ? 0xEDB88320 : 0);
    }
    return big(static_cast<std::uint32_t>(typed.size() - 4)) + typed + big(~check);
  };
  const std::string rows(8 * 9, '\0');  // a filter and 8 px each
  const std::string stored =
      std::string("\x78\x01\x01\x48\0\xB7\xFF", 7) + rows + big(72U << 16 | 1);
  return "\x89PNG\r\n\x1A\n" + chunk("IHDR" + big(8) + big(9) + std::string("\x08\0\0\0\0", 5)) +
         chunk("IDAT" + stored) + chunk("IEND");
}

using Names = std::vector<std::string>;

TEST_F(BadInputTest, is_sound_before_it_is_spoilt) { EXPECT_EQ(errors(), Names{}); }

TEST_F(BadInputTest, finds_a_picture_that_is_a_circle_of_links) {
  fs::remove(root_ / "art/a.svg");
  fs::create_symlink("b.svg", root_ / "art/a.svg");
  fs::create_symlink("a.svg", root_ / "art/b.svg");
  EXPECT_EQ(errors().size(), 1U);
}

TEST_F(BadInputTest, finds_a_picture_that_is_a_pipe_without_waiting) {
  fs::remove(root_ / "art/a.svg");
  ASSERT_EQ(::mkfifo((root_ / "art/a.svg").c_str(), 0600), 0);
  EXPECT_EQ(errors(), Names{"picture.unreadable"});
}

TEST_F(BadInputTest, finds_a_picture_cut_short) {
  put("art/a.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"10\" hei");
  EXPECT_EQ(errors().size(), 1U);
}

TEST_F(BadInputTest, finds_a_picture_of_hundreds_of_megapixels_before_reading_it) {
  // PNG signature and header alone: 40,000 x 40,000, 8 bit RGB (W3C PNG, 11.2.2).
  std::string png("\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\x9c\x40\0\0\x9c\x40\x08\x02\0\0\0", 29);
  png += std::string("\0\0\0\0", 4);
  put("art/a.svg", png);
  const Names names = errors();
  ASSERT_EQ(names.size(), 1U);
  EXPECT_TRUE(names[0] == "picture.too-large" || names[0] == "picture.damaged") << names[0];
}

TEST_F(BadInputTest, tells_once_of_a_picture_whose_pixels_are_damaged_whoever_draws_it) {
  put("cards.csv", "id,art\na,a.png\nb,a.png\nc,a.png\n");
  put("art/a.png", png_with_a_row_too_few());
  for (const std::set<Part>& parts :
       {std::set{Part::home}, {Part::shop}, {Part::pictures}, wishes_.parts}) {
    wishes_.parts = parts;
    EXPECT_EQ(errors(), Names{"picture.damaged"}) << parts.size();
    const Diagnostics found = findings();
    const auto damaged = std::find_if(found.begin(), found.end(), [](const Diagnostic& one) {
      return one.id == Id::picture_damaged;
    });
    ASSERT_NE(damaged, found.end());
    EXPECT_EQ(damaged->origin, Origin{FileName("art/a.png")});
    EXPECT_EQ(damaged->message,
              "art/a.png is damaged: its pixel data does not hold the 9 rows that it should");
  }
}

TEST_F(BadInputTest, finds_nul_bytes_in_the_list) {
  put("cards.csv", std::string("id,art\na\0b,a.svg\n", 17));
  EXPECT_FALSE(errors().empty());
}

TEST_F(BadInputTest, reads_a_list_of_fifty_megabytes_and_says_what_is_wrong) {
  std::string list = "id,art\n";
  while (list.size() < 50'000'000)
    list += "same,a.svg,one cell too many for this list of two columns\n";
  put("cards.csv", list);
  const Checked<game::Game> read = game::read_game(*real_world(root_.string()));
  EXPECT_TRUE(any_errors(read.found));
  EXPECT_LT(read.found.size(), 1000U) << "equal problems are folded, or they would fill the screen";
}

TEST_F(BadInputTest, finds_a_list_that_is_a_folder) {
  fs::remove(root_ / "cards.csv");
  fs::create_directory(root_ / "cards.csv");
  EXPECT_FALSE(errors().empty());
}

TEST_F(BadInputTest, finds_an_empty_game_file) {
  put("game.toml", "");
  EXPECT_FALSE(errors().empty());
}

}  // namespace
}  // namespace quoin::job
