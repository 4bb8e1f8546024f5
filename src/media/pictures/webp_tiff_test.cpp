#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "media/pictures/samples.h"
#include "media/pictures/tiff.h"
#include "media/pictures/webp.h"

namespace quoin::pictures {
namespace {

using samples::TiffKind;
using samples::WebpKind;

TEST(Webp, decodes_lossless_pixels_exactly) {
  const Bytes bytes = samples::webp(WebpKind::lossless_with_alpha, 10, 6);
  const auto bitmap = decode_webp({"a.webp", bytes});
  ASSERT_TRUE(bitmap.ok());
  ASSERT_TRUE(bitmap->has_alpha);
  const std::uint8_t* left = bitmap->samples.data() + (2 * 10 + 3) * 4;
  EXPECT_THAT(std::vector<int>(left, left + 4), testing::ElementsAre(21, 18, 5, 100));
  const std::uint8_t* right = bitmap->samples.data() + (2 * 10 + 7) * 4;
  EXPECT_THAT(std::vector<int>(right, right + 4), testing::ElementsAre(49, 18, 9, 255));
}

TEST(Webp, knows_whether_it_has_alpha) {
  EXPECT_FALSE(look_at_webp({"a.webp", samples::webp(WebpKind::lossy, 10, 6)})->facts.has_alpha);
  EXPECT_TRUE(look_at_webp({"a.webp", samples::webp(WebpKind::lossless_with_alpha, 10, 6)})
                  ->facts.has_alpha);
}

TEST(Webp, shows_the_first_frame_of_an_animation_in_its_place) {
  const Bytes bytes = samples::animated_webp(6, 5);
  const auto look = look_at_webp({"a.webp", bytes});
  ASSERT_TRUE(look.ok());
  EXPECT_EQ(look->facts.width, 10);
  EXPECT_EQ(look->facts.height, 9);
  EXPECT_EQ(look->remarks.front().message,
            "a.webp is an animation; only its first frame is printed");
  const auto bitmap = decode_webp({"a.webp", bytes});
  ASSERT_TRUE(bitmap.ok());
  EXPECT_EQ(bitmap->samples[3], 0) << "the corner is not clear";
  const std::uint8_t* p = bitmap->samples.data() + ((2 + 1) * 10 + 2 + 3) * 4;
  EXPECT_THAT(std::vector<int>(p, p + 4), testing::ElementsAre(21, 9, 4, 255));
}

TEST(Webp, is_damaged_when_it_is_cut) {
  const Bytes bytes = samples::webp(WebpKind::lossy, 60, 40);
  const auto look = look_at_webp({"a.webp", std::string_view(bytes).substr(0, bytes.size() / 2)});
  ASSERT_FALSE(look.ok());
  EXPECT_EQ(look.why().front().message, "a.webp is damaged: it ends at byte " +
                                            std::to_string(bytes.size() / 2) + " of " +
                                            std::to_string(bytes.size()));
}

TEST(Webp, finds_garbled_pixels_when_it_decodes) {
  Bytes bytes = samples::webp(WebpKind::lossless, 60, 40);
  std::fill(bytes.begin() + 40, bytes.end(), '\xff');
  EXPECT_EQ(decode_webp({"a.webp", bytes}).why().front().message,
            "a.webp is damaged: its pixel data is cut short or garbled");
}

/// The channels at (x, y).
std::vector<int> at(const Bitmap& bitmap, int x, int y) {
  const std::uint8_t* p = bitmap.samples.data() + (y * bitmap.width + x) * bitmap.channels();
  return {p, p + bitmap.channels()};
}

TEST(Tiff, decodes_every_kind_exactly) {
  for (const TiffKind kind : {TiffKind::grey, TiffKind::rgb, TiffKind::rgb_16, TiffKind::cmyk,
                              TiffKind::cmyk_16, TiffKind::cmyk_planes, TiffKind::cmyk_tiles}) {
    const Bytes bytes = samples::tiff({.kind = kind});
    const auto look = look_at_tiff({"a.tif", bytes});
    ASSERT_TRUE(look.ok()) << look.why().front().message;
    const auto bitmap = decode_tiff({"a.tif", bytes});
    ASSERT_TRUE(bitmap.ok()) << bitmap.why().front().message;
    EXPECT_EQ(bitmap->model, look->facts.model);
    for (const auto& [x, y] : {std::pair{0, 0}, {19, 11}, {17, 3}, {3, 9}}) {
      std::vector<int> expected;
      for (int c = 0; c < bitmap->channels(); ++c) expected.push_back(samples::tiff_value(x, y, c));
      EXPECT_EQ(at(*bitmap, x, y), expected) << "kind " << int(kind) << " at " << x << ", " << y;
    }
  }
}

TEST(Tiff, keeps_alpha_apart_from_the_colours) {
  const auto bitmap = decode_tiff({"a.tif", samples::tiff({.kind = TiffKind::rgba})});
  ASSERT_TRUE(bitmap.ok());
  ASSERT_TRUE(bitmap->has_alpha);
  const std::vector<int> here = at(*bitmap, 2, 3);
  const int alpha = samples::tiff_value(2, 3, 3);
  EXPECT_EQ(here[3], alpha);
  for (int c = 0; c < 3; ++c) {
    // The decoder multiplies by alpha in between, in whole numbers.
    EXPECT_NEAR(here[c], samples::tiff_value(2, 3, c), 255 / alpha + 1);
  }
}

TEST(Tiff, leaves_the_stored_rows_as_they_are_whatever_the_orientation) {
  for (int orientation = 1; orientation <= 8; ++orientation) {
    const Bytes bytes = samples::tiff({.orientation = orientation});
    const auto bitmap = decode_tiff({"a.tif", bytes});
    ASSERT_TRUE(bitmap.ok());
    EXPECT_EQ(look_at_tiff({"a.tif", bytes})->facts.exif_orientation, orientation);
    EXPECT_EQ(at(*bitmap, 4, 2)[0], samples::tiff_value(4, 2, 0)) << orientation;
  }
}

TEST(Tiff, uses_the_first_page_and_says_so) {
  const auto look = look_at_tiff({"a.tif", samples::tiff({.pages = 2})});
  ASSERT_TRUE(look.ok());
  EXPECT_EQ(look->remarks.front().message,
            "a.tif is a file of several pages; only its first page is printed");
}

TEST(Tiff, keeps_its_profile) {
  const Bytes bytes = samples::tiff({.kind = TiffKind::cmyk, .profile = samples::cmyk_profile()});
  EXPECT_TRUE(look_at_tiff({"a.tif", bytes})->facts.has_profile);
  EXPECT_EQ(decode_tiff({"a.tif", bytes})->profile, samples::cmyk_profile());
}

TEST(Tiff, finds_strips_beyond_its_end) {
  // libtiff writes the strips first and the directory last: moving the end moves nothing else.
  Bytes bytes = samples::tiff({.width = 64, .height = 5, .kind = TiffKind::grey});
  const std::size_t entry = bytes.find(Bytes("\x11\x01", 2));  // StripOffsets
  ASSERT_NE(entry, Bytes::npos);
  bytes[entry + 10] = '\x7f';
  EXPECT_THAT(look_at_tiff({"a.tif", bytes}).why().front().message,
              testing::StartsWith("a.tif is damaged: part 1 of its 1 parts lies beyond its end"));
}

TEST(Tiff, is_damaged_when_it_is_cut) {
  const Bytes bytes = samples::tiff({});
  const auto look = look_at_tiff({"a.tif", std::string_view(bytes).substr(0, bytes.size() / 2)});
  ASSERT_FALSE(look.ok());
  EXPECT_THAT(look.why().front().message,
              testing::StartsWith("a.tif is damaged: its directory is not sound"));
}

TEST(Tiff, finds_garbled_pixels_when_it_decodes) {
  Bytes bytes = samples::tiff({.width = 200, .height = 100});
  std::fill(bytes.begin() + 20, bytes.begin() + 400, '\xff');
  const auto bitmap = decode_tiff({"a.tif", bytes});
  ASSERT_FALSE(bitmap.ok());
  EXPECT_EQ(bitmap.why().front().id, Id::picture_damaged);
}

}  // namespace
}  // namespace quoin::pictures
