// JPEG, WebP and TIFF samples.
#include <tiffio.h>
#include <webp/encode.h>

#include <cstdio>
#include <cstring>
#include <memory>

#include "media/pictures/samples.h"

// Needs <cstdio> before it.
#include <jpeglib.h>

namespace quoin::pictures::samples {
namespace {

struct JpegLayout {
  int components;
  J_COLOR_SPACE given, stored;
};
JpegLayout layout_of(JpegKind kind) {
  switch (kind) {
    case JpegKind::grey:
      return {1, JCS_GRAYSCALE, JCS_GRAYSCALE};
    case JpegKind::ycc:
      return {3, JCS_RGB, JCS_YCbCr};
    case JpegKind::rgb:
      return {3, JCS_RGB, JCS_RGB};
    case JpegKind::ycck:
      return {4, JCS_CMYK, JCS_YCCK};
    default:
      return {4, JCS_CMYK, JCS_CMYK};
  }
}

/// An Exif block of one entry, big-endian.
Bytes exif_block(int orientation) {
  using namespace std::string_view_literals;
  Bytes block("Exif\0\0MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0"sv);
  block += static_cast<char>(orientation);
  return block + Bytes(6, '\0');
}

void put_marker(jpeg_compress_struct& info, int marker, const Bytes& body) {
  jpeg_write_marker(&info, marker, reinterpret_cast<const JOCTET*>(body.data()),
                    static_cast<unsigned>(body.size()));
}

void put_markers(jpeg_compress_struct& info, const JpegWishes& wishes) {
  if (wishes.orientation != 0) put_marker(info, JPEG_APP0 + 1, exif_block(wishes.orientation));
  constexpr std::size_t most = 1000;
  const std::size_t pieces = (wishes.profile.size() + most - 1) / most;
  for (std::size_t i = pieces; i-- > 0;) {  // last first: their numbers give the order
    Bytes body("ICC_PROFILE", 12);
    body += {static_cast<char>(i + 1), static_cast<char>(pieces)};
    put_marker(info, JPEG_APP0 + 2, body + wishes.profile.substr(i * most, most));
  }
}

std::uint8_t jpeg_value(const JpegWishes& wishes, int x, int y, int c) {
  if (!wishes.flat.empty()) return wishes.flat.at(static_cast<std::size_t>(c));
  return static_cast<std::uint8_t>(40 + x * 3 + y * 5 + c * 40);
}

}  // namespace

Bytes jpeg(const JpegWishes& wishes) {
  jpeg_compress_struct info{};
  jpeg_error_mgr errors{};
  info.err = jpeg_std_error(&errors);
  jpeg_create_compress(&info);
  unsigned char* out = nullptr;
  unsigned long size = 0;
  jpeg_mem_dest(&info, &out, &size);
  const JpegLayout layout = layout_of(wishes.kind);
  info.image_width = static_cast<JDIMENSION>(wishes.width);
  info.image_height = static_cast<JDIMENSION>(wishes.height);
  info.input_components = layout.components;
  info.in_color_space = layout.given;
  jpeg_set_defaults(&info);
  jpeg_set_colorspace(&info, layout.stored);
  jpeg_set_quality(&info, 95, TRUE);
  info.arith_code = wishes.arithmetic ? TRUE : FALSE;
  if (wishes.kind == JpegKind::cmyk_without_adobe || wishes.kind == JpegKind::rgb) {
    info.write_Adobe_marker = FALSE;
  }
  if (wishes.progressive) jpeg_simple_progression(&info);
  jpeg_start_compress(&info, TRUE);
  put_markers(info, wishes);
  for (int y = 0; y < wishes.height; ++y) {
    std::vector<JSAMPLE> row;
    for (int x = 0; x < wishes.width; ++x) {
      for (int c = 0; c < layout.components; ++c) row.push_back(jpeg_value(wishes, x, y, c));
    }
    JSAMPROW pointer = row.data();
    jpeg_write_scanlines(&info, &pointer, 1);
  }
  jpeg_finish_compress(&info);
  jpeg_destroy_compress(&info);
  const Bytes bytes(reinterpret_cast<char*>(out), size);
  std::free(out);
  return bytes;
}

Bytes webp(WebpKind kind, int width, int height) {
  std::vector<std::uint8_t> rgba;
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      const bool clear = kind == WebpKind::lossless_with_alpha && x < width / 2;
      const int alpha = clear ? 100 : 255;
      for (const int v : {x * 7, y * 9, x + y, alpha}) rgba.push_back(std::uint8_t(v));
    }
  }
  std::uint8_t* out = nullptr;
  const std::size_t size =
      kind == WebpKind::lossy ? WebPEncodeRGBA(rgba.data(), width, height, width * 4, 90, &out)
                              : WebPEncodeLosslessRGBA(rgba.data(), width, height, width * 4, &out);
  const Bytes bytes(reinterpret_cast<char*>(out), size);
  WebPFree(out);
  return bytes;
}

