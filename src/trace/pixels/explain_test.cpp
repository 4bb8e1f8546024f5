#include "trace/pixels/explain.h"

#include <gtest/gtest.h>

#include <functional>

#include "trace/fidelity.h"
#include "trace/trace_testing.h"

namespace quoin::trace {
namespace {

using Ink = std::function<std::uint32_t(double x, double y)>;

/// A picture of which `ink` says the colour of each place, seen by 8 x 8 looks at each pixel.
Raster inked(int width, int height, const Ink& ink) {
  Raster raster{width, height, {}};
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      double sums[3] = {};
      for (int k = 0; k < 64; ++k) {
        const std::uint32_t colour = ink(x + (k % 8 + 0.5) / 8, y + (k / 8 + 0.5) / 8);
        for (int i = 0; i < 3; ++i) sums[i] += double(colour >> (16 - 8 * i) & 255) / 64;
      }
      const auto part = [&](int i) { return static_cast<std::uint32_t>(std::lround(sums[i])); };
      raster.pixels.push_back(0xFF000000U | part(0) << 16 | part(1) << 8 | part(2));
    }
  }
  return raster;
}

/// How far the drawing is from the nearest colour that it should have.
double nearest(const Tracing& tracing, const char* hex) {
  double least = 1e9;
  for (const DrawingColour& one : drawing_colours(tracing)) {
    least = std::min(least, ciede2000(to_lab(one.colour), to_lab(*parse_colour(hex))));
  }
  return least;
}

constexpr std::uint32_t navy = 0xFF122A45, water = 0xFF4C7399, pink = 0xFFE8A48E;

/// A band of navy aslant over water, and in it a stripe of pink: no pixel is all pink.
TEST(ExplainedPixels, have_the_colour_of_a_stripe_that_no_pixel_shows) {
  const Tracing tracing = redrawn(inked(150, 120, [](double x, double y) {
    const double away = std::abs(y - 40 - 0.31 * x) / std::hypot(1, 0.31);
    if (x < 12 || x > 138) return water;
    return away < 0.8 ? pink : away < 3 ? navy : water;
  }));
  EXPECT_LT(nearest(tracing, "#e8a48e"), 6);
  EXPECT_LT(nearest(tracing, "#122a45"), 2);
  EXPECT_LT(nearest(tracing, "#4c7399"), 1);
  EXPECT_LE(tracing.faces.size(), 8U);
}

/// An outline thinner than a pixel between two grounds is in one piece, whichever way it runs.
TEST(ExplainedPixels, hold_a_thin_outline_together) {
  const Tracing tracing = redrawn(inked(150, 150, [](double x, double y) {
    const double away = std::hypot(x - 75.3, y - 74.6) - 50;
    return std::abs(away) < 0.55 ? navy : away < 0 ? sand : water;
  }));
  double of_outline = 0, largest = 0;
  for (const Layer& layer : tracing.layers) {
    const auto* colour = std::get_if<Colour>(&layer.fill);
    if (colour == nullptr || ciede2000(to_lab(*colour), to_lab(*parse_colour("#122a45"))) > 12) {
      continue;
    }
    for (const int face : layer.faces) {
      of_outline += tracing.faces[std::size_t(face)].area;
      largest = std::max(largest, tracing.faces[std::size_t(face)].area);
    }
  }
  const double area = 2 * 3.14159265358979 * 50 * 1.1;  // length of the circle times width
  EXPECT_NEAR(of_outline, area, 0.2 * area);
  EXPECT_GT(largest, 0.7 * of_outline);
}

TEST(ExplainedPixels, keep_dots_of_a_few_pixels) {
  const Tracing tracing = redrawn(inked(200, 200, [](double x, double y) {
    const double u = std::fmod(x, 20) - 10.3, v = std::fmod(y, 20) - 9.6;
    return u * u / 4 + v * v < 1 ? navy : sand;  // ellipses of 2 by 1 px: 6.3 square pixels
  }));
  EXPECT_EQ(tracing.faces.size(), 101U);
}

/// White paper and a pale grey shape on it are told apart, though they are hardly unlike.
TEST(ExactColours, are_told_apart_where_large_parts_have_them) {
  const Tracing tracing = redrawn(inked(160, 160, [](double x, double y) {
    const double away = std::hypot(x - 80, y - 80);
    return away < 40 ? 0xFFF3F3F3U : away < 46 ? 0xFFC2185BU : 0xFFFFFFFFU;
  }));
  EXPECT_LT(nearest(tracing, "#f3f3f3"), 0.3);
  EXPECT_LT(nearest(tracing, "#ffffff"), 0.3);
  EXPECT_EQ(tracing.faces.size(), 3U);
}

/// Steps of a gradient are shades, and not mixtures to be explained.
TEST(ExplainedPixels, leave_gradients_alone) {
  const Tracing tracing = redrawn(inked(150, 150, [](double x, double) {
    const auto part = [&](int from, int to) {
      return static_cast<std::uint32_t>(std::lround(from + (to - from) * x / 150));
    };
    return 0xFF000000U | part(30, 240) << 16 | part(60, 220) << 8 | part(120, 180);
  }));
  EXPECT_EQ(tracing.faces.size(), 1U);
}

}  // namespace
}  // namespace quoin::trace
