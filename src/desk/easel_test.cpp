#include "desk/easel.h"

#include <gtest/gtest.h>

#include <atomic>
#include <future>
#include <stdexcept>

namespace quoin::desk {
namespace {

std::shared_ptr<const Materials> no_materials() {
  auto materials = std::make_shared<Materials>();
  materials->world = std::make_shared<MemoryWorld>();
  materials->shelf = std::make_shared<PictureShelf>(*materials->world);
  materials->fonts = std::make_shared<std::vector<FontFile>>();
  return materials;
}

TEST(Easel, draws_each_picture_once_however_many_ask) {
  Easel easel(1000);
  const auto materials = no_materials();
  std::atomic<int> drawn = 0;
  std::vector<std::future<std::shared_ptr<const Bytes>>> askers;
  for (int i = 0; i < 8; ++i) {
    askers.push_back(std::async(std::launch::async, [&] {
      return easel.picture("a", materials, [&](const Tools&) {
        ++drawn;
        std::this_thread::sleep_for(std::chrono::milliseconds(30));
        return Bytes("picture");
      });
    }));
  }
  for (auto& asker : askers) EXPECT_EQ(*asker.get(), "picture");
  EXPECT_EQ(drawn, 1);
}

TEST(Easel, keeps_no_more_bytes_than_it_may) {
  Easel easel(100);
  const auto materials = no_materials();
  int drawn = 0;
  const auto ask = [&](const std::string& name) {
    return easel.picture(name, materials, [&](const Tools&) {
      ++drawn;
      return Bytes(40, 'x');
    });
  };
  for (const char* name : {"a", "b", "a", "c"}) (void)ask(name);  // b is the oldest now
  EXPECT_EQ(drawn, 3);
  EXPECT_LE(easel.kept_bytes(), 100U);
  (void)ask("a");
  EXPECT_EQ(drawn, 3);
  (void)ask("b");
  EXPECT_EQ(drawn, 4);
}

TEST(Easel, gives_null_for_what_cannot_be_drawn_and_goes_on) {
  Easel easel(100);
  const auto materials = no_materials();
  EXPECT_EQ(
      easel.picture("a", materials, [](const Tools&) -> Bytes { throw std::runtime_error("x"); }),
      nullptr);
  EXPECT_EQ(*easel.picture("a", materials, [](const Tools&) { return Bytes("well"); }), "well");
}

TEST(Easel, draws_ahead_and_forgets_what_nobody_waits_for) {
  Easel easel(1000);
  const auto materials = no_materials();
  std::atomic<bool> may_go = false;
  std::atomic<int> begun = 0;
  for (int i = 0; i < 64; ++i) {
    easel.draw_ahead("ahead " + std::to_string(i), materials, [&](const Tools&) {
      ++begun;
      while (!may_go) std::this_thread::yield();
      return Bytes("x");
    });
  }
  easel.forget_ahead();
  may_go = true;
  EXPECT_EQ(*easel.picture("now", materials, [](const Tools&) { return Bytes("y"); }), "y");
  EXPECT_LE(begun, 16) << "one for each thread at most was begun";
}

}  // namespace
}  // namespace quoin::desk
