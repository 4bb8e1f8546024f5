#include "job/pictures/picture_colours.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "formats/png/png.h"

namespace quoin::job {
namespace {

using testing::ElementsAre;

std::uint32_t opaque(int red, int green, int blue) {
  return 0xFF000000U | std::uint32_t(red) << 16 | std::uint32_t(green) << 8 | std::uint32_t(blue);
}
int part(std::uint32_t pixel, int k) { return int(pixel >> (16 - 8 * k) & 255U); }

Colour colour_of(std::uint32_t pixel) {
  return {part(pixel, 0) / 255.0, part(pixel, 1) / 255.0, part(pixel, 2) / 255.0, 1};
}

constexpr int across = 96;
/// How much of a disc in the middle of the picture a pixel has, by 8 x 8 looks.
double share_of_disc(int x, int y) {
  int hits = 0;
  for (int k = 0; k < 64; ++k) {
    const double u = x + (k % 8 + 0.5) / 8, v = y + (k / 8 + 0.5) / 8;
    hits += std::hypot(u - across / 2.0, v - across / 2.0) < 30 ? 1 : 0;
  }
  return hits / 64.0;
}

std::uint32_t mixed(std::uint32_t ground, std::uint32_t figure, double share) {
  std::uint32_t result = 0xFF000000U;
  for (int k = 0; k < 3; ++k) {
    const double value = part(ground, k) + (part(figure, k) - part(ground, k)) * share;
    result |= std::uint32_t(std::lround(value)) << (16 - 8 * k);
  }
  return result;
}

Raster picture_with(const std::function<std::uint32_t(int x, int y)>& pixel) {
  Raster raster{across, across, {}};
  for (int y = 0; y < across; ++y) {
    for (int x = 0; x < across; ++x) raster.pixels.push_back(pixel(x, y));
  }
  return raster;
}

/// Opens pictures from memory.
struct Opened {
  explicit Opened(const Raster& raster) : shelf(world) {
    world.put("it.png", write_png(raster, 96));
    Diagnostics found;
    picture = *shelf.open("it.png", {}, found);
  }
  [[nodiscard]] Raster pulled(const std::vector<PictureColour>& to, double reach) {
    return *read_png(pull_picture(shelf, picture, to, reach).pictures.at(0).bytes);
  }
  MemoryWorld world;
  PictureShelf shelf;
  PicturePtr picture;
};

TEST(PullPicture, mixes_edges_anew_from_the_new_colours) {
  const std::uint32_t sand = opaque(244, 227, 193), sea = opaque(32, 80, 90);
  const std::uint32_t new_sand = opaque(250, 235, 200), new_sea = opaque(36, 71, 90);
  Opened opened(picture_with([&](int x, int y) { return mixed(sand, sea, share_of_disc(x, y)); }));
  const Raster result =
      opened.pulled({{colour_of(new_sand), "a", 0}, {colour_of(new_sea), "b", 0}}, 10);
  int worst = 0;
  for (int y = 0; y < across; ++y) {
    for (int x = 0; x < across; ++x) {
      // Source: T. Porter, T. Duff, "Compositing Digital Images", SIGGRAPH 1984: what the picture
      // would be had it been drawn in the new colours.
      const std::uint32_t wanted = mixed(new_sand, new_sea, share_of_disc(x, y));
      const std::uint32_t got = result.pixels[std::size_t(y * across + x)];
      for (int k = 0; k < 3; ++k) {
        worst = std::max(worst, std::abs(part(wanted, k) - part(got, k)));
      }
      const bool is_mixed = share_of_disc(x, y) > 0 && share_of_disc(x, y) < 1;
      EXPECT_TRUE(is_mixed || got == wanted) << x << " " << y;
    }
  }
  EXPECT_LE(worst, 4) << "of 255";
}

TEST(PullPicture, leaves_a_ramp_a_ramp) {
  const Raster ramp = picture_with([](int x, int) { return opaque(60 + x, 90 + x, 110 + x); });
  Opened opened(ramp);
  const Raster result = opened.pulled({{colour_of(opaque(110, 140, 150)), "a", 0}}, 12);
  int changed = 0;
  for (int x = 1; x < across; ++x) {
    for (int k = 0; k < 3; ++k) {
      const int step =
          part(result.pixels[std::size_t(x)], k) - part(result.pixels[std::size_t(x - 1)], k);
      EXPECT_GE(step, -1) << x;  // rounding to 8 bits
      EXPECT_LE(step, 4) << x;
      changed += result.pixels[std::size_t(x)] != ramp.pixels[std::size_t(x)] ? 1 : 0;
    }
  }
  EXPECT_GT(changed, 0);
}

TEST(PullPicture, keeps_what_is_transparent) {
  const std::uint32_t half = 0x80632D1DU;  // #c65b3a at one half, premultiplied
  Opened opened(picture_with([&](int x, int) {
    return x < 32 ? 0U : x < 64 ? half : opaque(198, 91, 58);
  }));
  const Raster result = opened.pulled({{colour_of(opaque(208, 96, 64)), "coral", 0}}, 10);
  EXPECT_EQ(result.pixels[5], 0U);
  EXPECT_EQ(result.pixels[40] >> 24, 0x80U);
  EXPECT_NEAR(part(result.pixels[40], 0), 104, 2);
  EXPECT_EQ(result.pixels[80], opaque(208, 96, 64));
}

TEST(ColoursOfPictures, names_each_with_a_key_that_no_other_has) {
  Opened opened(picture_with([](int x, int) {
    return x < 40 ? opaque(32, 80, 90) : x < 70 ? opaque(70, 120, 130) : opaque(244, 227, 193);
  }));
  const std::vector<PicturePtr> pictures{opened.picture};
  const auto plain = colours_in(opened.shelf, pictures, 12, {});
  ASSERT_EQ(plain.size(), 3U);
  std::vector<PictureColour> of_game{{colour_of(opaque(0, 0, 0)), plain[0].name, 0},
                                     {colour_of(opaque(244, 227, 193)), "sand", 0}};
  const auto named = colours_in(opened.shelf, pictures, 12, of_game);
  EXPECT_EQ(named[0].name, plain[0].name + "-2") << "the game has that name for black";
  EXPECT_EQ(named[2].name, "sand");
  for (const PictureColour& one : named) {
    // Source: TOML v1.0.0, "Keys": bare keys have ASCII letters, digits, underscores and dashes.
    EXPECT_EQ(one.name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-"),
              std::string::npos)
        << one.name;
  }
  EXPECT_NEAR(named[0].share, 40.0 / 96, 0.02);
}

}  // namespace
}  // namespace quoin::job
