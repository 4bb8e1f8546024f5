#include "pack/box_pictures.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>

#include "formats/svg/svg.h"
#include "pieces/box/light.h"
#include "pieces/box/sample_box_fixture.h"

namespace quoin::pack {
namespace {
namespace fs = std::filesystem;

using pieces::Box;
using pieces::NetArt;

/// Keeps everything, and counts what is put.
class Shelf : public ImageCache {
 public:
  [[nodiscard]] std::optional<Bytes> get(const std::string& key) const override {
    const auto found = kept_.find(key);
    return found == kept_.end() ? std::nullopt : std::optional(found->second);
  }
  void put(const std::string& key, const Bytes& bytes) override {
    kept_[key] = bytes;
    ++puts;
  }
  int puts = 0;

 private:
  std::map<std::string, Bytes> kept_;
};

std::vector<NetArt> one_colour(const Box& box) {
  std::vector<NetArt> art(box.model.parts.size());
  for (NetArt& net : art) {
    net.printed.items.push_back(pieces::filled(
        Path::rectangle({{Mm{-99}, Mm{-99}}, {Mm{900}, Mm{900}}}), Colour{0.14, 0.28, 0.35, 1}));
  }
  return art;
}

struct Shown {
  Box box = pieces::sample_box("tuck", 54, {Mm{63}, Mm{88}});
  std::vector<NetArt> art = one_colour(box);
  MemoryWorld world;
  PictureShelf shelf{world};
  Diagnostics found;
  BoxPictureWork work{{box, art, nullptr, Mm{3}}, "Sample", "looks"};
};

TEST(BoxPictures, are_pictures_drawings_and_a_model) {
  Shown made;
  std::vector<std::string> paths;
  for (const BoxPictureFile& file : box_pictures(made.work, made.shelf, nullptr, made.found)) {
    paths.push_back(file.path);
  }
  EXPECT_EQ(paths, (std::vector<std::string>{"pictures/box.png", "pictures/box.svg",
                                             "pictures/box-open.png", "pictures/box-open.svg",
                                             "box.glb"}));
  EXPECT_TRUE(made.found.empty());
}

TEST(BoxPictures, are_taken_from_an_earlier_run_byte_for_byte) {
  Shown made;
  Shelf cache;
  const auto first = box_pictures(made.work, made.shelf, &cache, made.found);
  EXPECT_EQ(cache.puts, 5);
  const auto again = box_pictures(made.work, made.shelf, &cache, made.found);
  EXPECT_EQ(cache.puts, 5);
  const auto fresh = box_pictures(made.work, made.shelf, nullptr, made.found);
  for (std::size_t i = 0; i < first.size(); ++i) {
    EXPECT_EQ(first[i].bytes, again[i].bytes) << first[i].path;
    EXPECT_EQ(first[i].bytes, fresh[i].bytes) << first[i].path;
  }
  made.work.looks = "other looks";
  (void)box_pictures(made.work, made.shelf, &cache, made.found);
  EXPECT_EQ(cache.puts, 10);
}

TEST(BoxPictures, are_as_wide_as_said_and_clear_at_their_corners) {
  Shown made;
  const Raster raster = pixels_of(drawn(pieces::closed_stage(made.box), made.work.look),
                                  box_picture_pixels, made.shelf, made.found);
  EXPECT_EQ(raster.width, box_picture_pixels);
  EXPECT_EQ(raster.pixels.front(), 0U);
  EXPECT_EQ(raster.pixels.back(), 0U);
  const int middle = raster.height / 2 * raster.width + raster.width / 2;
  EXPECT_EQ(raster.pixels[static_cast<std::size_t>(middle)] >> 24, 255U);
}

/// How far two pixels differ, the most of their parts.
int difference(std::uint32_t a, std::uint32_t b) {
  int most = 0;
  for (const int shift : {0, 8, 16}) {
    most = std::max(most, std::abs(static_cast<int>((a >> shift) & 255) -
                                   static_cast<int>((b >> shift) & 255)));
  }
  return most;
}

TEST(BoxPictures, show_no_seam_where_art_goes_on_over_a_crease) {
  // Round the crease between front and right side of a box in one colour, pixels go from the
  // front's to the side's and are never lighter or darker than both by more than two of 255.
  Shown made;
  const Raster raster = pixels_of(drawn(pieces::closed_stage(made.box), made.work.look),
                                  box_picture_pixels, made.shelf, made.found);
  const int y = raster.height / 2;
  const auto at = [&](int x) {
    return raster.pixels[static_cast<std::size_t>(y * raster.width + x)];
  };
  int crease = 0;
  for (int x = raster.width / 4; x < raster.width - 30; ++x) {
    if (at(x + 20) >> 24 == 255 && difference(at(x), at(x + 20)) > 8) {
      crease = x + 10;
      break;
    }
  }
  ASSERT_GT(crease, 0);
  const std::uint32_t front = at(crease - 20), side = at(crease + 20);
  for (int x = crease - 20; x <= crease + 20; ++x) {
    for (const int shift : {0, 8, 16}) {
      const auto part = [&](std::uint32_t pixel) {
        return static_cast<int>((pixel >> shift) & 255);
      };
      EXPECT_LE(part(at(x)), std::max(part(front), part(side)) + 2) << x - crease;
      EXPECT_GE(part(at(x)), std::min(part(front), part(side)) - 2) << x - crease;
    }
  }
}

TEST(BoxBand, is_just_as_wide_as_the_sheet_it_joins) {
  Shown made;
  for (const int width : {3300, 1234}) {
    EXPECT_EQ(box_band(made.work, width, white, made.shelf, made.found).width, width);
  }
}

std::string text_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

TEST(BoxPictures, of_plain_boxes_are_as_they_were_looked_at) {
  MemoryWorld world;
  PictureShelf shelf(world);
  for (const pieces::BoxKind& kind : pieces::box_kinds()) {
    const Box box = pieces::sample_box(kind.word, 20, {Mm{57}, Mm{87}});
    const pieces::BoxPicture picture = drawn(pieces::closed_stage(box), {box, {}, nullptr, {}});
    const auto svg = write_svg({"Sample", picture.bounds, picture.scene}, {Layer::art}, shelf);
    ASSERT_TRUE(svg);
    const fs::path expected =
        fs::path(QUOIN_SOURCE_DIR "/tests/cases/box") / (std::string(kind.word) + ".svg");
    if (std::getenv("QUOIN_ACCEPT") != nullptr) std::ofstream(expected, std::ios::binary) << *svg;
    EXPECT_TRUE(text_of(expected) == *svg)
        << kind.word << ": run with QUOIN_ACCEPT=1 to accept, then look at the change";
  }
}

}  // namespace
}  // namespace quoin::pack
