#include "desk/folder_watch.h"

#include <gtest/gtest.h>
#include <stdlib.h>

#include <atomic>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <thread>

namespace quoin::desk {
namespace {
namespace fs = std::filesystem;

class FolderWatchTest : public testing::Test {
 protected:
  void SetUp() override {
    std::string pattern = (fs::temp_directory_path() / "quoin-watch-XXXXXX").string();
    folder_ = ::mkdtemp(pattern.data());
    fs::create_directories(folder_ / "art/deep");
  }
  void TearDown() override { fs::remove_all(folder_); }

  void put(const std::string& path) const { std::ofstream(folder_ / path) << "x"; }
  [[nodiscard]] bool was_told_within(int milliseconds) {
    for (int waited = 0; waited < milliseconds && told_ == 0; waited += 5) {
      std::this_thread::sleep_for(std::chrono::milliseconds(5));
    }
    return told_.exchange(0) > 0;
  }

  fs::path folder_;
  std::atomic<int> told_ = 0;
};

TEST_F(FolderWatchTest, tells_of_changes_however_deep) {
  const FolderWatch watch(folder_.string(), [this] { ++told_; });
  for (const char* path : {"cards.csv", "art/a.png", "art/deep/b.png"}) {
    put(path);
    EXPECT_TRUE(was_told_within(2000)) << path;
  }
  fs::create_directories(folder_ / "layouts/new");
  EXPECT_TRUE(was_told_within(2000));
  put("layouts/new/face.toml");
  EXPECT_TRUE(was_told_within(2000)) << "in a folder that is new";
  fs::rename(folder_ / "cards.csv", folder_ / "list.csv");
  EXPECT_TRUE(was_told_within(2000));
  fs::remove(folder_ / "list.csv");
  EXPECT_TRUE(was_told_within(2000));
}

TEST_F(FolderWatchTest, says_nothing_of_what_does_not_bear_on_the_game) {
  fs::create_directories(folder_ / "pack");
  fs::create_directories(folder_ / ".quoin");
  const FolderWatch watch(folder_.string(), [this] { ++told_; });
  for (const char* path : {"pack/a.pdf", ".quoin/journal", ".cards.csv.part"}) put(path);
  EXPECT_FALSE(was_told_within(300));
}

TEST_F(FolderWatchTest, tells_many_changes_at_once) {
  const FolderWatch watch(folder_.string(), [this] { ++told_; });
  for (int i = 0; i < 200; ++i) put("art/" + std::to_string(i) + ".png");
  std::this_thread::sleep_for(std::chrono::milliseconds(500));
  EXPECT_GE(told_, 1);
  EXPECT_LE(told_, 20);
}

TEST_F(FolderWatchTest, goes_on_when_the_folder_is_put_in_anothers_place) {
  const FolderWatch watch(folder_.string(), [this] { ++told_; });
  fs::rename(folder_, folder_.string() + "-old");
  fs::create_directories(folder_);
  EXPECT_TRUE(was_told_within(2000));
  std::this_thread::sleep_for(std::chrono::milliseconds(700));
  told_ = 0;
  put("game.toml");
  EXPECT_TRUE(was_told_within(2000));
  fs::remove_all(folder_.string() + "-old");
}

TEST(FolderNames, are_others_when_something_of_the_game_changed) {
  std::string pattern = (fs::temp_directory_path() / "quoin-names-XXXXXX").string();
  const fs::path folder = ::mkdtemp(pattern.data());
  std::ofstream(folder / "a.toml") << "x";
  std::ofstream(folder / "a.png") << "x";
  const FolderNames before = names_of(folder.string());
  EXPECT_EQ(names_of(folder.string()), before);
  std::ofstream(folder / "a.toml") << "xy";
  const FolderNames after = names_of(folder.string());
  EXPECT_NE(after.texts, before.texts);
  EXPECT_EQ(after.pictures, before.pictures);
  std::ofstream(folder / "a.png") << "xy";
  EXPECT_NE(names_of(folder.string()).pictures, before.pictures);
  fs::remove_all(folder);
}

}  // namespace
}  // namespace quoin::desk
