#include "base/overlay_world.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace quoin {
namespace {
using testing::ElementsAre;

OverlayWorld overlay() {
  auto below = std::make_shared<MemoryWorld>();
  below->put("game.toml", "old");
  below->put("layouts/a.toml", "a");
  below->put("layouts/c.toml", "c");
  return {below,
          {{"game.toml", std::make_shared<const Bytes>("new")},
           {"layouts/b.toml", std::make_shared<const Bytes>("b")},
           {"layouts/c.toml", nullptr}}};
}

TEST(OverlayWorld, reads_its_own_texts_before_those_below) {
  const OverlayWorld world = overlay();
  EXPECT_EQ(*world.read("game.toml", 100).bytes, "new");
  EXPECT_EQ(*world.read("layouts/../game.toml", 100).bytes, "new");
  EXPECT_EQ(*world.read("layouts/a.toml", 100).bytes, "a");
  EXPECT_EQ(world.read("layouts/c.toml", 100).failure, ReadFailure::missing);
  EXPECT_EQ(world.read("game.toml", 2).failure, ReadFailure::too_large);
  EXPECT_EQ(world.read("../game.toml", 100).failure, ReadFailure::outside_the_game);
}

TEST(OverlayWorld, lists_what_is_laid_over_and_not_what_is_taken_away) {
  EXPECT_THAT(overlay().files_below("layouts"), ElementsAre("layouts/a.toml", "layouts/b.toml"));
  EXPECT_THAT(overlay().files_below(""),
              ElementsAre("game.toml", "layouts/a.toml", "layouts/b.toml"));
}

}  // namespace
}  // namespace quoin