namespace {

Bytes little(std::uint32_t v, int bytes) {
  Bytes out;
  for (int i = 0; i < bytes; ++i) out += static_cast<char>(v >> (8 * i) & 0xff);
  return out;
}
Bytes riff_chunk(const std::string& name, const Bytes& body) {
  return name + little(static_cast<std::uint32_t>(body.size()), 4) + body +
         Bytes(body.size() % 2, '\0');
}

}  // namespace

Bytes animated_webp(int width, int height) {
  const Bytes still = webp(WebpKind::lossless, width, height).substr(12);
  const auto w = static_cast<std::uint32_t>(width), h = static_cast<std::uint32_t>(height);
  const Bytes frame = little(1, 3) + little(1, 3) + little(w - 1, 3) + little(h - 1, 3) +
                      little(100, 3) + little(0, 1) + still;
  const Bytes extended = little(0x12, 4) + little(w + 3, 3) + little(h + 3, 3);
  const Bytes body = "WEBP" + riff_chunk("VP8X", extended) +
                     riff_chunk("ANIM", little(0, 4) + little(0, 2)) + riff_chunk("ANMF", frame) +
                     riff_chunk("ANMF", frame);
  return "RIFF" + little(static_cast<std::uint32_t>(body.size()), 4) + body;
}

