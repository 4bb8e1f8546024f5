#include "press/scan/grey_image.h"

#include <algorithm>
#include <cmath>

namespace quoin::press {

double brightness(const GreyImage& image, Pixel at) {
  const double x = std::clamp(at.x - 0.5, 0.0, image.width - 1.0);
  const double y = std::clamp(at.y - 0.5, 0.0, image.height - 1.0);
  const int x0 = static_cast<int>(x), y0 = static_cast<int>(y);
  const int x1 = std::min(x0 + 1, image.width - 1), y1 = std::min(y0 + 1, image.height - 1);
  const double fx = x - x0, fy = y - y0;
  return (image.at(x0, y0) * (1 - fx) + image.at(x1, y0) * fx) * (1 - fy) +
         (image.at(x0, y1) * (1 - fx) + image.at(x1, y1) * fx) * fy;
}

GreyImage smaller(const GreyImage& image, int factor) {
  if (factor <= 1) return image;
  GreyImage small{image.width / factor, image.height / factor, {}};
  const auto width = static_cast<std::size_t>(small.width);
  small.pixels.reserve(width * static_cast<std::size_t>(small.height));
  std::vector<unsigned> sums(width);
  const auto count = static_cast<unsigned>(factor * factor);
  for (int y = 0; y < small.height; ++y) {
    std::fill(sums.begin(), sums.end(), 0U);
    for (int row = y * factor; row < (y + 1) * factor; ++row) {
      const std::uint8_t* from = image.pixels.data() + static_cast<std::size_t>(row) *
                                                           static_cast<std::size_t>(image.width);
      for (std::size_t x = 0; x < width; ++x) {
        for (int i = 0; i < factor; ++i) sums[x] += *from++;
      }
    }
    for (const unsigned sum : sums) {
      small.pixels.push_back(static_cast<std::uint8_t>((sum + count / 2) / count));
    }
  }
  return small;
}

}  // namespace quoin::press
