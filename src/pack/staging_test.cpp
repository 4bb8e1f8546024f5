#include "pack/staging.h"

#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

namespace quoin::pack {
namespace {
namespace fs = std::filesystem;

constexpr const char* report = R"({"quoin": "0", "files": [{"path": "a.pdf", "bytes": 1}]})";

class StagingTest : public testing::Test {
 protected:
  void SetUp() override {
    std::string pattern = (fs::temp_directory_path() / "quoin-staging-XXXXXX").string();
    root_ = ::mkdtemp(pattern.data());
    target_ = (root_ / "pack").string();
  }
  void TearDown() override { fs::remove_all(root_); }

  void put(const std::string& path, const std::string& text) {
    fs::create_directories((root_ / path).parent_path());
    std::ofstream(root_ / path) << text;
  }
  [[nodiscard]] std::string text_of(const std::string& path) const {
    std::ifstream in(root_ / path);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
  }
  /// Everything below the test's folder, hidden or not.
  [[nodiscard]] std::set<std::string> everything() const {
    std::set<std::string> names;
    for (const auto& entry : fs::recursive_directory_iterator(root_)) {
      if (entry.is_regular_file()) names.insert(entry.path().lexically_relative(root_).string());
    }
    return names;
  }
  void publish_one(const std::string& name, const std::string& text) {
    Result<Staging> staging = Staging::begin(target_);
    ASSERT_TRUE(staging.ok());
    ASSERT_TRUE(staging->write(name, text).ok());
    ASSERT_TRUE(staging->write(report_name, report).ok());
    ASSERT_TRUE(staging->publish().ok());
  }

  fs::path root_;
  std::string target_;
};

TEST_F(StagingTest, puts_nothing_in_place_before_it_is_published) {
  Result<Staging> staging = Staging::begin(target_);
  ASSERT_TRUE(staging.ok());
  ASSERT_TRUE(staging->write("home/cards.pdf", "x").ok());
  EXPECT_FALSE(fs::exists(target_));
}

TEST_F(StagingTest, leaves_no_trace_when_it_is_dropped) {
  {
    Result<Staging> staging = Staging::begin(target_);
    ASSERT_TRUE(staging.ok());
    ASSERT_TRUE(staging->write("home/cards.pdf", "x").ok());
  }
  EXPECT_TRUE(fs::is_empty(root_));
}

TEST_F(StagingTest, replaces_an_earlier_pack_whole) {
  publish_one("a.pdf", "old");
  publish_one("b.pdf", "new");
  EXPECT_EQ(everything(), (std::set<std::string>{"pack/b.pdf", "pack/report.json"}));
  EXPECT_EQ(text_of("pack/b.pdf"), "new");
}

TEST_F(StagingTest, keeps_what_the_maker_laid_into_the_earlier_pack) {
  publish_one("a.pdf", "old");
  put("pack/notes/to do.txt", "corners");
  publish_one("a.pdf", "new");
  EXPECT_EQ(text_of("pack/notes/to do.txt"), "corners");
  EXPECT_EQ(text_of("pack/a.pdf"), "new");
}

TEST_F(StagingTest, refuses_a_folder_with_files_it_did_not_make) {
  put("pack/thesis.txt", "years of work");
  const Result<Staging> staging = Staging::begin(target_);
  ASSERT_FALSE(staging.ok());
  EXPECT_EQ(staging.why().front().id, Id::pack_target_not_a_pack);
  EXPECT_EQ(staging.why().front().message, target_ + " holds files that Quoin did not make");
  EXPECT_EQ(text_of("pack/thesis.txt"), "years of work");
}

TEST_F(StagingTest, refuses_a_file_where_the_pack_should_stand) {
  put("pack", "a file");
  const Result<Staging> staging = Staging::begin(target_);
  ASSERT_FALSE(staging.ok());
  EXPECT_EQ(staging.why().front().message, target_ + " is a file; the pack needs a folder");
  EXPECT_EQ(text_of("pack"), "a file");
}

/// Runs `work` in a process of its own and gives its exit code.
template <typename Work>
int in_a_child(Work work) {
  const pid_t child = ::fork();
  if (child == 0) ::_exit(work());
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

TEST_F(StagingTest, leaves_the_earlier_pack_whole_when_no_more_can_be_written) {
  publish_one("a.pdf", "old");
  // A limit on the size of files stands in for a full disk: write() fails half way.
  const int code = in_a_child([&] {
    ::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{1000, 1000};
    ::setrlimit(RLIMIT_FSIZE, &limit);
    Result<Staging> staging = Staging::begin(target_);
    if (!staging) return 1;
    const Outcome written = staging->write("a.pdf", Bytes(5000, 'x'));
    if (written) return 2;
    return written.why().front().id == Id::pack_not_written ? 0 : 3;
  });
  EXPECT_EQ(code, 0);
  EXPECT_EQ(text_of("pack/a.pdf"), "old");
}

TEST_F(StagingTest, clears_away_what_a_killed_run_left) {
  publish_one("a.pdf", "old");
  const int code = in_a_child([&] {
    Result<Staging> staging = Staging::begin(target_);
    if (!staging || !staging->write("a.pdf", "half")) return 1;
    ::_exit(9);  // as a kill would: no destructor runs
    return 0;
  });
  EXPECT_EQ(code, 9);
  EXPECT_EQ(everything().size(), 3U) << "the killed run's file is still there";
  publish_one("a.pdf", "new");
  EXPECT_EQ(everything(), (std::set<std::string>{"pack/a.pdf", "pack/report.json"}));
}

}  // namespace
}  // namespace quoin::pack
