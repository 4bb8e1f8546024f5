#include "formats/pdf/srgb_profile.h"

#include <gtest/gtest.h>
#include <lcms2.h>

#include <array>
#include <cstdlib>
#include <memory>

#include "formats/pdf/colour_spaces.h"

namespace quoin::pdf {
namespace {

struct CloseProfile {
  void operator()(void* profile) const { cmsCloseProfile(profile); }
};
using Profile = std::unique_ptr<void, CloseProfile>;

Profile ours() {
  const Bytes& bytes = srgb_profile();
  return Profile(cmsOpenProfileFromMem(bytes.data(), static_cast<cmsUInt32Number>(bytes.size())));
}

// Little CMS, an independent implementation of ICC.1, reads the profile and has its own sRGB.
TEST(SrgbProfile, is_read_by_an_independent_colour_engine) {
  const Profile profile = ours();
  ASSERT_NE(profile, nullptr);
  EXPECT_EQ(cmsGetColorSpace(profile.get()), cmsSigRgbData);
  EXPECT_EQ(cmsGetDeviceClass(profile.get()), cmsSigDisplayClass);
  EXPECT_NEAR(cmsGetProfileVersion(profile.get()), 2.1, 1e-9);
  EXPECT_TRUE(cmsIsMatrixShaper(profile.get()));
}

TEST(SrgbProfile, agrees_with_an_independent_srgb_within_one_step_in_255) {
  const Profile mine = ours(), theirs(cmsCreate_sRGBProfile());
  const std::unique_ptr<void, decltype(&cmsDeleteTransform)> transform(
      cmsCreateTransform(mine.get(), TYPE_RGB_8, theirs.get(), TYPE_RGB_8,
                         INTENT_RELATIVE_COLORIMETRIC, 0),
      cmsDeleteTransform);
  ASSERT_NE(transform, nullptr);
  for (int red = 0; red <= 255; red += 15) {
    for (int green = 0; green <= 255; green += 15) {
      for (int blue = 0; blue <= 255; blue += 15) {
        const std::array<unsigned char, 3> from{static_cast<unsigned char>(red),
                                                static_cast<unsigned char>(green),
                                                static_cast<unsigned char>(blue)};
        std::array<unsigned char, 3> to{};
        cmsDoTransform(transform.get(), from.data(), to.data(), 1);
        for (std::size_t i = 0; i < 3; ++i) EXPECT_LE(std::abs(from[i] - to[i]), 1);
      }
    }
  }
}

// Worked out apart from this code, from the primaries of IEC 61966-2-1, adapted to D50 with the
// Bradford matrix, by the formulas of ISO/CIE 11664-4.
TEST(SrgbProfile, gives_the_known_d50_lab_values_of_the_primaries) {
  const Profile mine = ours(), lab(cmsCreateLab4Profile(nullptr));
  const std::unique_ptr<void, decltype(&cmsDeleteTransform)> transform(
      cmsCreateTransform(mine.get(), TYPE_RGB_8, lab.get(), TYPE_Lab_DBL,
                         INTENT_RELATIVE_COLORIMETRIC, 0),
      cmsDeleteTransform);
  const std::array<unsigned char, 9> from{255, 0, 0, 0, 255, 0, 0, 0, 255};
  std::array<double, 9> to{};
  cmsDoTransform(transform.get(), from.data(), to.data(), 3);
  const std::array<double, 9> known{54.29, 80.81, 69.89, 87.82,  -79.29,
                                    80.99, 29.57, 68.30, -112.03};
  for (std::size_t i = 0; i < known.size(); ++i) EXPECT_NEAR(to[i], known[i], 0.05) << i;
}

TEST(Suits, tells_profiles_of_other_colour_models_apart) {
  EXPECT_TRUE(suits(srgb_profile(), ColourModel::rgb));
  EXPECT_FALSE(suits(srgb_profile(), ColourModel::cmyk));
  EXPECT_FALSE(suits(srgb_profile(), ColourModel::grey));
  EXPECT_FALSE(suits("", ColourModel::rgb));
  EXPECT_FALSE(suits(Bytes(500, 'x'), ColourModel::rgb));
}

}  // namespace
}  // namespace quoin::pdf
