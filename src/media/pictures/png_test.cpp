#include "media/pictures/png.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "media/pictures/inflate.h"
#include "media/pictures/raster.h"
#include "media/pictures/samples.h"

namespace quoin::pictures {
namespace {

using samples::PngWishes;

/// The bitmap as 8-bit RGBA, as libpng gives it.
std::vector<std::uint8_t> rgba(const Bitmap& bitmap) {
  std::vector<std::uint8_t> out;
  const auto channels = static_cast<std::size_t>(bitmap.channels());
  for (std::size_t i = 0; i < bitmap.samples.size(); i += channels) {
    const std::uint8_t* p = bitmap.samples.data() + i;
    const bool grey = bitmap.model == ColourModel::grey;
    out.insert(out.end(), {p[0], grey ? p[0] : p[1], grey ? p[0] : p[2],
                           bitmap.has_alpha ? p[channels - 1] : std::uint8_t{255}});
  }
  return out;
}

/// Every combination of depth and colour type that PNG has (W3C PNG, table 11.1).
std::vector<PngWishes> all_kinds() {
  std::vector<PngWishes> kinds;
  const std::vector<std::pair<int, std::vector<int>>> depths = {
      {0, {1, 2, 4, 8, 16}}, {2, {8, 16}}, {3, {1, 2, 4, 8}}, {4, {8, 16}}, {6, {8, 16}}};
  for (const auto& [type, bits] : depths) {
    for (const int depth : bits) {
      for (const bool interlaced : {false, true}) {
        for (const bool keyed : {false, true}) {
          if (keyed && type >= 4) continue;
          kinds.push_back(
              {.bits = depth, .colour_type = type, .interlaced = interlaced, .keyed = keyed});
        }
      }
    }
  }
  return kinds;
}

TEST(Png, decodes_every_kind_as_its_reference_library_does) {
  for (const PngWishes& kind : all_kinds()) {
    const Bytes bytes = samples::png(kind);
    const Result<Bitmap> bitmap = decode_png({"a.png", bytes});
    SCOPED_TRACE(testing::Message()
                 << kind.bits << " bits, colour type " << kind.colour_type
                 << (kind.interlaced ? ", interlaced" : "") << (kind.keyed ? ", keyed" : ""));
    ASSERT_TRUE(bitmap.ok());
    EXPECT_EQ(rgba(*bitmap), samples::libpng_rgba(bytes));
    EXPECT_EQ(bitmap->has_alpha, kind.keyed || kind.colour_type >= 4);
  }
}

TEST(Png, decodes_interlaced_pictures_of_one_row_or_column) {
  for (const auto& [width, height] : {std::pair{1, 9}, {9, 1}, {1, 1}, {5, 2}}) {
    const Bytes bytes = samples::png({.width = width, .height = height, .interlaced = true});
    const Result<Bitmap> bitmap = decode_png({"a.png", bytes});
    ASSERT_TRUE(bitmap.ok());
    EXPECT_EQ(rgba(*bitmap), samples::libpng_rgba(bytes));
  }
}

TEST(Png, passes_on_its_data_where_pdf_reads_it) {
  for (const PngWishes& kind : all_kinds()) {
    const Bytes bytes = samples::png(kind);
    const auto own = png_as_stored({"a.png", bytes});
    ASSERT_TRUE(own.ok());
    const bool has_alpha = kind.keyed || kind.colour_type >= 4;
    ASSERT_EQ(own->has_value(), !kind.interlaced && !has_alpha);
    if (!own->has_value()) continue;
    const PreparedImage& image = **own;
    EXPECT_EQ(image.bits, kind.bits);
    EXPECT_EQ(image.png_predictor_colours, kind.colour_type == 2 ? 3 : 1);
    EXPECT_EQ(image.palette.size(), kind.colour_type == 3 ? std::size_t{3} << kind.bits : 0U);
    EXPECT_NE(bytes.find(image.data.view()), Bytes::npos) << "the data is not the file's own";
  }
}

TEST(Png, says_where_its_checksum_fails) {
  Bytes bytes = samples::png({});
  bytes[bytes.find("IDAT") + 10] ^= 0x40;
  const auto look = look_at_png({"art/wrack.png", bytes});
  ASSERT_FALSE(look.ok());
  EXPECT_EQ(look.why().front().message,
            "art/wrack.png is damaged: the checksum of the part at byte 33 does not match");
}

TEST(Png, is_damaged_wherever_it_is_cut) {
  const Bytes bytes = samples::png({});
  for (std::size_t size = 8; size < bytes.size(); ++size) {
    const auto look = look_at_png({"a.png", std::string_view(bytes).substr(0, size)});
    ASSERT_FALSE(look.ok()) << "cut after " << size;
    EXPECT_EQ(look.why().front().id, Id::picture_damaged);
  }
}

TEST(Png, finds_data_that_is_shorter_than_its_header_promises) {
  const Bytes small = samples::png({.width = 8, .height = 8});
  const auto own = png_as_stored({"small.png", small});
  ASSERT_TRUE(own.ok() && own->has_value());
  const Bytes lying = samples::bare_png(8, 9, 8, 2, Bytes((*own)->data.view()));
  EXPECT_TRUE(look_at_png({"art/lying.png", lying}).ok());
  for (const auto& why : {png_as_stored({"art/lying.png", lying}).why(),
                          decode_png({"art/lying.png", lying}).why()}) {
    EXPECT_EQ(why.front().message,
              "art/lying.png is damaged: its pixel data does not hold the 9 rows that it should");
  }
}

TEST(Png, finds_data_that_is_longer_than_its_header_promises) {
  const auto own = png_as_stored({"a.png", samples::png({.width = 8, .height = 8})});
  ASSERT_TRUE(own.ok() && own->has_value());
  EXPECT_FALSE(
      png_as_stored({"a.png", samples::bare_png(8, 7, 8, 2, Bytes((*own)->data.view()))}).ok());
}

TEST(Png, finds_rows_with_unknown_filters) {
  const Bytes data = samples::deflated_plainly(Bytes(28, '\x07'));  // 4 rows of 2 RGB pixels
  const Bytes bytes = samples::bare_png(2, 4, 8, 2, data);
  EXPECT_EQ(png_as_stored({"a.png", bytes}).why().front().message,
            "a.png is damaged: its rows are garbled");
}

TEST(Png, refuses_absurd_sizes_before_it_reads_the_data) {
  EXPECT_EQ(look_at_png({"a.png", samples::bare_png(60'000, 10, 8, 2, "x")}).why().front().message,
            "a.png is 60000 x 10 px; a side may have 50000 px at most");
  EXPECT_EQ(
      look_at_png({"a.png", samples::bare_png(20'000, 20'000, 8, 2, "x")}).why().front().message,
      "a.png is 20000 x 20000 px; that is 400 megapixels and 100 are read at most");
  EXPECT_EQ(look_at_png({"a.png", samples::bare_png(10'000, 9'000, 16, 6, "x")}).why().front().id,
            Id::picture_too_large);
  EXPECT_EQ(look_at_png({"a.png", samples::bare_png(0, 5, 8, 2, "x")}).why().front().message,
            "a.png is damaged: it says that it is 0 x 5 px");
}

TEST(Png, refuses_headers_that_png_does_not_have) {
  EXPECT_EQ(
      look_at_png({"a.png", samples::bare_png(2, 2, 4, 2, "x")}).why().front().message,
      "a.png is damaged: its header asks for 4 bits of colour type 2, which PNG does not have");
  EXPECT_EQ(look_at_png({"a.png", samples::with_chunk(samples::png({}), "CgBI", "1234")})
                .why()
                .front()
                .id,
            Id::picture_unusual_storage);
}

TEST(Png, keeps_a_profile_that_fits_and_says_when_one_does_not) {
  const Bytes good = samples::png({.profile = samples::swapped_rgb_profile()});
  const auto look = look_at_png({"a.png", good});
  ASSERT_TRUE(look.ok());
  EXPECT_TRUE(look->facts.has_profile);
  EXPECT_TRUE(look->remarks.empty());
  EXPECT_EQ((*png_as_stored({"a.png", good}))->profile, samples::swapped_rgb_profile());

  const Bytes stored("name\0\0", 6);
  const Bytes wrong = samples::with_chunk(samples::png({}), "iCCP", stored + "not deflated");
  const auto other = look_at_png({"art/a.png", wrong});
  ASSERT_TRUE(other.ok());
  EXPECT_FALSE(other->facts.has_profile);
  ASSERT_EQ(other->remarks.size(), 1U);
  EXPECT_EQ(other->remarks.front().message,
            "art/a.png is printed as plain sRGB: its colour profile is damaged");
}

TEST(Png, says_when_a_gamma_is_not_followed) {
  const Bytes bytes = samples::with_chunk(samples::png({}), "gAMA", Bytes("\0\1\x86\xa0", 4));
  const auto look = look_at_png({"a.png", bytes});
  ASSERT_TRUE(look.ok());
  ASSERT_EQ(look->remarks.size(), 1U);
  EXPECT_EQ(look->remarks.front().message,
            "a.png is printed as plain sRGB: it asks for gamma 1 and has no colour profile");
}

TEST(Png, says_that_only_the_first_frame_of_an_animation_is_used) {
  const Bytes bytes = samples::with_chunk(samples::png({}), "acTL", Bytes(8, '\1'));
  const auto look = look_at_png({"a.png", bytes});
  ASSERT_TRUE(look.ok());
  EXPECT_EQ(look->remarks.front().message,
            "a.png is an animation; only its first frame is printed");
}

TEST(Png, follows_the_turn_of_an_exif_chunk) {
  const Bytes exif("MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0\x06\0\0\0\0\0\0", 26);
  const auto look = look_at_png({"a.png", samples::with_chunk(samples::png({}), "eXIf", exif)});
  ASSERT_TRUE(look.ok());
  EXPECT_EQ(look->facts.exif_orientation, 6);
  EXPECT_EQ(look->facts.width, 11);
  EXPECT_EQ(look->facts.height, 13);
}

}  // namespace
}  // namespace quoin::pictures
