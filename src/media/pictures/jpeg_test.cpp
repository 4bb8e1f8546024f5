#include "media/pictures/jpeg.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>

#include "media/pictures/samples.h"

namespace quoin::pictures {
namespace {

using samples::JpegKind;

/// The channels of the first pixel, each within 3 of what was written (JPEG loses a little).
void expect_flat(const Bytes& bytes, const std::vector<int>& expected) {
  const Result<Bitmap> bitmap = decode_jpeg({"a.jpg", bytes});
  ASSERT_TRUE(bitmap.ok());
  ASSERT_EQ(static_cast<std::size_t>(bitmap->channels()), expected.size());
  for (std::size_t c = 0; c < expected.size(); ++c) {
    EXPECT_NEAR(bitmap->samples[c], expected[c], 3) << "channel " << c;
  }
}

TEST(Jpeg, decodes_grey_rgb_and_cmyk) {
  expect_flat(samples::jpeg({.kind = JpegKind::grey, .flat = {77}}), {77});
  expect_flat(samples::jpeg({.kind = JpegKind::ycc, .flat = {200, 100, 40}}), {200, 100, 40});
  expect_flat(samples::jpeg({.kind = JpegKind::rgb, .flat = {200, 100, 40}}), {200, 100, 40});
  expect_flat(samples::jpeg({.progressive = true, .flat = {200, 100, 40}}), {200, 100, 40});
  expect_flat(samples::jpeg({.arithmetic = true, .flat = {200, 100, 40}}), {200, 100, 40});
}

TEST(Jpeg, decodes_at_a_part_of_its_size_sides_rounded_up) {
  const Bytes bytes = samples::jpeg({.width = 41, .height = 24, .flat = {200, 100, 40}});
  for (const auto& [eighths, width, height] :
       {std::array{8, 41, 24}, {4, 21, 12}, {2, 11, 6}, {1, 6, 3}}) {
    const Result<Bitmap> bitmap = decode_jpeg({"a.jpg", bytes}, static_cast<unsigned>(eighths));
    ASSERT_TRUE(bitmap.ok());
    EXPECT_EQ(bitmap->width, width);
    EXPECT_EQ(bitmap->height, height);
    EXPECT_NEAR(bitmap->samples[0], 200, 3);
  }
}

TEST(Jpeg, turns_inverted_inks_the_right_way_round) {
  // With an Adobe marker 255 means no ink; without one, full ink.
  expect_flat(samples::jpeg({.kind = JpegKind::cmyk, .flat = {255, 155, 55, 205}}),
              {0, 100, 200, 50});
  expect_flat(samples::jpeg({.kind = JpegKind::ycck, .flat = {255, 155, 55, 205}}),
              {0, 100, 200, 50});
  expect_flat(samples::jpeg({.kind = JpegKind::cmyk_without_adobe, .flat = {0, 100, 200, 50}}),
              {0, 100, 200, 50});
}

TEST(Jpeg, passes_its_bytes_on_untouched) {
  for (const JpegKind kind : {JpegKind::grey, JpegKind::ycc, JpegKind::cmyk, JpegKind::ycck,
                              JpegKind::cmyk_without_adobe}) {
    const Bytes bytes = samples::jpeg({.kind = kind});
    const auto own = jpeg_as_stored({"a.jpg", bytes});
    ASSERT_TRUE(own.ok() && own->has_value());
    EXPECT_EQ((*own)->data, bytes);
    EXPECT_EQ((*own)->filter, PreparedImage::Filter::dct);
    EXPECT_EQ((*own)->inverted, kind == JpegKind::cmyk || kind == JpegKind::ycck);
    EXPECT_EQ((*own)->model, kind == JpegKind::grey  ? ColourModel::grey
                             : kind == JpegKind::ycc ? ColourModel::rgb
                                                     : ColourModel::cmyk);
  }
}

TEST(Jpeg, is_decoded_where_pdf_readers_would_differ) {
  for (const Bytes& bytes :
       {samples::jpeg({.kind = JpegKind::rgb}), samples::jpeg({.arithmetic = true})}) {
    const auto own = jpeg_as_stored({"a.jpg", bytes});
    ASSERT_TRUE(own.ok());
    EXPECT_FALSE(own->has_value());
  }
}

TEST(Jpeg, puts_a_profile_together_from_its_segments) {
  const Bytes profile = samples::cmyk_profile();
  ASSERT_GT(profile.size(), 2000U) << "too small to be split";
  const Bytes bytes = samples::jpeg({.kind = JpegKind::cmyk, .profile = profile});
  const auto look = look_at_jpeg({"a.jpg", bytes});
  ASSERT_TRUE(look.ok());
  EXPECT_TRUE(look->facts.has_profile);
  EXPECT_EQ((*jpeg_as_stored({"a.jpg", bytes}))->profile, profile);
}

TEST(Jpeg, says_when_its_profile_is_for_other_pixels) {
  const Bytes bytes =
      samples::jpeg({.kind = JpegKind::grey, .profile = samples::swapped_rgb_profile()});
  const auto look = look_at_jpeg({"art/a.jpg", bytes});
  ASSERT_TRUE(look.ok());
  EXPECT_FALSE(look->facts.has_profile);
  ASSERT_EQ(look->remarks.size(), 1U);
  EXPECT_EQ(look->remarks.front().message,
            "art/a.jpg is printed as plain grey: its colour profile is for RGB pixels and the "
            "picture is grey");
}

TEST(Jpeg, has_the_size_it_has_upright) {
  for (int orientation = 1; orientation <= 8; ++orientation) {
    const Bytes bytes = samples::jpeg({.orientation = orientation});
    const auto look = look_at_jpeg({"a.jpg", bytes});
    ASSERT_TRUE(look.ok());
    EXPECT_EQ(look->facts.exif_orientation, orientation);
    EXPECT_EQ(look->facts.width, orientation < 5 ? 24 : 16);
    EXPECT_EQ(look->facts.height, orientation < 5 ? 16 : 24);
  }
}

TEST(Jpeg, is_damaged_wherever_it_is_cut) {
  const Bytes bytes = samples::jpeg({});
  for (std::size_t size = 3; size < bytes.size(); size += 5) {
    const auto look = look_at_jpeg({"a.jpg", std::string_view(bytes).substr(0, size)});
    ASSERT_FALSE(look.ok()) << "cut after " << size;
    EXPECT_EQ(look.why().front().id, Id::picture_damaged);
  }
  EXPECT_EQ(look_at_jpeg({"a.jpg", std::string_view(bytes).substr(0, bytes.size() - 2)})
                .why()
                .front()
                .message,
            "a.jpg is damaged: it ends at byte " + std::to_string(bytes.size() - 2) +
                ", before the picture does");
}

TEST(Jpeg, finds_coded_pixels_that_were_lost) {
  const Bytes bytes = samples::jpeg({.width = 200, .height = 200});
  const std::size_t scan = bytes.find("\xff\xda") + 14;
  // The first third of the coded pixels, and then at once the end of the picture.
  const Bytes cut = bytes.substr(0, scan + (bytes.size() - scan) / 3) + "\xff\xd9";
  EXPECT_TRUE(look_at_jpeg({"a.jpg", cut}).ok());
  for (const Diagnostics& why :
       {jpeg_as_stored({"a.jpg", cut}).why(), decode_jpeg({"a.jpg", cut}).why()}) {
    EXPECT_EQ(why.front().id, Id::picture_damaged);
    EXPECT_THAT(why.front().message,
                testing::StartsWith("a.jpg is damaged: its pixels are garbled"));
    EXPECT_THAT(why.front().details,
                testing::ElementsAre("the decoder says: Corrupt JPEG data: premature end of data "
                                     "segment"));
  }
}

TEST(Jpeg, refuses_absurd_sizes_from_the_header) {
  Bytes bytes = samples::jpeg({});
  const std::size_t frame = bytes.find("\xff\xc0");
  bytes[frame + 5] = bytes[frame + 7] = '\x80';  // 32,784 rows of 32,792 px
  EXPECT_EQ(look_at_jpeg({"a.jpg", bytes}).why().front().id, Id::picture_too_large);
}

TEST(Jpeg, refuses_storage_that_it_cannot_read) {
  Bytes bytes = samples::jpeg({});
  const std::size_t frame = bytes.find("\xff\xc0");
  bytes[frame + 4] = 12;
  EXPECT_EQ(look_at_jpeg({"a.jpg", bytes}).why().front().message,
            "a.jpg is stored as a JPEG with 12 bits a sample, which Quoin does not read");
  bytes[frame + 4] = 8;
  bytes[frame + 1] = '\xc3';
  EXPECT_EQ(look_at_jpeg({"a.jpg", bytes}).why().front().message,
            "a.jpg is stored as a lossless or layered JPEG, which Quoin does not read");
}

TEST(Jpeg, refuses_endlessly_repeated_scans) {
  const Bytes bytes = samples::jpeg({.width = 64, .height = 64, .progressive = true});
  const std::size_t last = bytes.rfind("\xff\xda");
  const Bytes scan = bytes.substr(last, bytes.size() - 2 - last);
  Bytes many = bytes.substr(0, bytes.size() - 2);
  for (int i = 0; i < 600; ++i) many += scan;
  const auto look = look_at_jpeg({"a.jpg", many + "\xff\xd9"});
  ASSERT_FALSE(look.ok());
  EXPECT_EQ(look.why().front().message, "a.jpg repeats its 64 x 64 px more than 500 times");
}

}  // namespace
}  // namespace quoin::pictures
