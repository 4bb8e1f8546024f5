#pragma once
#include <cstdint>
#include <vector>

namespace quoin::press {

/// Brightness of a scan or photograph, row after row from the top left; 255 is white.
struct GreyImage {
  int width = 0, height = 0;
  std::vector<std::uint8_t> pixels;

  [[nodiscard]] std::uint8_t at(int x, int y) const {
    return pixels[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                  static_cast<std::size_t>(x)];
  }
};

/// A place in an image, in pixels from its top left corner: the middle of the first pixel is
/// (0.5, 0.5).
struct Pixel {
  double x = 0, y = 0;
};

/// Brightness between pixels (bilinear); places outside take the nearest pixel.
[[nodiscard]] double brightness(const GreyImage& image, Pixel at);

/// The image made smaller by a whole factor: means of squares. What does not fill one is left off.
[[nodiscard]] GreyImage smaller(const GreyImage& image, int factor);

}  // namespace quoin::press
