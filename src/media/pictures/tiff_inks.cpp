#include "media/pictures/tiff_inks.h"

#include <algorithm>
#include <cstring>
#include <vector>

#include "media/pictures/limits.h"

namespace quoin::pictures {
namespace {

constexpr std::uint16_t inks = 4;

/// A strip or tile: its number, its rectangle on the page and how its samples lie.
struct Block {
  std::uint32_t number;
  std::uint32_t x, y, columns, rows;
  std::size_t row_bytes;
};

struct Layout {
  std::uint16_t bits = 8, channels = inks;
  bool in_planes = false;
  [[nodiscard]] std::size_t sample_bytes() const { return bits / 8; }
  [[nodiscard]] std::size_t step() const { return sample_bytes() * (in_planes ? 1 : channels); }
};

/// The 8-bit value of a sample; 16-bit ones come in the machine's own byte order.
std::uint8_t value_at(const std::uint8_t* at, std::uint16_t bits) {
  if (bits == 8) return *at;
  std::uint16_t wide = 0;
  std::memcpy(&wide, at, sizeof wide);
  return static_cast<std::uint8_t>((std::uint32_t{wide} * 255 + 32767) / 65535);
}

/// Copies what the block shows of `ink_count` inks, starting with `first_ink`, into the bitmap.
void put(const Block& block, const std::vector<std::uint8_t>& data, const Layout& layout,
         int first_ink, int ink_count, Bitmap& bitmap) {
  const std::uint32_t rows = std::min(block.rows, std::uint32_t(bitmap.height) - block.y);
  const std::uint32_t columns = std::min(block.columns, std::uint32_t(bitmap.width) - block.x);
  for (std::uint32_t y = 0; y < rows; ++y) {
    const std::uint8_t* in = data.data() + y * block.row_bytes;
    std::uint8_t* out = bitmap.samples.data() +
                        (std::size_t{block.y + y} * std::size_t(bitmap.width) + block.x) * inks;
    for (std::uint32_t x = 0; x < columns; ++x, in += layout.step(), out += inks) {
      for (int c = 0; c < ink_count; ++c) {
        out[first_ink + c] = value_at(in + std::size_t(c) * layout.sample_bytes(), layout.bits);
      }
    }
  }
}

/// Reads one block, whole; a strip at the foot of the page may be shorter.
bool read_block(const TiffFile& tiff, const Block& block, std::vector<std::uint8_t>& data,
                std::uint32_t page_height) {
  const auto most = static_cast<tmsize_t>(data.size());
  const bool tiled = TIFFIsTiled(tiff.handle()) != 0;
  const tmsize_t got = tiled ? TIFFReadEncodedTile(tiff.handle(), block.number, data.data(), most)
                             : TIFFReadEncodedStrip(tiff.handle(), block.number, data.data(), most);
  const std::uint32_t rows = tiled ? block.rows : std::min(block.rows, page_height - block.y);
  return got >= 0 && static_cast<std::size_t>(got) >= rows * block.row_bytes;
}

/// All blocks of one plane, row by row.
std::vector<Block> blocks_of(const TiffFile& tiff, const Layout& layout, std::uint16_t plane,
                             const Bitmap& bitmap) {
  const auto width = std::uint32_t(bitmap.width), height = std::uint32_t(bitmap.height);
  const bool tiled = TIFFIsTiled(tiff.handle()) != 0;
  const auto columns = tiled ? tiff.field<std::uint32_t>(TIFFTAG_TILEWIDTH) : width;
  const auto rows = tiled
                        ? tiff.field<std::uint32_t>(TIFFTAG_TILELENGTH)
                        : std::min(height, tiff.field<std::uint32_t>(TIFFTAG_ROWSPERSTRIP, height));
  std::vector<Block> blocks;
  if (columns == 0 || rows == 0) return blocks;
  for (std::uint32_t y = 0; y < height; y += rows) {
    for (std::uint32_t x = 0; x < width; x += columns) {
      const std::uint32_t number = tiled ? TIFFComputeTile(tiff.handle(), x, y, 0, plane)
                                         : TIFFComputeStrip(tiff.handle(), y, plane);
      blocks.push_back({number, x, y, columns, rows, columns * layout.step()});
    }
  }
  return blocks;
}

Layout layout_of(const TiffFile& tiff) {
  return {tiff.field<std::uint16_t>(TIFFTAG_BITSPERSAMPLE, 1),
          tiff.field<std::uint16_t>(TIFFTAG_SAMPLESPERPIXEL, 1),
          tiff.field<std::uint16_t>(TIFFTAG_PLANARCONFIG, PLANARCONFIG_CONTIG) ==
              PLANARCONFIG_SEPARATE};
}

}  // namespace

bool can_read_inks(const TiffFile& tiff) {
  const Layout layout = layout_of(tiff);
  const auto format = tiff.field<std::uint16_t>(TIFFTAG_SAMPLEFORMAT, SAMPLEFORMAT_UINT);
  const auto ink_set = tiff.field<std::uint16_t>(TIFFTAG_INKSET, INKSET_CMYK);
  return (layout.bits == 8 || layout.bits == 16) && layout.channels >= inks &&
         ink_set == INKSET_CMYK && (format == SAMPLEFORMAT_UINT || format == SAMPLEFORMAT_VOID);
}

bool read_inks(const TiffFile& tiff, Bitmap& bitmap) {
  if (!can_read_inks(tiff)) return false;
  const Layout layout = layout_of(tiff);
  const tmsize_t bytes =
      TIFFIsTiled(tiff.handle()) != 0 ? TIFFTileSize(tiff.handle()) : TIFFStripSize(tiff.handle());
  if (bytes <= 0 || static_cast<std::size_t>(bytes) > most_unpacked) return false;
  std::vector<std::uint8_t> data(static_cast<std::size_t>(bytes));
  for (std::uint16_t plane = 0; plane < (layout.in_planes ? inks : 1); ++plane) {
    for (const Block& block : blocks_of(tiff, layout, plane, bitmap)) {
      if (block.rows * block.row_bytes > data.size()) return false;
      if (!read_block(tiff, block, data, std::uint32_t(bitmap.height))) return false;
      put(block, data, layout, plane, layout.in_planes ? 1 : inks, bitmap);
    }
  }
  return true;
}

}  // namespace quoin::pictures
