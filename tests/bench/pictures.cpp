#include "pictures.h"

#include <png.h>

#include <cmath>
#include <cstdio>  // before jpeglib.h, which needs FILE

#include <jpeglib.h>

#include <algorithm>
#include <array>
#include <memory>
#include <stdexcept>

#include "chance.h"

namespace quoin::bench {
namespace {

constexpr int knots = 9;  // the smooth colour bends at most this often across a picture

/// Values at a grid of knots, read between them without a kink.
class SmoothField {
 public:
  explicit SmoothField(Chance& chance) {
    for (double& v : values_) v = chance.fraction();
  }
  [[nodiscard]] double at(double x, double y) const {
    const int column = std::min(static_cast<int>(x * (knots - 1)), knots - 2);
    const int row = std::min(static_cast<int>(y * (knots - 1)), knots - 2);
    const double u = eased(x * (knots - 1) - column), v = eased(y * (knots - 1) - row);
    const double top = std::lerp(value(column, row), value(column + 1, row), u);
    const double low = std::lerp(value(column, row + 1), value(column + 1, row + 1), u);
    return std::lerp(top, low, v);
  }

 private:
  [[nodiscard]] static double eased(double t) { return t * t * (3 - 2 * t); }
  [[nodiscard]] double value(int column, int row) const {
    return values_[static_cast<std::size_t>(row * knots + column)];
  }
  std::array<double, knots * knots> values_{};
};

[[nodiscard]] std::uint8_t byte_of(double value) {
  return static_cast<std::uint8_t>(std::clamp(std::lround(value), 0L, 255L));
}

/// Full in the middle, clear in the corners.
[[nodiscard]] double oval_alpha(double x, double y) {
  const double distance = std::hypot(2 * x - 1, 2 * y - 1);
  return 255 * std::clamp((1.15 - distance) * 5, 0.0, 1.0);
}

using File = std::unique_ptr<std::FILE, int (*)(std::FILE*)>;

[[nodiscard]] File opened(const std::filesystem::path& file) {
  File out(std::fopen(file.c_str(), "wb"), &std::fclose);
  if (!out) throw std::runtime_error("cannot write " + file.string());
  return out;
}

}  // namespace

Pixels painted(std::uint64_t seed, int side, int channels, int grain) {
  Chance chance(seed);
  const std::array<SmoothField, 3> colours{SmoothField(chance), SmoothField(chance),
                                           SmoothField(chance)};
  Pixels picture{side, channels, {}};
  picture.bytes.reserve(static_cast<std::size_t>(side * side * channels));
  for (int row = 0; row < side; ++row) {
    for (int column = 0; column < side; ++column) {
      const double x = (column + 0.5) / side, y = (row + 0.5) / side;
      for (const SmoothField& colour : colours) {
        picture.bytes.push_back(byte_of(255 * colour.at(x, y) + chance.between(-grain, grain)));
      }
      if (channels == 4) picture.bytes.push_back(byte_of(oval_alpha(x, y)));
    }
  }
  return picture;
}

void write_jpeg(const std::filesystem::path& file, const Pixels& picture, int quality) {
  const File out = opened(file);
  jpeg_compress_struct coder{};
  jpeg_error_mgr errors{};
  coder.err = jpeg_std_error(&errors);
  jpeg_create_compress(&coder);
  jpeg_stdio_dest(&coder, out.get());
  coder.image_width = coder.image_height = static_cast<JDIMENSION>(picture.side);
  coder.input_components = 3;
  coder.in_color_space = JCS_RGB;
  jpeg_set_defaults(&coder);
  jpeg_set_quality(&coder, quality, TRUE);
  jpeg_start_compress(&coder, TRUE);
  while (coder.next_scanline < coder.image_height) {
    const auto start = static_cast<std::size_t>(coder.next_scanline) * 3 * coder.image_width;
    JSAMPROW row = const_cast<JSAMPROW>(picture.bytes.data() + start);
    jpeg_write_scanlines(&coder, &row, 1);
  }
  jpeg_finish_compress(&coder);
  jpeg_destroy_compress(&coder);
}

void write_png(const std::filesystem::path& file, const Pixels& picture) {
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  image.width = image.height = static_cast<png_uint_32>(picture.side);
  image.format = picture.channels == 4 ? PNG_FORMAT_RGBA : PNG_FORMAT_RGB;
  if (!png_image_write_to_file(&image, file.c_str(), 0, picture.bytes.data(), 0, nullptr)) {
    throw std::runtime_error("cannot write " + file.string() + ": " + image.message);
  }
}

}  // namespace quoin::bench
