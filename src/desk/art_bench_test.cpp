#include "desk/art_bench.h"

#include <gtest/gtest.h>

#include <future>
#include <thread>

namespace quoin::desk {
namespace {

MadeOfPicture made_of(std::size_t bytes) {
  MadeOfPicture made{"art/crab.png", "key", {}};
  made.made.pictures.push_back({Bytes(bytes, 'x'), 1, 1, {}});
  return made;
}

TEST(ArtBench, keeps_the_last_32_and_no_more_than_64_megabytes) {
  ArtBench bench;
  std::vector<std::string> names;
  for (int i = 0; i < 33; ++i) names.push_back(bench.keep(made_of(10)));
  EXPECT_EQ(bench.find(names[0]), nullptr);
  EXPECT_NE(bench.find(names[1]), nullptr);
  EXPECT_NE(bench.find(names[32]), nullptr);
  const std::string large = bench.keep(made_of(65'000'000));
  EXPECT_NE(bench.find(large), nullptr) << "the newest is always kept";
  EXPECT_EQ(bench.find(names[32]), nullptr);
  const std::string next = bench.keep(made_of(10));
  EXPECT_EQ(bench.find(large), nullptr);
  EXPECT_NE(bench.find(next), nullptr);
}

TEST(ArtBench, meets_no_name_of_another_run) {
  ArtBench one, other;
  const std::string name = one.keep(made_of(1));
  (void)other.keep(made_of(1));
  EXPECT_EQ(other.find(name), nullptr);
}

TEST(ArtBench, remembers_the_cards_of_the_last_16_pictures) {
  ArtBench bench;
  for (int i = 0; i < 17; ++i) bench.remember(std::to_string(i), {{{}, {}, 0.01 * i}});
  EXPECT_TRUE(bench.cards_in("0").empty());
  ASSERT_EQ(bench.cards_in("16").size(), 1U);
  EXPECT_DOUBLE_EQ(bench.cards_in("16")[0].bow, 0.16);
  bench.remember("16", {});
  EXPECT_TRUE(bench.cards_in("16").empty());
}

TEST(ArtBench, lets_nobody_wait_for_work_that_was_asked_for_anew) {
  ArtBench bench;
  std::vector<ArtBench::Turn> taken;
  const int cores = std::max(2, static_cast<int>(std::thread::hardware_concurrency()));
  for (int i = 0; i < cores; ++i) {
    auto turn = bench.turn("other " + std::to_string(i));
    ASSERT_TRUE(turn);
    taken.push_back(std::move(*turn));
  }
  const auto ask = [&] { return bench.turn("redraw crab").has_value(); };
  auto older = std::async(std::launch::async, ask);
  EXPECT_EQ(older.wait_for(std::chrono::milliseconds(50)), std::future_status::timeout)
      << "all are at work";
  auto newer = std::async(std::launch::async, ask);
  ASSERT_EQ(older.wait_for(std::chrono::milliseconds(20'000)), std::future_status::ready);
  EXPECT_FALSE(older.get());
  EXPECT_EQ(newer.wait_for(std::chrono::milliseconds(50)), std::future_status::timeout);
  taken.pop_back();
  EXPECT_TRUE(newer.get());
}

}  // namespace
}  // namespace quoin::desk
