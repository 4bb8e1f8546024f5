#include <libdeflate.h>

#include <array>
#include <cmath>
#include <cstdint>
#include <memory>
#include <stdexcept>
#include <string_view>

#include "formats/png/png.h"

namespace quoin {
namespace {

// Level 1 takes a fifth of level 6's time for a file some tenth larger.
constexpr int deflate_level = 1;

void put_32(Bytes& to, std::uint32_t value) {
  for (const int shift : {24, 16, 8, 0}) to.push_back(static_cast<char>(value >> shift & 0xff));
}

void put_chunk(Bytes& to, std::string_view type, std::string_view data) {
  put_32(to, static_cast<std::uint32_t>(data.size()));
  const std::size_t start = to.size();
  to += type;
  to += data;
  put_32(to, libdeflate_crc32(0, to.data() + start, to.size() - start));
}

bool is_opaque(const Raster& raster) {
  std::uint32_t all = 0xff000000;
  for (const std::uint32_t pixel : raster.pixels) all &= pixel;
  return all == 0xff000000;
}

std::uint8_t divided(std::uint32_t part, std::uint32_t alpha) {
  const std::uint32_t whole = (part * 255 + alpha / 2) / alpha;
  return static_cast<std::uint8_t>(whole < 255 ? whole : 255);
}

/// One row of RGB or RGBA bytes out of premultiplied words.
void unpack(const std::uint32_t* from, int width, int channels, std::uint8_t* to) {
  for (int x = 0; x < width; ++x, to += channels) {
    const std::uint32_t pixel = from[x], alpha = pixel >> 24;
    const std::array<std::uint32_t, 3> parts{pixel >> 16 & 0xff, pixel >> 8 & 0xff, pixel & 0xff};
    for (std::size_t i = 0; i < 3; ++i) {
      to[i] = alpha == 255 ? static_cast<std::uint8_t>(parts[i])
              : alpha == 0 ? std::uint8_t{0}
                           : divided(parts[i], alpha);
    }
    if (channels == 4) to[3] = static_cast<std::uint8_t>(alpha);
  }
}

enum FilterType : std::uint8_t { sub = 1, up = 2 };  // PNG, 9.2

/// Rows with a filter byte each: the first predicted from the left, the others from above.
std::vector<std::uint8_t> filtered(const Raster& raster, int channels) {
  const std::size_t row = static_cast<std::size_t>(raster.width) * static_cast<unsigned>(channels);
  std::vector<std::uint8_t> above(row), here(row);
  std::vector<std::uint8_t> result(static_cast<std::size_t>(raster.height) * (row + 1));
  std::uint8_t* to = result.data();
  for (int y = 0; y < raster.height; ++y, to += row + 1) {
    const std::uint32_t* from = raster.pixels.data() + static_cast<std::size_t>(y) * raster.width;
    unpack(from, raster.width, channels, here.data());
    to[0] = y == 0 ? sub : up;
    for (std::size_t i = 0; i < row; ++i) {
      const auto left = i < static_cast<std::size_t>(channels) ? 0 : here[i - channels];
      to[i + 1] = static_cast<std::uint8_t>(here[i] - (y == 0 ? left : above[i]));
    }
    above.swap(here);
  }
  return result;
}

Bytes deflated(const std::vector<std::uint8_t>& raw) {
  const std::unique_ptr<libdeflate_compressor, decltype(&libdeflate_free_compressor)> compressor(
      libdeflate_alloc_compressor(deflate_level), libdeflate_free_compressor);
  if (!compressor) throw std::bad_alloc();
  Bytes result(libdeflate_zlib_compress_bound(compressor.get(), raw.size()), '\0');
  result.resize(libdeflate_zlib_compress(compressor.get(), raw.data(), raw.size(), result.data(),
                                         result.size()));
  return result;
}

Bytes header(const Raster& raster, int channels) {
  Bytes data;
  put_32(data, static_cast<std::uint32_t>(raster.width));
  put_32(data, static_cast<std::uint32_t>(raster.height));
  data += '\x08';
  data += channels == 4 ? '\x06' : '\x02';
  data.append(3, '\0');
  return data;
}

/// gAMA and cHRM as the PNG standard gives them for sRGB (11.3.2.5), for readers that know no
/// better.
void put_colour(Bytes& to) {
  Bytes gamma, primaries;
  put_32(gamma, 45455);
  for (const unsigned part : {31270u, 32900u, 64000u, 33000u, 30000u, 60000u, 15000u, 6000u}) {
    put_32(primaries, part);
  }
  put_chunk(to, "sRGB", std::string_view("\0", 1));
  put_chunk(to, "gAMA", gamma);
  put_chunk(to, "cHRM", primaries);
}

void put_resolution(Bytes& to, double ppi) {
  Bytes data;
  const auto per_metre = static_cast<std::uint32_t>(std::lround(ppi * 1000 / mm_per_inch));
  put_32(data, per_metre);
  put_32(data, per_metre);
  data += '\x01';
  put_chunk(to, "pHYs", data);
}

}  // namespace

Bytes write_png(const Raster& raster, double ppi) {
  const auto pixels = static_cast<std::size_t>(std::max(raster.width, 0)) *
                      static_cast<std::size_t>(std::max(raster.height, 0));
  if (pixels == 0 || pixels != raster.pixels.size()) {
    throw std::logic_error("a raster whose size and pixels differ");
  }
  const int channels = is_opaque(raster) ? 3 : 4;
  Bytes png("\x89PNG\r\n\x1a\n");
  put_chunk(png, "IHDR", header(raster, channels));
  put_colour(png);
  put_resolution(png, ppi);
  put_chunk(png, "IDAT", deflated(filtered(raster, channels)));
  put_chunk(png, "IEND", {});
  return png;
}

}  // namespace quoin
