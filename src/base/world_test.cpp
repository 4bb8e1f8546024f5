#include "base/world.h"

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

namespace quoin {
namespace {
namespace fs = std::filesystem;

class RealWorldTest : public testing::Test {
 protected:
  void SetUp() override {
    std::string pattern = (fs::temp_directory_path() / "quoin-world-XXXXXX").string();
    root_ = ::mkdtemp(pattern.data());
    fs::create_directories(root_ / "game" / "art");
    std::ofstream(root_ / "game" / "game.toml") << "title";
    std::ofstream(root_ / "game" / "art" / "a.svg") << "<svg/>";
    std::ofstream(root_ / "secret") << "secret";
    world_ = real_world((root_ / "game").string());
  }
  void TearDown() override { fs::remove_all(root_); }

  fs::path root_;
  std::unique_ptr<World> world_;
};

TEST_F(RealWorldTest, reads_a_file_of_the_game) {
  const ReadAnswer answer = world_->read("art/a.svg", largest_file);
  ASSERT_TRUE(answer.ok());
  EXPECT_EQ(*answer.bytes, "<svg/>");
}

TEST_F(RealWorldTest, says_what_is_wrong_with_a_read) {
  EXPECT_EQ(world_->read("art/b.svg", largest_file).failure, ReadFailure::missing);
  EXPECT_EQ(world_->read("art", largest_file).failure, ReadFailure::is_a_folder);
  EXPECT_EQ(world_->read("art/a.svg", 3).failure, ReadFailure::too_large);
}

TEST_F(RealWorldTest, never_leaves_the_game_folder) {
  EXPECT_EQ(world_->read("../secret", largest_file).failure, ReadFailure::outside_the_game);
  EXPECT_EQ(world_->read("art/../../secret", largest_file).failure, ReadFailure::outside_the_game);
  EXPECT_EQ(world_->read("/etc/passwd", largest_file).failure, ReadFailure::outside_the_game);
  fs::create_symlink(root_ / "secret", root_ / "game" / "link");
  EXPECT_EQ(world_->read("link", largest_file).failure, ReadFailure::outside_the_game);
}

TEST_F(RealWorldTest, follows_a_link_that_stays_inside) {
  fs::create_symlink("a.svg", root_ / "game" / "art" / "b.svg");
  EXPECT_TRUE(world_->read("art/b.svg", largest_file).ok());
}

TEST_F(RealWorldTest, ends_where_links_lead_in_a_circle) {
  fs::create_symlink("loop", root_ / "game" / "loop");
  EXPECT_FALSE(world_->read("loop", largest_file).ok());
  fs::create_directory_symlink("..", root_ / "game" / "art" / "up");
  const std::vector<std::string> files = world_->files_below("");
  EXPECT_EQ(files, (std::vector<std::string>{"art/a.svg", "game.toml"}));
}

TEST_F(RealWorldTest, does_not_wait_for_a_pipe) {
  ASSERT_EQ(::mkfifo((root_ / "game" / "pipe").c_str(), 0600), 0);
  const ReadAnswer answer = world_->read("pipe", largest_file);
  EXPECT_EQ(answer.failure, ReadFailure::unreadable);
  EXPECT_EQ(explain(answer, "pipe"), "cannot read pipe: not a plain file");
}

TEST_F(RealWorldTest, says_why_a_file_cannot_be_read) {
  if (::geteuid() == 0) GTEST_SKIP() << "root may read everything";
  fs::permissions(root_ / "game" / "game.toml", fs::perms::none);
  EXPECT_EQ(explain(world_->read("game.toml", largest_file), "game.toml"),
            "cannot read game.toml: Permission denied");
}

TEST(NormalPath, takes_detours_out_and_refuses_to_leave) {
  EXPECT_EQ(normal_path("art/./a.svg"), "art/a.svg");
  EXPECT_EQ(normal_path("art/../icons//b.svg"), "icons/b.svg");
  EXPECT_EQ(normal_path(".."), "");
  EXPECT_EQ(normal_path("a/../../b"), "");
  EXPECT_EQ(normal_path("/a"), "");
  EXPECT_EQ(normal_path(std::string_view("a\0b", 3)), "");
}

TEST(MemoryWorld, answers_like_a_folder) {
  MemoryWorld world;
  world.put("art/a.svg", "<svg/>");
  EXPECT_TRUE(world.read("art/./a.svg", 100).ok());
  EXPECT_EQ(world.read("art", 100).failure, ReadFailure::is_a_folder);
  EXPECT_EQ(world.read("b", 100).failure, ReadFailure::missing);
  EXPECT_EQ(world.read("../b", 100).failure, ReadFailure::outside_the_game);
  EXPECT_EQ(world.files_below("art"), std::vector<std::string>{"art/a.svg"});
}

}  // namespace
}  // namespace quoin