namespace {

struct Memory {
  Bytes bytes;
  std::size_t at = 0;
};

TIFF* open_for_writing(Memory& memory) {
  const auto read = [](thandle_t handle, void* to, tmsize_t size) -> tmsize_t {
    auto& m = *static_cast<Memory*>(handle);
    const std::size_t taken =
        std::min(m.bytes.size() - std::min(m.at, m.bytes.size()), static_cast<std::size_t>(size));
    std::memcpy(to, m.bytes.data() + m.at, taken);
    m.at += taken;
    return static_cast<tmsize_t>(taken);
  };
  const auto write = [](thandle_t handle, void* from, tmsize_t size) -> tmsize_t {
    auto& m = *static_cast<Memory*>(handle);
    m.bytes.resize(std::max(m.bytes.size(), m.at + static_cast<std::size_t>(size)));
    std::memcpy(m.bytes.data() + m.at, from, static_cast<std::size_t>(size));
    m.at += static_cast<std::size_t>(size);
    return size;
  };
  const auto seek = [](thandle_t handle, toff_t offset, int whence) -> toff_t {
    auto& m = *static_cast<Memory*>(handle);
    const std::size_t base = whence == SEEK_CUR ? m.at : whence == SEEK_END ? m.bytes.size() : 0;
    return m.at = base + offset;
  };
  const auto size = [](thandle_t handle) -> toff_t {
    return static_cast<Memory*>(handle)->bytes.size();
  };
  return TIFFClientOpen(
      "sample", "wm", &memory, read, write, seek, [](thandle_t) { return 0; }, size, nullptr,
      nullptr);
}

int channels_of(TiffKind kind) {
  switch (kind) {
    case TiffKind::grey:
      return 1;
    case TiffKind::rgb:
    case TiffKind::rgb_16:
      return 3;
    default:
      return 4;
  }
}

void describe(TIFF* tiff, const TiffWishes& wishes) {
  const bool wide = wishes.kind == TiffKind::rgb_16 || wishes.kind == TiffKind::cmyk_16;
  const bool inks = wishes.kind >= TiffKind::cmyk;
  TIFFSetField(tiff, TIFFTAG_IMAGEWIDTH, wishes.width);
  TIFFSetField(tiff, TIFFTAG_IMAGELENGTH, wishes.height);
  TIFFSetField(tiff, TIFFTAG_BITSPERSAMPLE, wide ? 16 : 8);
  TIFFSetField(tiff, TIFFTAG_SAMPLESPERPIXEL, channels_of(wishes.kind));
  TIFFSetField(tiff, TIFFTAG_PHOTOMETRIC,
               inks                            ? PHOTOMETRIC_SEPARATED
               : wishes.kind == TiffKind::grey ? PHOTOMETRIC_MINISBLACK
                                               : PHOTOMETRIC_RGB);
  TIFFSetField(tiff, TIFFTAG_PLANARCONFIG,
               wishes.kind == TiffKind::cmyk_planes ? PLANARCONFIG_SEPARATE : PLANARCONFIG_CONTIG);
  TIFFSetField(tiff, TIFFTAG_ORIENTATION, wishes.orientation);
  TIFFSetField(tiff, TIFFTAG_COMPRESSION, COMPRESSION_LZW);
  if (wishes.kind == TiffKind::rgba) {
    std::uint16_t alpha = EXTRASAMPLE_UNASSALPHA;
    TIFFSetField(tiff, TIFFTAG_EXTRASAMPLES, 1, &alpha);
  }
  if (!wishes.profile.empty()) {
    TIFFSetField(tiff, TIFFTAG_ICCPROFILE, static_cast<std::uint32_t>(wishes.profile.size()),
                 wishes.profile.data());
  }
  if (wishes.kind == TiffKind::cmyk_tiles) {
    TIFFSetField(tiff, TIFFTAG_TILEWIDTH, 16);
    TIFFSetField(tiff, TIFFTAG_TILELENGTH, 16);
  } else {
    TIFFSetField(tiff, TIFFTAG_ROWSPERSTRIP, 5);
  }
}

std::vector<std::uint8_t> row_of(const TiffWishes& wishes, int y, int from_x, int columns,
                                 int first, int count) {
  const bool wide = wishes.kind == TiffKind::rgb_16 || wishes.kind == TiffKind::cmyk_16;
  std::vector<std::uint8_t> row;
  for (int x = from_x; x < from_x + columns; ++x) {
    for (int c = first; c < first + count; ++c) {
      const std::uint8_t v = tiff_value(x, y, c);
      row.push_back(v);
      if (wide) row.push_back(v);  // v x 257, whatever the byte order
    }
  }
  return row;
}

void write_tiles(TIFF* tiff, const TiffWishes& wishes) {
  constexpr int side = 16;
  for (int y = 0; y < wishes.height; y += side) {
    for (int x = 0; x < wishes.width; x += side) {
      std::vector<std::uint8_t> tile;
      for (int row = y; row < y + side; ++row) {
        const auto bytes = row_of(wishes, row, x, side, 0, 4);
        tile.insert(tile.end(), bytes.begin(), bytes.end());
      }
      TIFFWriteTile(tiff, tile.data(), std::uint32_t(x), std::uint32_t(y), 0, 0);
    }
  }
}

void write_page(TIFF* tiff, const TiffWishes& wishes) {
  describe(tiff, wishes);
  const int channels = channels_of(wishes.kind);
  if (wishes.kind == TiffKind::cmyk_tiles) return write_tiles(tiff, wishes);
  const int planes = wishes.kind == TiffKind::cmyk_planes ? channels : 1;
  for (int plane = 0; plane < planes; ++plane) {
    for (int y = 0; y < wishes.height; ++y) {
      auto row = row_of(wishes, y, 0, wishes.width, plane, channels / planes);
      TIFFWriteScanline(tiff, row.data(), std::uint32_t(y), std::uint16_t(plane));
    }
  }
}

}  // namespace

std::uint8_t tiff_value(int x, int y, int c) {
  return static_cast<std::uint8_t>(x * 11 + y * 7 + c * 50);
}

Bytes tiff(const TiffWishes& wishes) {
  Memory memory;
  TIFF* tiff = open_for_writing(memory);
  for (int page = 0; page < wishes.pages; ++page) {
    write_page(tiff, wishes);
    TIFFWriteDirectory(tiff);
  }
  TIFFClose(tiff);
  return memory.bytes;
}

}  // namespace quoin::pictures::samples
