#pragma once
// Pictures for the tests, written by the formats' own libraries, and ways to damage them.
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/world.h"
#include "media/picture.h"

namespace quoin::pictures::samples {

/// What a test wants of a PNG; the pixels are always the same for the same wishes.
struct PngWishes {
  int width = 13, height = 11;
  int bits = 8;
  int colour_type = 2;  ///< of the PNG specification
  bool interlaced = false;
  bool keyed = false;   ///< a tRNS chunk
  bool opaque = false;  ///< alpha, if any, is full everywhere
  bool colourless = false;
  Bytes profile = {};
};
[[nodiscard]] Bytes png(const PngWishes& wishes);
/// libpng's own reading of a PNG: 8-bit RGBA.
[[nodiscard]] std::vector<std::uint8_t> libpng_rgba(const Bytes& png);

/// A chunk put in before the first IDAT, with its right checksum.
[[nodiscard]] Bytes with_chunk(const Bytes& png, const std::string& name, const Bytes& body);
/// A PNG that is nothing but a header for that size and one IDAT of `data`.
[[nodiscard]] Bytes bare_png(std::uint32_t width, std::uint32_t height, int bits, int colour_type,
                             const Bytes& data);

/// A zlib stream of the bytes as they are.
[[nodiscard]] Bytes deflated_plainly(const Bytes& bytes);

enum class JpegKind { grey, ycc, rgb, cmyk, ycck, cmyk_without_adobe };
struct JpegWishes {
  int width = 24, height = 16;
  JpegKind kind = JpegKind::ycc;
  bool progressive = false;
  bool arithmetic = false;
  int orientation = 0;                  ///< an Exif segment with it, 0: none
  Bytes profile = {};                   ///< split over APP2 segments of at most 1,000 bytes
  std::vector<std::uint8_t> flat = {};  ///< one value a component for all pixels; else a pattern
};
[[nodiscard]] Bytes jpeg(const JpegWishes& wishes);

enum class WebpKind { lossy, lossless, lossless_with_alpha };
[[nodiscard]] Bytes webp(WebpKind kind, int width, int height);
/// Two frames; the first covers `width` x `height` from (2, 2) on a canvas 4 px larger each way.
[[nodiscard]] Bytes animated_webp(int width, int height);

enum class TiffKind { grey, rgb, rgba, rgb_16, cmyk, cmyk_16, cmyk_planes, cmyk_tiles };
struct TiffWishes {
  int width = 20, height = 12;
  TiffKind kind = TiffKind::rgb;
  int orientation = 1;
  int pages = 1;
  Bytes profile = {};
};
[[nodiscard]] Bytes tiff(const TiffWishes& wishes);
/// The value of channel `c` at (x, y) in every TIFF here, 8 bits.
[[nodiscard]] std::uint8_t tiff_value(int x, int y, int c);

/// Profiles: an RGB one whose red and green primaries are swapped, so that it shows; a grey one of
/// gamma 1; a small CMYK one in which ink c darkens by hand-made rules.
[[nodiscard]] Bytes swapped_rgb_profile();
[[nodiscard]] Bytes linear_grey_profile();
[[nodiscard]] Bytes cmyk_profile();

[[nodiscard]] std::uint32_t pixel(const Raster& raster, int x, int y);

/// Keeps things in memory; counts.
class MemoryCache : public ImageCache {
 public:
  [[nodiscard]] std::optional<Bytes> get(const std::string& key) const override;
  void put(const std::string& key, const Bytes& bytes) override;
  std::map<std::string, Bytes> kept;
  mutable int hits = 0;
};

}  // namespace quoin::pictures::samples
