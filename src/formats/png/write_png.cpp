#include <libdeflate.h>
#include <zlib.h>

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

/// Bytes that nobody has written yet: filling 30 MB with zeros first cost as much as deflating.
struct RawBytes {
  explicit RawBytes(std::size_t count)
      : size(count), data(std::make_unique_for_overwrite<std::uint8_t[]>(count)) {}
  std::size_t size;
  std::unique_ptr<std::uint8_t[]> data;
};

/// Rows with a filter byte each: the first predicted from the left, the others from above.
RawBytes filtered(const Raster& raster, int channels) {
  const std::size_t row = static_cast<std::size_t>(raster.width) * static_cast<unsigned>(channels);
  std::vector<std::uint8_t> above(row), here(row);
  RawBytes result(static_cast<std::size_t>(raster.height) * (row + 1));
  std::uint8_t* to = result.data.get();
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

Bytes deflated(const RawBytes& raw) {
  const std::unique_ptr<libdeflate_compressor, decltype(&libdeflate_free_compressor)> compressor(
      libdeflate_alloc_compressor(deflate_level), libdeflate_free_compressor);
  if (!compressor) throw std::bad_alloc();
  RawBytes result(libdeflate_zlib_compress_bound(compressor.get(), raw.size));
  const std::size_t size = libdeflate_zlib_compress(compressor.get(), raw.data.get(), raw.size,
                                                    result.data.get(), result.size);
  return {reinterpret_cast<const char*>(result.data.get()), size};
}

Bytes header(int width, int height, int channels) {
  Bytes data;
  put_32(data, static_cast<std::uint32_t>(width));
  put_32(data, static_cast<std::uint32_t>(height));
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

void expect_whole(const Raster& raster) {
  const auto pixels = static_cast<std::size_t>(std::max(raster.width, 0)) *
                      static_cast<std::size_t>(std::max(raster.height, 0));
  if (pixels == 0 || pixels != raster.pixels.size()) {
    throw std::logic_error("a raster whose size and pixels differ");
  }
}

/// The file up to its pixels; room for `data_size` bytes of them is made.
Bytes begun_file(std::string_view header, double ppi, std::size_t data_size) {
  Bytes png;
  png.reserve(data_size + 1024);
  png = "\x89PNG\r\n\x1a\n";
  put_chunk(png, "IHDR", header);
  put_colour(png);
  put_resolution(png, ppi);
  return png;
}

/// Blocks of deflate without the last one, so that others may follow.
Bytes open_blocks(const RawBytes& raw) {
  z_stream stream{};
  if (deflateInit2(&stream, deflate_level, Z_DEFLATED, -MAX_WBITS, MAX_MEM_LEVEL,
                   Z_DEFAULT_STRATEGY) != Z_OK) {
    throw std::bad_alloc();
  }
  RawBytes result(deflateBound(&stream, raw.size) + 16);
  stream.next_in = raw.data.get();
  stream.avail_in = static_cast<uInt>(raw.size);
  stream.next_out = result.data.get();
  stream.avail_out = static_cast<uInt>(result.size);
  const bool ended = deflate(&stream, Z_FULL_FLUSH) == Z_OK && stream.avail_in == 0;
  const std::size_t size = stream.total_out;
  deflateEnd(&stream);
  if (!ended) throw std::logic_error("a band that would not be deflated");
  return {reinterpret_cast<const char*>(result.data.get()), size};
}

std::size_t raw_size(const PngBand& band) {
  return static_cast<std::size_t>(band.height) * (static_cast<std::size_t>(band.width) * 3 + 1);
}

}  // namespace

Bytes write_png(const Raster& raster, double ppi) {
  expect_whole(raster);
  const int channels = is_opaque(raster) ? 3 : 4;
  const Bytes data = deflated(filtered(raster, channels));
  Bytes png = begun_file(header(raster.width, raster.height, channels), ppi, data.size());
  put_chunk(png, "IDAT", data);
  put_chunk(png, "IEND", {});
  return png;
}

PngBand write_band(const Raster& raster) {
  expect_whole(raster);
  if (!is_opaque(raster)) throw std::logic_error("a band with clear parts");
  const RawBytes rows = filtered(raster, 3);
  return {raster.width, raster.height, libdeflate_adler32(1, rows.data.get(), rows.size),
          open_blocks(rows)};
}

Bytes join_bands(const std::vector<PngBand>& bands, double ppi) {
  if (bands.empty()) throw std::logic_error("a picture of no bands");
  auto sum = static_cast<std::uint32_t>(adler32(0, nullptr, 0));
  int height = 0;
  std::size_t size = 0;
  for (const PngBand& band : bands) {
    if (band.width != bands.front().width) throw std::logic_error("bands of several widths");
    sum = static_cast<std::uint32_t>(
        adler32_combine(sum, band.sum, static_cast<z_off_t>(raw_size(band))));
    height += band.height;
    size += band.data.size() + 12;
  }
  Bytes png = begun_file(header(bands.front().width, height, 3), ppi, size);
  put_chunk(png, "IDAT", "\x78\x01");  // RFC 1950: deflate, a window of 32 KiB, fastest
  for (const PngBand& band : bands) put_chunk(png, "IDAT", band.data);
  Bytes end("\x03\0", 2);  // the last block, with nothing in it
  put_32(end, sum);
  put_chunk(png, "IDAT", end);
  put_chunk(png, "IEND", {});
  return png;
}

}  // namespace quoin
