#include "media/pictures/png_write.h"

#include <libdeflate.h>

#include <algorithm>
#include <string_view>

namespace quoin::pictures {
namespace {

void put_32(Bytes& out, std::uint32_t value) {
  for (int shift = 24; shift >= 0; shift -= 8) out += static_cast<char>(value >> shift & 0xff);
}

void put_chunk(Bytes& out, std::string_view name, std::string_view body) {
  put_32(out, static_cast<std::uint32_t>(body.size()));
  out += name;
  out += body;
  const std::uint32_t sum = libdeflate_crc32(0, name.data(), name.size());
  put_32(out, libdeflate_crc32(sum, body.data(), body.size()));
}

std::uint8_t straight(std::uint32_t value, std::uint32_t alpha) {
  if (alpha == 0) return 0;
  return static_cast<std::uint8_t>(std::min<std::uint32_t>(255, (value * 255 + alpha / 2) / alpha));
}

}  // namespace

Bytes png_of(const Raster& raster) {
  std::vector<std::uint8_t> rgba;
  rgba.reserve(raster.pixels.size() * 4);
  for (const std::uint32_t pixel : raster.pixels) {
    const std::uint32_t alpha = pixel >> 24;
    for (const int shift : {16, 8, 0}) rgba.push_back(straight(pixel >> shift & 0xff, alpha));
    rgba.push_back(static_cast<std::uint8_t>(alpha));
  }
  Bytes header;
  put_32(header, static_cast<std::uint32_t>(raster.width));
  put_32(header, static_cast<std::uint32_t>(raster.height));
  header += std::string_view("\x08\x06\x00\x00\x00", 5);  // 8 bits, RGB with alpha, one pass
  Bytes out = "\x89PNG\r\n\x1a\n";
  put_chunk(out, "IHDR", header);
  put_chunk(out, "IDAT", deflate_rows(rgba.data(), raster.height, raster.width * 4, 4));
  put_chunk(out, "IEND", {});
  return out;
}

}  // namespace quoin::pictures
