#include <gtest/gtest.h>
#include <png.h>

#include <algorithm>
#include <cstring>
#include <random>
#include <stdexcept>
#include <string_view>

#include "formats/png/png.h"

namespace quoin {
namespace {

Raster noise(int width, int height, std::uint32_t alpha) {
  Raster raster{width, height, {}};
  std::minstd_rand random(7);
  for (int i = 0; i < width * height; ++i) {
    std::uint32_t pixel = alpha << 24;
    for (const int shift : {0, 8, 16}) {
      pixel |= static_cast<std::uint32_t>(random() % (alpha + 1)) << shift;
    }
    raster.pixels.push_back(pixel);
  }
  return raster;
}

/// What libpng, the reference implementation of ISO/IEC 15948, reads: RGBA bytes.
std::vector<std::uint8_t> read_back(const Bytes& png, unsigned& width, unsigned& height) {
  png_image image;
  std::memset(&image, 0, sizeof image);
  image.version = PNG_IMAGE_VERSION;
  EXPECT_TRUE(png_image_begin_read_from_memory(&image, png.data(), png.size())) << image.message;
  image.format = PNG_FORMAT_RGBA;
  std::vector<std::uint8_t> pixels(PNG_IMAGE_SIZE(image));
  EXPECT_TRUE(png_image_finish_read(&image, nullptr, pixels.data(), 0, nullptr));
  EXPECT_EQ(image.warning_or_error, 0u) << image.message;
  width = image.width;
  height = image.height;
  return pixels;
}

std::string_view chunk(const Bytes& png, std::string_view type) {
  const std::size_t at = png.find(type);
  if (at == Bytes::npos) return {};
  const auto length = static_cast<unsigned char>(png[at - 1]);
  return std::string_view(png).substr(at + 4, length);
}

TEST(WritePng, gives_the_reference_reader_the_same_opaque_pixels) {
  const Raster raster = noise(37, 23, 255);
  unsigned width = 0, height = 0;
  const std::vector<std::uint8_t> pixels = read_back(write_png(raster, 300), width, height);
  ASSERT_EQ(width, 37u);
  ASSERT_EQ(height, 23u);
  for (std::size_t i = 0; i < raster.pixels.size(); ++i) {
    const std::uint32_t word = raster.pixels[i];
    EXPECT_EQ(pixels[4 * i], word >> 16 & 0xff);
    EXPECT_EQ(pixels[4 * i + 1], word >> 8 & 0xff);
    EXPECT_EQ(pixels[4 * i + 2], word & 0xff);
    EXPECT_EQ(pixels[4 * i + 3], 255);
  }
}

TEST(WritePng, divides_premultiplied_pixels_out_to_the_nearest_step) {
  const Raster raster{3, 1, {0x80402000, 0x00000000, 0xff010203}};
  unsigned width = 0, height = 0;
  const std::vector<std::uint8_t> pixels = read_back(write_png(raster, 300), width, height);
  const std::vector<std::uint8_t> expected{128, 64, 0, 128, 0, 0, 0, 0, 1, 2, 3, 255};
  EXPECT_EQ(pixels, expected);
}

TEST(WritePng, comes_back_to_the_same_premultiplied_words) {
  const Raster raster = noise(40, 9, 91);
  unsigned width = 0, height = 0;
  const std::vector<std::uint8_t> pixels = read_back(write_png(raster, 300), width, height);
  for (std::size_t i = 0; i < raster.pixels.size(); ++i) {
    const auto again = [&](std::size_t part) { return (pixels[4 * i + part] * 91 + 127) / 255; };
    EXPECT_EQ(again(0), static_cast<int>(raster.pixels[i] >> 16 & 0xff));
    EXPECT_EQ(again(2), static_cast<int>(raster.pixels[i] & 0xff));
  }
}

TEST(WritePng, is_read_again_just_as_it_was) {
  Raster raster{256, 256, {}};  // every part of every alpha
  for (std::uint32_t alpha = 0; alpha < 256; ++alpha) {
    for (std::uint32_t part = 0; part < 256; ++part) {
      const std::uint32_t fits = std::min(part, alpha);
      raster.pixels.push_back(alpha << 24 | fits << 16 | (alpha - fits) << 8 | fits / 2);
    }
  }
  const Bytes png = write_png(raster, 150);
  const std::optional<Raster> again = read_png(png);
  ASSERT_TRUE(again);
  EXPECT_EQ(again->width, 256);
  EXPECT_EQ(again->pixels, raster.pixels);
  EXPECT_FALSE(read_png(png.substr(0, png.size() / 2)));
}

TEST(WritePng, joins_bands_to_the_picture_that_they_were_cut_from) {
  const Raster whole = noise(61, 50, 255);
  std::vector<PngBand> bands;
  for (const auto& [from, to] : {std::pair{0, 20}, {20, 21}, {21, 50}}) {
    Raster part{61, to - from, {}};
    part.pixels.assign(whole.pixels.begin() + 61 * from, whole.pixels.begin() + 61 * to);
    bands.push_back(write_band(part));
  }
  const Bytes png = join_bands(bands, 150);
  unsigned width = 0, height = 0;
  const std::vector<std::uint8_t> pixels = read_back(png, width, height);
  EXPECT_EQ(pixels, read_back(write_png(whole, 150), width, height));
  EXPECT_EQ(height, 50u);
  const std::optional<Raster> again = read_png(png);  // looks at the sum of the rows as well
  ASSERT_TRUE(again);
  EXPECT_EQ(again->pixels, whole.pixels);
  bands[1].sum ^= 1;
  EXPECT_FALSE(read_png(join_bands(bands, 150)));
  EXPECT_THROW((void)join_bands({}, 150), std::logic_error);
  EXPECT_THROW((void)join_bands({bands[0], write_band(noise(60, 2, 255))}, 150), std::logic_error);
  EXPECT_THROW((void)write_band(noise(4, 4, 254)), std::logic_error);
}

TEST(WritePng, says_that_it_is_srgb_and_how_large_it_prints) {
  const Bytes png = write_png(noise(4, 4, 255), 300);
  EXPECT_EQ(chunk(png, "sRGB"), std::string_view("\0", 1));
  // 300 / 0.0254 = 11811.02 pixels a metre = 0x00002e23.
  EXPECT_EQ(chunk(png, "pHYs"), std::string_view("\0\0\x2e\x23\0\0\x2e\x23\x01", 9));
  EXPECT_EQ(chunk(png, "gAMA"), std::string_view("\0\0\xb1\x8f", 4));
}

TEST(WritePng, leaves_alpha_out_of_an_opaque_picture) {
  EXPECT_EQ(write_png(noise(4, 4, 255), 300)[25], 2);
  EXPECT_EQ(write_png(noise(4, 4, 254), 300)[25], 6);
}

TEST(WritePng, gives_the_same_bytes_each_time) {
  const Raster raster = noise(50, 50, 200);
  EXPECT_EQ(write_png(raster, 150), write_png(raster, 150));
}

TEST(WritePng, refuses_a_raster_that_is_not_what_it_says) {
  EXPECT_THROW((void)write_png({2, 2, {0}}, 300), std::logic_error);
  EXPECT_THROW((void)write_png({0, 0, {}}, 300), std::logic_error);
}

}  // namespace
}  // namespace quoin
