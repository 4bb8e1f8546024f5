// Pictures against an independent program: what ImageMagick's convert writes, Quoin decodes, and
// what Quoin decodes is compared with convert's own reading of the same file, turned upright
// (-auto-orient) and taken to sRGB through the embedded profile (relative colorimetric with
// black-point compensation). Without convert on this machine these tests are skipped, and say so.
#include <gtest/gtest.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "media/picture.h"

namespace quoin {
namespace {

namespace fs = std::filesystem;

/// A folder that is gone when the test is.
class Folder {
 public:
  Folder() : path_(fs::temp_directory_path() / ("outside-pictures-" + std::to_string(getpid()))) {
    fs::create_directories(path_);
  }
  ~Folder() { fs::remove_all(path_); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  [[nodiscard]] std::string str() const { return path_.string(); }
  [[nodiscard]] Bytes read(const std::string& name) const {
    std::ifstream file(path_ / name, std::ios::binary);
    std::stringstream bytes;
    bytes << file.rdbuf();
    return bytes.str();
  }
  void write(const std::string& name, const Bytes& bytes) const {
    std::ofstream(path_ / name, std::ios::binary) << bytes;
  }

 private:
  fs::path path_;
};

class AgainstConvert : public testing::Test {
 protected:
  void SetUp() override {
    const std::string version = "convert -version 2>/dev/null | grep -q '^Version: ImageMagick'";
    if (std::system(version.c_str()) != 0) GTEST_SKIP() << "ImageMagick's convert is not here";
  }

  /// Runs convert in the folder; the arguments are this file's own, without anything to quote.
  void convert(const std::string& arguments) const {
    const std::string command = "cd '" + folder_.str() + "' && convert " + arguments;
    ASSERT_EQ(std::system(command.c_str()), 0) << command;
  }

  /// Both readings of the file `name`, and by how much they may differ in a channel.
  void expect_same_pixels(const std::string& name, int tolerance, const std::string& reading = "") {
    convert(name + " -auto-orient " + reading + " -depth 8 rgba:expected");
    const Bytes expected = folder_.read("expected");
    const auto world = real_world(folder_.str());
    PictureShelf shelf(*world);
    Diagnostics found;
    const auto picture = shelf.open(name, Origin{}, found);
    ASSERT_TRUE(picture.ok()) << picture.why().front().message;
    const auto raster = shelf.pixels(*picture);
    ASSERT_TRUE(raster.ok());
    ASSERT_EQ((*raster)->pixels.size() * 4, expected.size());
    int worst = 0;
    for (std::size_t i = 0; i < (*raster)->pixels.size(); ++i) {
      worst = std::max(worst, difference((*raster)->pixels[i], expected.data() + 4 * i));
    }
    EXPECT_LE(worst, tolerance) << name;
  }

  /// The largest difference in a channel; `straight` is RGBA, not premultiplied.
  static int difference(std::uint32_t premultiplied, const char* straight) {
    const auto channel = [&](int c) {
      return static_cast<int>(static_cast<unsigned char>(straight[c]));
    };
    const int alpha = channel(3);
    int worst = std::abs(static_cast<int>(premultiplied >> 24) - alpha);
    for (int c = 0; c < 3; ++c) {
      const int here = static_cast<int>(premultiplied >> (16 - 8 * c) & 0xff);
      worst = std::max(worst, std::abs(here - (channel(c) * alpha + 127) / 255));
    }
    return worst;
  }

