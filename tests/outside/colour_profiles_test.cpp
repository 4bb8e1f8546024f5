// Pictures tagged with a wide-gamut profile come out as the definitions of these spaces say,
// reckoned here from chromaticities and curves alone.

#include <lcms2.h>
#include <png.h>

#include <gtest/gtest.h>
#include <cmath>
#include <eigen3/Eigen/Dense>

#include "media/picture.h"

namespace quoin {
namespace {

/// A space of red, green and blue as its definition gives it.
struct Space {
  const char* name;
  double red[2], green[2], blue[2];  // CIE 1931 x, y; white is D65: 0.3127, 0.3290
  double gamma;                      // 0: the curve of sRGB
};

// Source: Display P3 has the primaries of SMPTE EG 432-1:2010 (RP 431-2), the white D65 and the
// curve of IEC 61966-2-1 (from memory).
constexpr Space display_p3{"Display P3", {0.680, 0.320}, {0.265, 0.690}, {0.150, 0.060}, 0};
// Source: Adobe RGB (1998) Color Image Encoding, version 2005-05, 4.3.1 (from memory).
constexpr Space adobe_rgb{"Adobe RGB (1998)", {0.64, 0.33}, {0.21, 0.71}, {0.15, 0.06}, 2.19921875};
// Source: IEC 61966-2-1:1999, with the primaries of ITU-R BT.709 (from memory).
constexpr Space srgb{"sRGB IEC61966-2.1", {0.64, 0.33}, {0.30, 0.60}, {0.15, 0.06}, 0};

double linear_part(const Space& space, double part) {
  if (space.gamma > 0) return std::pow(part, space.gamma);
  return part <= 0.04045 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4);
}

double srgb_part(double part) {
  return part <= 0.0031308 ? 12.92 * part : 1.055 * std::pow(part, 1 / 2.4) - 0.055;
}

/// Linear parts to CIE XYZ: columns are the primaries, scaled so that they add up to white.
Eigen::Matrix3d to_xyz(const Space& space) {
  Eigen::Matrix3d primaries;
  int column = 0;
  for (const double* xy : {space.red, space.green, space.blue}) {
    primaries.col(column++) << xy[0] / xy[1], 1, (1 - xy[0] - xy[1]) / xy[1];
  }
  const Eigen::Vector3d white(0.3127 / 0.3290, 1, (1 - 0.3127 - 0.3290) / 0.3290);
  const Eigen::Vector3d scale = primaries.inverse() * white;
  return primaries * scale.asDiagonal();
}

/// The profile of a space, as programs that write pictures embed it.
Bytes profile_of(const Space& space) {
  const cmsCIExyY white{0.3127, 0.3290, 1};
  const cmsCIExyYTRIPLE primaries{{space.red[0], space.red[1], 1},
                                  {space.green[0], space.green[1], 1},
                                  {space.blue[0], space.blue[1], 1}};
  const cmsFloat64Number curve_of_srgb[5]{2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045};
  cmsToneCurve* curve = space.gamma > 0 ? cmsBuildGamma(nullptr, space.gamma)
                                        : cmsBuildParametricToneCurve(nullptr, 4, curve_of_srgb);
  cmsToneCurve* curves[3]{curve, curve, curve};
  cmsHPROFILE profile = cmsCreateRGBProfile(&white, &primaries, curves);
  cmsFreeToneCurve(curve);
  cmsMLU* words = cmsMLUalloc(nullptr, 1);
  cmsMLUsetASCII(words, "en", "US", space.name);
  cmsWriteTag(profile, cmsSigProfileDescriptionTag, words);
  cmsMLUfree(words);
  cmsUInt32Number size = 0;
  cmsSaveProfileToMem(profile, nullptr, &size);
  Bytes bytes(size, '\0');
  cmsSaveProfileToMem(profile, bytes.data(), &size);
  cmsCloseProfile(profile);
  return bytes;
}

void append(png_structp png, png_bytep data, std::size_t size) {
  static_cast<Bytes*>(png_get_io_ptr(png))->append(reinterpret_cast<char*>(data), size);
}

/// One row of pixels as a PNG, tagged when `profile` is not empty.
Bytes png_of(const std::vector<std::array<std::uint8_t, 3>>& row, const Bytes& profile) {
  Bytes bytes;
  png_structp png = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
  png_infop info = png_create_info_struct(png);
  png_set_write_fn(png, &bytes, append, nullptr);
  png_set_IHDR(png, info, static_cast<png_uint_32>(row.size()), 1, 8, PNG_COLOR_TYPE_RGB,
               PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
  if (!profile.empty()) {
    png_set_iCCP(png, info, "profile", 0, reinterpret_cast<const png_byte*>(profile.data()),
                 static_cast<png_uint_32>(profile.size()));
  }
  png_write_info(png, info);
  png_write_row(png, const_cast<png_bytep>(row[0].data()));
  png_write_end(png, info);
  png_destroy_write_struct(&png, &info);
  return bytes;
}

class Tagged : public testing::TestWithParam<Space> {};

TEST_P(Tagged, pictures_come_out_as_the_definition_of_their_space_says) {
  const Space& space = GetParam();
  const Eigen::Matrix3d to_srgb = to_xyz(srgb).inverse() * to_xyz(space);
  std::vector<std::array<std::uint8_t, 3>> row;
  std::vector<std::array<double, 3>> wanted;
  for (int red = 0; red <= 255; red += 17) {
    for (int green = 0; green <= 255; green += 17) {
      for (int blue = 0; blue <= 255; blue += 17) {
        const Eigen::Vector3d linear(linear_part(space, red / 255.0),
                                     linear_part(space, green / 255.0),
                                     linear_part(space, blue / 255.0));
        const Eigen::Vector3d there = to_srgb * linear;
        // Colours that sRGB does not have are clipped by each program in its own way.
        if (there.minCoeff() < -1e-6 || there.maxCoeff() > 1 + 1e-6) continue;
        row.push_back({std::uint8_t(red), std::uint8_t(green), std::uint8_t(blue)});
        wanted.push_back({255 * srgb_part(std::clamp(there[0], 0.0, 1.0)),
                          255 * srgb_part(std::clamp(there[1], 0.0, 1.0)),
                          255 * srgb_part(std::clamp(there[2], 0.0, 1.0))});
      }
    }
  }
  ASSERT_GT(row.size(), 1000U);
  MemoryWorld world;
  world.put("it.png", png_of(row, profile_of(space)));
  PictureShelf shelf(world);
  Diagnostics found;
  const auto picture = shelf.open("it.png", {}, found);
  ASSERT_TRUE(picture.ok() && found.empty());
  EXPECT_EQ((*picture)->facts().profile, space.name);
  const auto pixels = shelf.pixels(*picture);
  ASSERT_TRUE(pixels.ok());
  double most = 0;
  for (std::size_t i = 0; i < row.size(); ++i) {
    const std::uint32_t pixel = (*pixels)->pixels[i];
    for (std::size_t k = 0; k < 3; ++k) {
      most = std::max(most, std::abs(double(pixel >> (16 - 8 * k) & 255) - wanted[i][k]));
    }
  }
  EXPECT_LE(most, 1.0) << "of 255";
}

INSTANTIATE_TEST_SUITE_P(Spaces, Tagged, testing::Values(display_p3, adobe_rgb, srgb),
                         [](const auto& one) {
                           std::string name(one.param.name);
                           std::erase_if(name, [](char c) { return !std::isalnum(c); });
                           return name;
                         });

TEST(Untagged, pictures_are_taken_as_srgb_and_say_so) {
  MemoryWorld world;
  world.put("it.png", png_of({{10, 200, 90}}, {}));
  PictureShelf shelf(world);
  Diagnostics found;
  const auto picture = shelf.open("it.png", {}, found);
  ASSERT_TRUE(picture.ok());
  EXPECT_EQ((*picture)->facts().profile, "");
  EXPECT_FALSE((*picture)->facts().has_profile);
  EXPECT_EQ((*shelf.pixels(*picture))->pixels[0], 0xFF0AC85AU);
}

}  // namespace
}  // namespace quoin
