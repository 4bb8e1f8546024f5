#include "pack/previews.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>

#include "base/world.h"

namespace quoin::pack {
namespace {

constexpr const char* broken_jpeg_path = "art/broken.jpg";

/// A picture that says it is a JPEG of 30 x 20 px and whose bytes are none: as when a file was
/// changed by a fault of the disk after it was opened.
PicturePtr broken() {
  PictureFacts facts;
  facts.format = PictureFormat::jpeg;
  facts.width = 30;
  facts.height = 20;
  return std::make_shared<const Picture>(broken_jpeg_path, "broken",
                                         std::make_shared<const Bytes>("no JPEG"), facts, Bytes{});
}

Scene showing(const PicturePtr& picture, int times) {
  Scene scene;
  for (int i = 0; i < times; ++i) {
    const Rect box{{Mm{i * 5.0}, 5_mm}, {4_mm, 4_mm}};
    Item item;
    item.what = PictureItem{picture, box, box};
    scene.items.push_back(item);
  }
  return scene;
}

std::string said(const Diagnostics& found) {
  std::string all;
  for (const Diagnostic& one : found) {
    all += to_string(one.origin) + ": " + std::string(facts(one.id).name) + "\n";
  }
  return all;
}

TEST(Preview, tells_of_a_picture_that_cannot_be_drawn_once) {
  const MemoryWorld world;
  PictureShelf shelf(world);
  Diagnostics found;
  const Raster face = preview(showing(broken(), 3), {63.5_mm, 88.9_mm}, Mm{3}, shelf, found);
  EXPECT_GT(face.width, 300);
  EXPECT_EQ(said(found), "art/broken.jpg: picture.damaged\n");
}

TEST(Previews, tell_of_a_picture_once_however_many_faces_show_it) {
  const MemoryWorld world;
  PictureShelf shelf(world);
  Typesetter typesetter({});
  std::string folder = (std::filesystem::temp_directory_path() / "quoin-previews-XXXXXX").string();
  ASSERT_NE(::mkdtemp(folder.data()), nullptr);
  {
    Result<Staging> staging = Staging::begin(folder + "/pack");
    ASSERT_TRUE(staging.ok());
    const game::CardFormat format;
    Previews previews(format, shelf, typesetter, *staging, nullptr);
    Diagnostics found;
    for (const char* id : {"a", "b", "c"}) {
      previews.add({std::string("cards/") + id, id, ""}, showing(broken(), 2), found);
    }
    previews.finish({}, found);
    EXPECT_EQ(said(found), "art/broken.jpg: picture.damaged\n");
    EXPECT_EQ(staging->files().size(), 4U) << "three faces and the sheet";
  }
  std::filesystem::remove_all(folder);
}

}  // namespace
}  // namespace quoin::pack