  Folder folder_;
};

constexpr const char* art = "-size 37x23 plasma:tomato-steelblue -seed 7 ";

TEST_F(AgainstConvert, decodes_png_of_every_depth) {
  for (const char* kind :
       {"-depth 8", "-depth 16", "-colorspace Gray -depth 8", "-colorspace Gray -depth 16",
        "-interlace PNG -depth 8", "-interlace PNG -depth 16", "-monochrome",
        "-colors 4 -type Palette", "-colors 16 -type Palette -interlace PNG",
        "-alpha set -channel A -evaluate set 40% +channel"}) {
    SCOPED_TRACE(kind);
    convert(std::string(art) + kind + " art.png");
    expect_same_pixels("art.png", 1);
  }
}

TEST_F(AgainstConvert, turns_a_tiff_upright_by_its_tag) {
  for (const char* turn : {"TopLeft", "TopRight", "BottomRight", "BottomLeft", "LeftTop",
                           "RightTop", "RightBottom", "LeftBottom"}) {
    SCOPED_TRACE(turn);
    convert(std::string(art) + "-compress LZW -orient " + turn + " art.tif");
    expect_same_pixels("art.tif", 1);
  }
}

/// A minimal Exif segment (Exif 2.32: APP1, "Exif", TIFF header, one entry 0x0112).
Bytes exif_segment(char orientation) {
  Bytes segment(
      "\xff\xe1\0\x22"
      "Exif\0\0MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0",
      30);
  return segment + orientation + Bytes(5, '\0');
}

TEST_F(AgainstConvert, turns_a_jpeg_upright_by_its_exif_segment) {
  convert(std::string(art) + "-sampling-factor 1x1 -quality 95 plain.jpg");
  const Bytes plain = folder_.read("plain.jpg");
  for (char orientation = 1; orientation <= 8; ++orientation) {
    SCOPED_TRACE(int{orientation});
    folder_.write("art.jpg", plain.substr(0, 2) + exif_segment(orientation) + plain.substr(2));
    expect_same_pixels("art.jpg", 1);
  }
}

TEST_F(AgainstConvert, decodes_jpeg_webp_and_tiff) {
  for (const char* kind :
       {"-quality 90 art.jpg", "-quality 90 -interlace JPEG art.jpg",
        "-colorspace Gray -quality 90 art.jpg", "-define webp:lossless=true art.webp",
        "-alpha set -channel A -evaluate set 60% +channel -define webp:lossless=true art.webp",
        "-compress Zip -depth 16 art.tif", "-compress LZW -colorspace Gray art.tif",
        "-compress None -monochrome art.tif", "-colors 16 -type Palette art.tif"}) {
    SCOPED_TRACE(kind);
    convert(std::string(art) + kind);
    const std::string name(std::string(kind).substr(std::string(kind).rfind(' ') + 1));
    expect_same_pixels(name, name == "art.jpg" ? 2 : 1);
  }
}

/// Debian's ghostscript brings profiles; icc-profiles-free brings another of sRGB.
std::string first_there(const std::vector<std::string>& files) {
  for (const std::string& file : files) {
    if (fs::exists(file)) return file;
  }
  return {};
}

TEST_F(AgainstConvert, follows_embedded_profiles) {
  const std::string rgb = first_there({"/usr/share/color/icc/ghostscript/a98.icc"});
  const std::string cmyk = first_there({"/usr/share/color/icc/ghostscript/default_cmyk.icc"});
  const std::string srgb =
      first_there({"/usr/share/color/icc/ghostscript/srgb.icc", "/usr/share/color/icc/sRGB.icc"});
  if (rgb.empty() || cmyk.empty() || srgb.empty())
    GTEST_SKIP() << "no ICC profiles on this machine";
  const std::string to_srgb =
      "-intent relative -black-point-compensation -profile " + srgb + " -colorspace sRGB ";
  for (const char* name : {"art.png", "art.tif"}) {
    SCOPED_TRACE(name);
    convert(std::string(art) + "-depth 8 -profile " + rgb + " " + name);
    expect_same_pixels(name, 2, to_srgb);
  }
  for (const char* name : {"art.jpg", "art.tif"}) {
    SCOPED_TRACE(name);
    convert(std::string(art) + "-depth 8 -profile " + srgb + " -profile " + cmyk + " -quality 95 " +
            name);
    expect_same_pixels(name, 3, to_srgb);
  }
}

}  // namespace
}  // namespace quoin
