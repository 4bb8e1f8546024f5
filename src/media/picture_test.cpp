#include "media/picture.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <thread>

#include "base/hash.h"
#include "media/pictures/samples.h"

namespace quoin {
namespace {

using namespace pictures;

const Origin asked{FileName("cards.csv"), 31, 13, 13};

/// The whole of a finding as the tests read it.
std::string told(const Diagnostic& d) {
  std::string text = std::string(facts(d.id).name) + ": " + d.message;
  for (const std::string& line : d.details) text += "\n  " + line;
  for (const std::string& line : d.hints) text += "\n  hint: " + line;
  return text;
}

std::string why_not(const World& world, const std::string& path) {
  PictureShelf shelf(world);
  Diagnostics found;
  const Result<PicturePtr> picture = shelf.open(path, asked, found);
  if (picture) return "it opens";
  EXPECT_EQ(picture.why().size(), 1U);
  EXPECT_EQ(picture.why().front().origin, asked);
  return told(picture.why().front());
}

TEST(PictureShelf, knows_the_facts_of_what_it_opens) {
  const Bytes bytes = samples::png({.width = 20, .height = 10, .bits = 16, .colour_type = 6});
  const MemoryWorld world({{"art/a.png", bytes}});
  PictureShelf shelf(world);
  Diagnostics found;
  const auto picture = shelf.open("layouts/../art/a.png", asked, found);
  ASSERT_TRUE(picture.ok());
  EXPECT_TRUE(found.empty());
  EXPECT_EQ((*picture)->path(), "art/a.png");
  EXPECT_EQ((*picture)->key(), sha256(bytes));
  EXPECT_EQ((*picture)->facts().format, PictureFormat::png);
  EXPECT_EQ((*picture)->facts().width, 20);
  EXPECT_EQ((*picture)->facts().height, 10);
  EXPECT_EQ((*picture)->facts().bits, 16);
  EXPECT_TRUE((*picture)->facts().has_alpha);
  EXPECT_FALSE((*picture)->facts().is_vector());
}

TEST(PictureShelf, opens_each_file_once) {
  const MemoryWorld world({{"a.png", samples::png({})}});
  PictureShelf shelf(world);
  Diagnostics found;
  EXPECT_EQ(*shelf.open("a.png", asked, found), *shelf.open("./a.png", asked, found));
}

TEST(PictureShelf, names_the_nearest_file_when_one_is_missing) {
  const MemoryWorld world({{"art/wrack.png", samples::png({})}, {"art/other.png", "x"}});
  EXPECT_EQ(why_not(world, "art/Wrack.PNG"),
            "picture.missing: there is no file art/Wrack.PNG\n  hint: there is art/wrack.png");
  EXPECT_EQ(why_not(world, "art/wrak.png"),
            "picture.missing: there is no file art/wrak.png\n  hint: there is art/wrack.png");
  EXPECT_EQ(why_not(world, "wrack.png"),
            "picture.missing: there is no file wrack.png\n  hint: there is art/wrack.png");
  EXPECT_EQ(why_not(world, "art/quite-another.png"),
            "picture.missing: there is no file art/quite-another.png");
}

TEST(PictureShelf, says_what_a_file_is_that_is_no_picture) {
  const MemoryWorld world(
      {{"page.png", "<!doctype html><html>"}, {"empty.jpg", ""}, {"x.png", Bytes(900, '\0')}});
  EXPECT_EQ(why_not(world, "page.png"),
            "picture.not-a-picture: page.png is no picture: it is a web page (HTML)\n"
            "  hint: save it as PNG, JPEG, WebP, TIFF or SVG");
  EXPECT_EQ(why_not(world, "empty.jpg"),
            "picture.not-a-picture: empty.jpg is no picture: it is an empty file\n"
            "  hint: save it as PNG, JPEG, WebP, TIFF or SVG");
  EXPECT_EQ(why_not(world, "x.png"),
            "picture.not-a-picture: x.png is no picture: it is a file of zero bytes only\n"
            "  hint: save it as PNG, JPEG, WebP, TIFF or SVG");
}

TEST(PictureShelf, refuses_what_lies_outside_the_game) {
  const MemoryWorld world;
  EXPECT_EQ(why_not(world, "../secret.png"),
            "picture.unreadable: ../secret.png lies outside the game folder\n"
            "  hint: copy the file into the game folder");
  EXPECT_EQ(why_not(world, "/etc/passwd"),
            "picture.unreadable: /etc/passwd lies outside the game folder\n"
            "  hint: copy the file into the game folder");
}

TEST(PictureShelf, warns_each_time_of_a_wrong_ending) {
  const MemoryWorld world({{"a.png", samples::jpeg({})}});
  PictureShelf shelf(world);
  for (int i = 0; i < 2; ++i) {
    Diagnostics found;
    ASSERT_TRUE(shelf.open("a.png", asked, found).ok());
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(told(found.front()),
              "picture.mislabelled: a.png holds a JPEG picture, not PNG\n"
              "  hint: give the file the ending .jpg");
    EXPECT_EQ(found.front().origin, asked);
    EXPECT_EQ(found.front().severity, Severity::warning);
  }
}

TEST(PictureShelf, gives_upright_pixels_at_full_and_at_halved_sizes) {
  const MemoryWorld world(
      {{"a.jpg",
        samples::jpeg({.width = 40, .height = 24, .orientation = 6, .flat = {200, 100, 40}})}});
  PictureShelf shelf(world);
  Diagnostics found;
  const PicturePtr picture = *shelf.open("a.jpg", asked, found);
  const auto full = *shelf.pixels(picture);
  EXPECT_EQ(full->width, 24);
  EXPECT_EQ(full->height, 40);
  const auto small = *shelf.pixels(picture, 6);
  EXPECT_EQ(small->width, 6);
  EXPECT_EQ(small->height, 10);
  EXPECT_NEAR(small->pixels.front() >> 16 & 0xff, 200, 3);
  EXPECT_EQ(small, *shelf.pixels(picture, 5)) << "not cached";
  EXPECT_EQ(full, *shelf.pixels(picture, 13)) << "narrower than was asked";
}

TEST(PictureShelf, gives_the_same_pixels_in_whatever_order_sizes_are_asked_for) {
  const MemoryWorld world({{"a.jpg", samples::jpeg({.width = 203, .height = 117})},
                           {"b.png", samples::png({.width = 77, .height = 45})}});
  Diagnostics found;
  for (const char* path : {"a.jpg", "b.png"}) {
    PictureShelf large_first(world), small_first(world);
    const PicturePtr one = *large_first.open(path, asked, found);
    const PicturePtr two = *small_first.open(path, asked, found);
    const auto small = *small_first.pixels(two, 9);
    (void)*large_first.pixels(one);
    EXPECT_EQ((*large_first.pixels(one, 9))->pixels, small->pixels) << path;
    EXPECT_EQ((*large_first.pixels(one))->pixels, (*small_first.pixels(two))->pixels) << path;
  }
}

TEST(PictureShelf, reports_damage_that_only_decoding_finds_at_the_file) {
  Bytes jpeg = samples::jpeg({.width = 200, .height = 200});
  const std::size_t scan = jpeg.find("\xff\xda") + 14;
  jpeg = jpeg.substr(0, scan + 40) + "\xff\xd9";
  const MemoryWorld world({{"art/a.jpg", jpeg}});
  PictureShelf shelf(world);
  Diagnostics found;
  const PicturePtr picture = *shelf.open("art/a.jpg", asked, found);
  for (const Diagnostics& why : {shelf.pixels(picture).why(), shelf.prepared(picture).why()}) {
    ASSERT_EQ(why.size(), 1U);
    EXPECT_EQ(why.front().id, Id::picture_damaged);
    EXPECT_EQ(why.front().origin, Origin{FileName("art/a.jpg")});
  }
}

TEST(PictureShelf, has_no_pixels_of_a_drawing) {
  MemoryWorld world;
  world.put("a.svg", "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 2 1'/>");
  PictureShelf shelf(world);
  Diagnostics found;
  const PicturePtr picture = *shelf.open("a.svg", asked, found);
  EXPECT_TRUE(picture->facts().is_vector());
  EXPECT_EQ(picture->facts().width, 2 * picture->facts().height);
  EXPECT_EQ(told(shelf.pixels(picture).why().front()),
            "picture.svg-no-pixels: a.svg is a drawing, and what uses it needs pixels\n"
            "  hint: save it as a PNG at 600 px an inch of its printed size");
  EXPECT_FALSE(shelf.prepared(picture).ok());
}

TEST(PictureShelf, keeps_prepared_images_between_runs) {
  const MemoryWorld world(
      {{"a.png", samples::png({.colour_type = 6})}, {"b.jpg", samples::jpeg({})}});
  samples::MemoryCache cache;
  SharedBytes first_data;
  for (int run = 0; run < 2; ++run) {
    PictureShelf shelf(world, &cache);
    Diagnostics found;
    const auto image = *shelf.prepared(*shelf.open("a.png", asked, found));
    if (run == 0) first_data = image->data;
    EXPECT_EQ(image->data, first_data);
    EXPECT_EQ((*shelf.prepared(*shelf.open("b.jpg", asked, found)))->data, samples::jpeg({}));
    EXPECT_EQ(cache.hits, 2 * run);
  }
  EXPECT_EQ(cache.kept.size(), 2U);
  for (const auto& [name, bytes] : cache.kept) {
    const bool is_jpeg = name.ends_with(sha256(samples::jpeg({})));
    EXPECT_EQ(bytes.size() < 32, is_jpeg) << "the file's own data was kept a second time";
  }
}

TEST(PictureShelf, ignores_damaged_cache_entries) {
  const MemoryWorld world({{"a.png", samples::png({.colour_type = 6})}});
  samples::MemoryCache cache;
  Diagnostics found;
  PictureShelf first(world, &cache);
  const SharedBytes data = (*first.prepared(*first.open("a.png", asked, found)))->data;
  for (auto& [name, bytes] : cache.kept) bytes[bytes.size() / 2] ^= 1;
  PictureShelf second(world, &cache);
  EXPECT_EQ((*second.prepared(*second.open("a.png", asked, found)))->data, data);
}

TEST(PictureShelf, answers_several_threads_with_the_same_pictures) {
  const MemoryWorld world({{"a.png", samples::png({.width = 300, .height = 300, .colour_type = 6})},
                           {"b.jpg", samples::jpeg({.width = 300, .height = 200})}});
  PictureShelf shelf(world);
  struct Got {
    PicturePtr picture;
    std::shared_ptr<const Raster> full, small;
    std::shared_ptr<const PreparedImage> prepared;
  };
  std::vector<Got> got(8);
  std::vector<std::thread> threads;
  for (std::size_t i = 0; i < got.size(); ++i) {
    threads.emplace_back([&, i] {
      Diagnostics found;
      Got& g = got[i];
      g.picture = *shelf.open(i % 2 == 0 ? "a.png" : "b.jpg", asked, found);
      g.small = *shelf.pixels(g.picture, 70);
      g.full = *shelf.pixels(g.picture);
      g.prepared = *shelf.prepared(g.picture);
    });
  }
  for (std::thread& thread : threads) thread.join();
  for (std::size_t i = 2; i < got.size(); ++i) {
    EXPECT_EQ(got[i].picture, got[i % 2].picture);
    EXPECT_EQ(got[i].full, got[i % 2].full);
    EXPECT_EQ(got[i].small, got[i % 2].small);
    EXPECT_EQ(got[i].prepared, got[i % 2].prepared);
  }
}

/// A folder on disk for one test.
class Folder {
 public:
  Folder()
      : path_(std::filesystem::temp_directory_path() / ("pictures-" + std::to_string(getpid()))) {
    std::filesystem::create_directories(path_ / "game");
  }
  ~Folder() { std::filesystem::remove_all(path_); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  void write(const std::string& name, const Bytes& bytes) const {
    std::ofstream(path_ / name, std::ios::binary) << bytes;
  }
  [[nodiscard]] std::filesystem::path operator/(const std::string& name) const {
    return path_ / name;
  }

 private:
  std::filesystem::path path_;
};

TEST(PictureShelf, refuses_links_that_lead_out_of_the_game) {
  const Folder folder;
  folder.write("secret.png", samples::png({}));
  folder.write("game/a.svg",
               "<svg xmlns='http://www.w3.org/2000/svg' xmlns:xlink='http://www.w3.org/1999/xlink' "
               "viewBox='0 0 9 9'><image xlink:href='out.png' width='9' height='9'/></svg>");
  std::filesystem::create_symlink(folder / "secret.png", folder / "game/out.png");
  const auto world = real_world((folder / "game").string());
  EXPECT_EQ(why_not(*world, "out.png"),
            "picture.unreadable: out.png lies outside the game folder\n"
            "  hint: copy the file into the game folder");
  PictureShelf shelf(*world);
  Diagnostics found;
  const auto picture = shelf.open("a.svg", asked, found);
  ASSERT_TRUE(picture.ok());
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found.front().message,
            "a.svg:1 asks for out.png, which will not load: out.png lies outside the game folder");
  EXPECT_EQ((*picture)->safe_svg().find("<image"), Bytes::npos);
}

}  // namespace
}  // namespace quoin
