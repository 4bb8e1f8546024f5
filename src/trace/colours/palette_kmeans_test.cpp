#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <opencv2/core.hpp>

#include "trace/colours/palette_of.h"
#include "trace/trace_testing.h"

// The palette beside others' work: cv::kmeans (k-means++ of Arthur and Vassilvitskii, 2007, as in
// OpenCV's core) is given the number of colours, which the palette has to find out for itself.

namespace quoin::trace {
namespace {

struct Known {
  std::uint32_t pixel;
  double share;
};

Lab lab_of_pixel(std::uint32_t pixel) {
  return to_lab(
      {(pixel >> 16 & 255) / 255.0, (pixel >> 8 & 255) / 255.0, (pixel & 255) / 255.0, 1});
}

constexpr int canvas_side = 96;
constexpr double first_radius = 22, second_radius = 14;

/// Two smooth discs on a ground.
Raster discs(std::array<std::uint32_t, 3> inks) {
  const Raster first =
      picture_of(canvas_side, canvas_side, inks[0], inks[1],
                 [](double x, double y) { return std::hypot(x - 34, y - 34) < first_radius; });
  const Raster second =
      picture_of(canvas_side, canvas_side, inks[0], inks[2],
                 [](double x, double y) { return std::hypot(x - 74, y - 70) < second_radius; });
  Raster both = first;
  for (int y = 50; y < canvas_side; ++y) {
    for (int x = 58; x < canvas_side; ++x) {
      const auto at = std::size_t(y) * canvas_side + std::size_t(x);
      both.pixels[at] = second.pixels[at];
    }
  }
  return both;
}

/// Normal noise of `sigma` (0..255) on each part, by the sum of twelve even numbers.
Raster disturbed(Raster picture, double sigma) {
  std::uint32_t state = 11;
  const auto normal = [&] {
    double sum = -6;
    for (int i = 0; i < 12; ++i)
      sum += ((state = state * 1664525U + 1013904223U) >> 8) / 16777216.0;
    return sum * sigma;
  };
  for (std::uint32_t& pixel : picture.pixels) {
    std::uint32_t out = 0xFF000000U;
    for (const int shift : {16, 8, 0}) {
      const double part = double(pixel >> shift & 255) + normal();
      out |= std::uint32_t(std::clamp(std::lround(part), 0L, 255L)) << shift;
    }
    pixel = out;
  }
  return picture;
}

/// How far k-means, told the number, is from a known colour (CIEDE2000, the nearest centre).
double kmeans_distance(const Raster& picture, int count, Lab known) {
  cv::Mat samples(int(picture.pixels.size()), 3, CV_32F);
  for (int i = 0; i < samples.rows; ++i) {
    const Lab lab = lab_of_pixel(picture.pixels[std::size_t(i)]);
    samples.at<float>(i, 0) = float(lab.l);
    samples.at<float>(i, 1) = float(lab.a);
    samples.at<float>(i, 2) = float(lab.b);
  }
  cv::theRNG().state = 1;
  cv::Mat labels, centres;
  cv::kmeans(samples, count, labels, cv::TermCriteria(3, 30, 0.1), 3, cv::KMEANS_PP_CENTERS,
             centres);
  double least = 1e9;
  for (int i = 0; i < count; ++i) {
    least = std::min(least, ciede2000(known, {centres.at<float>(i, 0), centres.at<float>(i, 1),
                                              centres.at<float>(i, 2)}));
  }
  return least;
}

void expect_known(const Raster& picture, const std::vector<Known>& known, const char* what) {
  const std::array<const Raster*, 1> all{&picture};
  const auto palette = palette_of(all);
  EXPECT_EQ(palette.size(), known.size()) << what;
  for (const Known& one : known) {
    const Lab wanted = lab_of_pixel(one.pixel);
    double least = 1e9, share = 0;
    for (const PaletteColour& found : palette) {
      const double away = ciede2000(wanted, to_lab(found.colour));
      if (away >= least) continue;
      least = away;
      share = found.share;
    }
    const double by_kmeans = kmeans_distance(picture, int(known.size()), wanted);
    EXPECT_LT(least, 1) << what << ": k-means " << by_kmeans;
    EXPECT_LE(least, by_kmeans + 0.5) << what;
    EXPECT_NEAR(share, one.share, 0.01) << what;
  }
}

TEST(PaletteBesideKmeans, finds_known_colours_and_areas_clean_and_with_noise) {
  constexpr std::array<std::array<std::uint32_t, 3>, 3> sets{
      {{0xFFF4E3C1, 0xFF20505A, 0xFFC04A3A},
       {0xFFFFFFFF, 0xFF101820, 0xFF2A6E3F},
       {0xFF3060A0, 0xFFE6B650, 0xFF7A2A5A}}};
  const double first = std::numbers::pi * first_radius * first_radius / (canvas_side * canvas_side),
               second =
                   std::numbers::pi * second_radius * second_radius / (canvas_side * canvas_side);
  for (const auto& inks : sets) {
    const std::vector<Known> known{
        {inks[0], 1 - first - second}, {inks[1], first}, {inks[2], second}};
    const Raster clean = discs(inks);
    expect_known(clean, known, "clean");
    // White and black cannot be disturbed evenly: what is cut off at 0 and 255 moves their mean.
    if (inks[0] != 0xFFFFFFFF) expect_known(disturbed(clean, 3), known, "noise of 3");
  }
}

}  // namespace
}  // namespace quoin::trace
