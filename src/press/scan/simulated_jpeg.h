#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "press/scan/grey_image.h"

namespace quoin::press::simulated {

/// What JPEG keeps of 8 by 8 pixels: the luminance table K.1 of ITU-T T.81, for a quality as the
/// Independent JPEG Group's library scales it (both from memory).
[[nodiscard]] inline std::array<double, 64> jpeg_steps(int quality) {
  constexpr std::array<int, 64> table{16,  11,  10,  16,  24, 40, 51,  61,  12,  12,  14,  19,  26,
                                      58,  60,  55,  14,  13, 16, 24,  40,  57,  69,  56,  14,  17,
                                      22,  29,  51,  87,  80, 62, 18,  22,  37,  56,  68,  109, 103,
                                      77,  24,  35,  55,  64, 81, 104, 113, 92,  49,  64,  78,  87,
                                      103, 121, 120, 101, 72, 92, 95,  98,  112, 100, 103, 99};
  const int scale = quality < 50 ? 5000 / quality : 200 - 2 * quality;
  std::array<double, 64> steps{};
  for (std::size_t i = 0; i < 64; ++i) {
    steps[i] = std::clamp((table[i] * scale + 50) / 100, 1, 255);
  }
  return steps;
}

/// Row k holds the k-th cosine over eight pixels, orthonormal.
[[nodiscard]] inline std::array<double, 64> cosines() {
  std::array<double, 64> rows{};
  for (std::size_t k = 0; k < 8; ++k) {
    for (std::size_t x = 0; x < 8; ++x) {
      const double angle = static_cast<double>((2 * x + 1) * k) * std::numbers::pi / 16;
      rows[k * 8 + x] = std::cos(angle) * (k == 0 ? std::sqrt(0.125) : 0.5);
    }
  }
  return rows;
}

/// a·b of 8 by 8 values.
[[nodiscard]] inline std::array<double, 64> product(const std::array<double, 64>& a,
                                                    const std::array<double, 64>& b) {
  std::array<double, 64> sum{};
  for (std::size_t i = 0; i < 8; ++i) {
    for (std::size_t k = 0; k < 8; ++k) {
      for (std::size_t j = 0; j < 8; ++j) sum[i * 8 + j] += a[i * 8 + k] * b[k * 8 + j];
    }
  }
  return sum;
}

[[nodiscard]] inline std::array<double, 64> transposed(const std::array<double, 64>& a) {
  std::array<double, 64> b{};
  for (std::size_t i = 0; i < 64; ++i) b[i % 8 * 8 + i / 8] = a[i];
  return b;
}

/// The image as it comes back from a JPEG file of this quality, 1..100: the part of JPEG that
/// loses. Blocks that the picture's right and lower edge cut through are left as they are.
inline void as_jpeg(GreyImage& image, int quality) {
  const std::array<double, 64> steps = jpeg_steps(quality), rows = cosines();
  const std::array<double, 64> columns = transposed(rows);
  const auto width = static_cast<std::size_t>(image.width);
  for (std::size_t y = 0; y + 8 <= static_cast<std::size_t>(image.height); y += 8) {
    for (std::size_t x = 0; x + 8 <= width; x += 8) {
      std::array<double, 64> block{};
      for (std::size_t i = 0; i < 64; ++i) {
        block[i] = image.pixels[(y + i / 8) * width + x + i % 8] - 128.0;
      }
      block = product(product(rows, block), columns);
      for (std::size_t i = 0; i < 64; ++i) block[i] = std::round(block[i] / steps[i]) * steps[i];
      block = product(product(columns, block), rows);
      for (std::size_t i = 0; i < 64; ++i) {
        image.pixels[(y + i / 8) * width + x + i % 8] =
            static_cast<std::uint8_t>(std::clamp(std::lround(block[i] + 128), 0L, 255L));
      }
    }
  }
}

}  // namespace quoin::press::simulated
