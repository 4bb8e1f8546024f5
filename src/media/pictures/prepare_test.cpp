#include "media/pictures/prepare.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "media/pictures/png.h"
#include "media/pictures/prepared_store.h"
#include "media/pictures/samples.h"

namespace quoin::pictures {
namespace {

/// The pixels of prepared 8-bit data without palette, read back by libpng from a file around it.
std::vector<std::uint8_t> read_back(const PreparedImage& image) {
  const int type = image.png_predictor_colours == 1 ? 0 : image.png_predictor_colours == 3 ? 2 : 6;
  return samples::libpng_rgba(samples::bare_png(static_cast<std::uint32_t>(image.width),
                                                static_cast<std::uint32_t>(image.height), 8, type,
                                                Bytes(image.data.view())));
}

std::optional<StoredImage> restored(Bytes bytes) {
  return restore(std::make_shared<const Bytes>(std::move(bytes)));
}

PreparedImage prepared_from(const samples::PngWishes& wishes) {
  return deflated(*decode_png({"a.png", samples::png(wishes)}));
}

TEST(Deflated, keeps_colours_and_alpha_apart_and_exact) {
  const samples::PngWishes wishes{.width = 61, .height = 37, .colour_type = 6};
  const std::vector<std::uint8_t> original = samples::libpng_rgba(samples::png(wishes));
  const PreparedImage image = prepared_from(wishes);
  ASSERT_NE(image.soft_mask, nullptr);
  EXPECT_EQ(image.model, ColourModel::rgb);
  EXPECT_EQ(image.soft_mask->model, ColourModel::grey);
  const std::vector<std::uint8_t> colours = read_back(image), mask = read_back(*image.soft_mask);
  ASSERT_EQ(colours.size(), original.size());
  for (std::size_t i = 0; i < original.size(); i += 4) {
    for (std::size_t c = 0; c < 3; ++c) ASSERT_EQ(colours[i + c], original[i + c]);
    ASSERT_EQ(mask[i], original[i + 3]);
  }
}

TEST(Deflated, drops_alpha_that_is_opaque_everywhere) {
  EXPECT_EQ(prepared_from({.colour_type = 6, .opaque = true}).soft_mask, nullptr);
  EXPECT_NE(prepared_from({.colour_type = 6}).soft_mask, nullptr);
}

TEST(Deflated, makes_colourless_rgb_grey_unless_a_profile_says_what_it_is) {
  samples::PngWishes wishes{.colour_type = 6, .opaque = true, .colourless = true};
  EXPECT_EQ(prepared_from(wishes).model, ColourModel::grey);
  wishes.profile = samples::swapped_rgb_profile();
  const PreparedImage image = prepared_from(wishes);
  EXPECT_EQ(image.model, ColourModel::rgb);
  EXPECT_EQ(image.profile, wishes.profile);
}

TEST(DeflateRows, compresses_smooth_rows_far_below_their_size) {
  std::vector<std::uint8_t> rows;
  for (int y = 0; y < 100; ++y) {
    for (int x = 0; x < 100; ++x) rows.push_back(static_cast<std::uint8_t>(x + 2 * y));
  }
  EXPECT_LT(deflate_rows(rows.data(), 100, 100, 1).size(), 300U);
}

TEST(Store, gives_back_all_that_was_kept) {
  PreparedImage image = prepared_from({.colour_type = 6});
  image.profile = "a profile";
  image.palette = {1, 2, 3};
  image.inverted = true;
  const auto back = restored(store({image}));
  ASSERT_TRUE(back && back->image);
  EXPECT_EQ(back->image->width, image.width);
  EXPECT_EQ(back->image->height, image.height);
  EXPECT_EQ(back->image->model, image.model);
  EXPECT_EQ(back->image->png_predictor_colours, 3);
  EXPECT_EQ(back->image->data, image.data);
  EXPECT_EQ(back->image->profile, image.profile);
  EXPECT_EQ(back->image->palette, image.palette);
  EXPECT_TRUE(back->image->inverted);
  ASSERT_NE(back->image->soft_mask, nullptr);
  EXPECT_EQ(back->image->soft_mask->data, image.soft_mask->data);
}

TEST(Store, remembers_that_the_files_own_data_is_good) {
  const auto back = restored(store({}));
  ASSERT_TRUE(back);
  EXPECT_FALSE(back->image);
}

TEST(Store, gives_nothing_for_damaged_bytes) {
  const Bytes kept = store({prepared_from({.width = 3, .height = 2, .colour_type = 6})});
  for (std::size_t i = 0; i < kept.size(); ++i) {
    Bytes changed = kept;
    changed[i] ^= 1;
    EXPECT_FALSE(restored(changed)) << "byte " << i;
    EXPECT_FALSE(restored(kept.substr(0, i))) << "cut after " << i;
  }
  EXPECT_FALSE(restored(kept + "x"));
}

}  // namespace
}  // namespace quoin::pictures
